import { flipEdge } from "./change-edges.ts";
import { type Facets, joined, next } from "./facets.ts";
import { gapOf, shapeAt, shapeOf } from "./shape.ts";
import { put, type Worklist } from "./worklist.ts";

/** Triangles whose angles are all over this are left as they are. */
const GOOD = shapeAt(40);

/** Turned during the present pass; all three edges of it have been looked at. */
const TURNED = 1;
const LOOKED_AT = 2;
let marks = new Uint8Array(0);
/** Shape of each triangle, and the pass in which it was measured: most are asked for from three sides. */
let shapes = new Float64Array(0);
let measuredIn = new Uint32Array(0);
let pass = 0;

/**
 * Turns the edge of half-edge `h` to the other diagonal when that makes the smaller angle of its two triangles larger and
 * leaves the surface by no more than `tolerance` mm (or by no more than the old edge did). True when turned.
 */
function flipIfBetter(m: Facets, h: number, tolerance: number): boolean {
  const { corner, twin } = m;
  const g = twin[h];
  const own = (h / 3) | 0;
  const beside = (g / 3) | 0;
  measure(m, own);
  measure(m, beside);
  const before = Math.min(shapes[own], shapes[beside]);
  if (before > GOOD) return false;
  const h1 = next(h);
  const g1 = next(g);
  const a = corner[h];
  const b = corner[h1];
  const c = corner[next(h1)];
  const d = corner[next(g1)];
  const one = shapeOf(m, c, a, d);
  if (one <= before * 1.02 + 1e-6) return false;
  const after = Math.min(one, shapeOf(m, d, b, c));
  if (after <= before * 1.02 + 1e-6) return false;
  const gap = gapOf(m, c, d);
  if (gap > tolerance && before > 0 && gap > gapOf(m, a, b)) return false;
  // Round a vertex of three triangles the other diagonal exists already.
  if (c === d || joined(m, c, d)) return false;
  flipEdge(m, h);
  measuredIn[own] = 0;
  measuredIn[beside] = 0;
  return true;
}

/** Sees to it that a triangle's shape is known. */
function measure(m: Facets, triangle: number): void {
  if (measuredIn[triangle] === pass) return;
  const t = 3 * triangle;
  shapes[triangle] = shapeOf(m, m.corner[t], m.corner[t + 1], m.corner[t + 2]);
  measuredIn[triangle] = pass;
}

/** Turns diagonals of the listed triangles and their neighbours while that helps; triangles so changed join the list. */
export function flipAround(m: Facets, list: Worklist, tolerance: number): void {
  const { corner, twin } = m;
  if (marks.length < m.triangles) {
    marks = new Uint8Array(2 * m.triangles);
    shapes = new Float64Array(2 * m.triangles);
    measuredIn = new Uint32Array(2 * m.triangles);
  }
  pass++;
  for (let n = 0; n < list.length; n++) {
    const triangle = list.items[n];
    const t = 3 * triangle;
    if (corner[t] < 0) continue;
    for (let h = t; h < t + 3; h++) {
      const g = twin[h];
      if (g < 0) continue;
      const beside = (g / 3) | 0;
      // Judged from the other side already, and both are as they were then.
      if (marks[beside] === LOOKED_AT && (marks[triangle] & TURNED) === 0) continue;
      if (!flipIfBetter(m, h, tolerance)) continue;
      put(list, beside);
      marks[beside] |= TURNED;
      marks[triangle] |= TURNED;
    }
    marks[triangle] |= LOOKED_AT;
  }
  for (let n = 0; n < list.length; n++) marks[list.items[n]] = 0;
}
