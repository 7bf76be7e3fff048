import { type Facets, flipEdge, joined, next } from "./facets.ts";
import { gapOf, shapeAt, shapeOf } from "./shape.ts";
import { put, type Worklist } from "./worklist.ts";

/** Triangles whose angles are all over this are left as they are. */
const GOOD = shapeAt(40);

/**
 * Turns the edge of half-edge `h` to the other diagonal when that makes the smaller angle of its two triangles larger
 * and leaves the surface by no more than `tolerance` mm (or by no more than the old edge did). True when turned.
 */
function flipIfBetter(m: Facets, h: number, tolerance: number): boolean {
  const { corner, twin } = m;
  const g = twin[h];
  if (g < 0) return false;
  const h1 = next(h);
  const g1 = next(g);
  const a = corner[h];
  const b = corner[h1];
  const c = corner[next(h1)];
  const d = corner[next(g1)];
  const before = Math.min(shapeOf(m, a, b, c), shapeOf(m, b, a, d));
  if (before > GOOD) return false;
  const one = shapeOf(m, c, a, d);
  if (one <= before * 1.02 + 1e-6) return false;
  const after = Math.min(one, shapeOf(m, d, b, c));
  if (after <= before * 1.02 + 1e-6) return false;
  const gap = gapOf(m, c, d);
  if (gap > tolerance && before > 0 && gap > gapOf(m, a, b)) return false;
  // Round a vertex of three triangles the other diagonal exists already.
  if (c === d || joined(m, c, d)) return false;
  flipEdge(m, h);
  return true;
}

/** Turns diagonals of the listed triangles and their neighbours while that helps; triangles so changed join the list. */
export function flipAround(m: Facets, list: Worklist, tolerance: number): void {
  for (let n = 0; n < list.length; n++) {
    const t = 3 * list.items[n];
    if (m.corner[t] < 0) continue;
    for (let h = t; h < t + 3; h++) {
      const g = m.twin[h];
      if (flipIfBetter(m, h, tolerance)) put(list, (g / 3) | 0);
    }
  }
}
