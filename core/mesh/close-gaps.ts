import { bisectEdge } from "./bisect-edge.ts";
import { type Facets, next } from "./facets.ts";
import { flipAround } from "./flip.ts";
import type { Seat } from "./seat.ts";
import { DOME, mostGapOf, rises, squareLength, unevennessOf } from "./shape.ts";
import type { Space } from "./space.ts";
import { makeWorklist, put, type Worklist } from "./worklist.ts";

/** New edges are made only where the gap foreseen is below this part of the limit: then it is beyond doubt. */
export const BEYOND_DOUBT = 0.5;
/** No gap of a triangle can be over the limit where all its heights are below this many limits: those of edges are half a height at most, a middle's ⅔. */
const BENT = 1.5;
/**
 * Where so many faces meet within a brick of space, the surface may go out and in again between the ends of an edge, which their
 * heights over the tangent planes do not tell: there every edge is measured whose two heights differ by this part of the limit.
 */
const CROWD = 4;
const UNEVEN = 0.2;
/** Edges shorter than this are left alone, mm: only a tear or a crease leaves a gap there. */
const SHORTEST = 5;

/**
 * Measures the gap between chords and surface wherever it may be near the limit, at the middles of edges and of
 * triangles, and splits the longest edge of every triangle at fault. Returns the triangles that changed.
 */
export function closeGaps(m: Facets, space: Space, seat: Seat, limit: number, among: Worklist): Worklist {
  const touched = makeWorklist(m.triangles);
  const gapAt = (x: number, y: number, z: number): number => {
    const field = space.fieldAt(x, y, z);
    return Math.abs(field.evaluate(x, y, z));
  };
  for (let n = 0; n < among.length; n++) {
    const t = 3 * among.items[n];
    if (m.corner[t] < 0) continue;
    // Most are flat: where they lie is asked of the others only.
    if (!rises(m, t, UNEVEN * limit)) continue;
    const crowded = isCrowded(space, m, m.corner[t]);
    if (!crowded && !rises(m, t, BENT * limit)) continue;
    let worst = 0;
    let worstEdge = -1;
    let long = t;
    let square = 0;
    let sum = 0;
    let measured = false;
    for (let h = t; h < t + 3; h++) {
      const a = m.corner[h];
      const b = m.corner[next(h)];
      const gap = mostGapOf(m, a, b);
      sum += gap;
      const l = squareLength(m, a, b);
      if (l > square) {
        square = l;
        long = h;
      }
      if (gap < limit && !(crowded && unevennessOf(m, a, b) > UNEVEN * limit)) continue;
      measured = true;
      // Each edge once, though both its triangles may be listed.
      if (m.twin[h] > h && among.held[Math.floor(m.twin[h] / 3)] === 1) continue;
      const p = m.position;
      const g = gapAt(
        (p[3 * a] + p[3 * b]) / 2,
        (p[3 * a + 1] + p[3 * b + 1]) / 2,
        (p[3 * a + 2] + p[3 * b + 2]) / 2,
      );
      if (g > limit && g > worst) {
        worst = g;
        worstEdge = h;
      }
    }
    let split = worstEdge;
    // The middle of a triangle lies lower than the middles of its edges by up to a third.
    if (split < 0 && ((crowded && measured) || sum * DOME > limit)) {
      const p = m.position;
      const [a, b, c] = [3 * m.corner[t], 3 * m.corner[t + 1], 3 * m.corner[t + 2]];
      const middle = gapAt(
        (p[a] + p[b] + p[c]) / 3,
        (p[a + 1] + p[b + 1] + p[c + 1]) / 3,
        (p[a + 2] + p[b + 2] + p[c + 2]) / 3,
      );
      if (middle > limit) split = long;
    }
    if (split < 0 || square < SHORTEST * SHORTEST) continue;
    const g = m.twin[split];
    put(touched, (split / 3) | 0);
    if (g >= 0) put(touched, (g / 3) | 0);
    for (let k = m.triangles; k < m.triangles + (g < 0 ? 1 : 2); k++) put(touched, k);
    bisectEdge(m, seat, split);
  }
  // Or turning diagonals would bring the gaps back.
  flipAround(m, touched, BEYOND_DOUBT * limit);
  return touched;
}

function isCrowded(space: Space, { position }: Facets, v: number): boolean {
  const { meeting } = space.fieldAt(position[3 * v], position[3 * v + 1], position[3 * v + 2]);
  return meeting !== undefined && meeting >= CROWD;
}
