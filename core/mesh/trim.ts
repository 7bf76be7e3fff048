import { bisectEdge } from "./bisect-edge.ts";
import { ADRIFT, aroundFrom, type Facets, next, SEATED, startOf, unplain } from "./facets.ts";
import { partFans } from "./part-fans.ts";
import { placeAtSeat, type Seat } from "./seat.ts";
import { shapeAt, shapeOf, squareLength } from "./shape.ts";
import type { Space } from "./space.ts";

/** A vertex this near to the cut, as a part of an edge that crosses it, is moved onto the cut. */
const NEAR = 0.3;
/** A vertex is not moved where that would leave an angle under 8°. */
const LEAST_SHAPE = shapeAt(8);
/** On the cut, mm. */
const ON_CUT = 1e-9;
/** Place and normal of a vertex before it is moved. */
const before = new Float64Array(6);

/**
 * Cuts the net at the field's edge: vertices near the cut are drawn onto it, edges that still cross it are split there,
 * and what lies beyond is dropped. Vertices of the new open boundary stand on the surface and on the cut.
 */
export function trim(space: Space, seat: Seat, m: Facets): void {
  const edge = space.field.edge;
  if (!edge) return;
  const { position } = m;
  let beyond = new Float64Array(m.vertices);
  for (let v = 0; v < m.vertices; v++) {
    const x = position[3 * v];
    const y = position[3 * v + 1];
    const z = position[3 * v + 2];
    beyond[v] = space.cutAt(x, y, z)?.evaluate(x, y, z) ?? -space.radius;
  }

  const uncut = 3 * m.triangles;
  const near = trianglesAtCut(m, beyond);
  for (let n = 0; n < near.length; n++)
    for (let h = near[n]; h < near[n] + 3; h++) {
      if (m.twin[h] > h) continue;
      const a = m.corner[h];
      const b = m.corner[next(h)];
      if (!crosses(beyond[a], beyond[b])) continue;
      const t = beyond[a] / (beyond[a] - beyond[b]);
      if (t < NEAR) drawOntoCut(a, b);
      else if (t > 1 - NEAR) drawOntoCut(b, a);
    }
  for (let n = 0; n < near.length; n++) for (let h = near[n]; h < near[n] + 3; h++) splitAtCut(h);
  // What splits have added; none of the edges added between two vertices of the cut crosses it.
  for (let h = uncut; h < 3 * m.triangles; h++) splitAtCut(h);
  takeOut();

  /** Splits the edge of a half-edge where it crosses the cut. */
  function splitAtCut(h: number): void {
    const a = m.corner[h];
    const b = m.corner[next(h)];
    if (!crosses(beyond[a], beyond[b])) return;
    const t = beyond[a] / (beyond[a] - beyond[b]);
    const v = bisectEdge(m, seat, h, Math.min(Math.max(t, 0.02), 0.98));
    if (v >= beyond.length) {
      const larger = new Float64Array(2 * v);
      larger.set(beyond);
      beyond = larger;
    }
    beyond[v] = 0;
    m.onCut[v] = 1;
    const reach = Math.sqrt(squareLength(m, a, b));
    // The middle of a coarse edge round the lip may have landed on its top, level with the cut: then from the end beyond it.
    const settled = settlesFrom(v, reach) || settlesFrom(beyond[a] > 0 ? a : b, reach);
    m.standing[v] = settled ? SEATED : ADRIFT;
    if (settled) placeAtSeat(m, v, seat);
  }

  function settlesFrom(v: number, reach: number): boolean {
    for (let i = 0; i < 3; i++) seat.point[i] = m.position[3 * v + i];
    return seat.onCut(reach);
  }

  function drawOntoCut(v: number, other: number): void {
    const at = 3 * v;
    for (let i = 0; i < 3; i++) {
      before[i] = m.position[at + i];
      before[3 + i] = m.normal[at + i];
      seat.point[i] = before[i];
    }
    if (!seat.onCut(2 * NEAR * Math.sqrt(squareLength(m, v, other)))) return;
    const worst = worstRound(m, v);
    placeAtSeat(m, v, seat);
    const now = worstRound(m, v);
    if (now < worst && now < LEAST_SHAPE) {
      for (let i = 0; i < 3; i++) {
        m.position[at + i] = before[i];
        m.normal[at + i] = before[3 + i];
      }
      m.owner[v] = -1;
      return;
    }
    unplain(m, v);
    beyond[v] = 0;
    m.onCut[v] = 1;
    m.standing[v] = SEATED;
  }

  /** Takes out the triangles beyond the cut; those at it are open there. */
  function takeOut(): void {
    const { corner, twin, leaving } = m;
    for (let t = 0; t < 3 * m.triangles; t += 3) {
      const a = beyond[corner[t]];
      const b = beyond[corner[t + 1]];
      const c = beyond[corner[t + 2]];
      if (a <= ON_CUT && b <= ON_CUT && c <= ON_CUT) {
        // All three corners on the cut: the middle decides.
        if (a < -ON_CUT || b < -ON_CUT || c < -ON_CUT || middleInside(t)) continue;
      }
      for (let h = t; h < t + 3; h++) {
        if (twin[h] >= 0) twin[twin[h]] = -1;
        leaving[corner[h]] = -1;
        corner[h] = -1;
      }
    }
    // Every vertex that has lost some of its triangles, and not all, stands on the open boundary now: it gets its way in there.
    partFans(m);
  }

  function middleInside(t: number): boolean {
    const c = [0, 0, 0];
    for (let i = 0; i < 3; i++) for (let k = 0; k < 3; k++) c[k] += m.position[3 * m.corner[t + i] + k] / 3;
    return (edge as NonNullable<typeof edge>).evaluate(c[0], c[1], c[2]) <= 0;
  }
}

/** First half-edges of the triangles that the cut runs through. */
function trianglesAtCut(m: Facets, beyond: Float64Array): readonly number[] {
  const { corner } = m;
  const found: number[] = [];
  for (let t = 0; t < 3 * m.triangles; t += 3) {
    const a = beyond[corner[t]];
    const b = beyond[corner[t + 1]];
    const c = beyond[corner[t + 2]];
    if (Math.min(a, b, c) < -ON_CUT && Math.max(a, b, c) > ON_CUT) found.push(t);
  }
  return found;
}

function crosses(a: number, b: number): boolean {
  return (a > ON_CUT && b < -ON_CUT) || (a < -ON_CUT && b > ON_CUT);
}

/** Smallest shape of the triangles round a vertex. */
function worstRound(m: Facets, v: number): number {
  const start = startOf(m, v);
  let worst = 1;
  let h = start;
  do {
    const b = next(h);
    worst = Math.min(worst, shapeOf(m, v, m.corner[b], m.corner[next(b)]));
    h = aroundFrom(m, h);
  } while (h >= 0 && h !== start);
  return worst;
}
