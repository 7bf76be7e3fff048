import { bisectEdge } from "./bisect-edge.ts";
import { ADRIFT, aroundFrom, type Facets, next, SEATED, startOf } from "./facets.ts";
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

/**
 * Cuts the net at the field's edge: vertices near the cut are drawn onto it, edges that still cross it are split there,
 * and what lies beyond is dropped. Vertices of the new open boundary stand on the surface and on the cut.
 */
export function trim(space: Space, seat: Seat, m: Facets): Facets {
  const edge = space.field.edge;
  if (!edge) return m;
  const { position } = m;
  let beyond = new Float64Array(m.vertices);
  for (let v = 0; v < m.vertices; v++) {
    const x = position[3 * v];
    const y = position[3 * v + 1];
    const z = position[3 * v + 2];
    beyond[v] = space.cutAt(x, y, z)?.evaluate(x, y, z) ?? -space.radius;
  }

  const before = 3 * m.triangles;
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
  for (let h = before; h < 3 * m.triangles; h++) splitAtCut(h);
  return keepInside();

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
    seat.point.set(m.position.subarray(3 * v, 3 * v + 3));
    return seat.onCut(reach);
  }

  function drawOntoCut(v: number, other: number): void {
    const at = 3 * v;
    const before = m.position.slice(at, at + 3);
    const normalBefore = m.normal.slice(at, at + 3);
    seat.point.set(before);
    const reach =
      NEAR *
      2 *
      Math.hypot(
        m.position[3 * other] - before[0],
        m.position[3 * other + 1] - before[1],
        m.position[3 * other + 2] - before[2],
      );
    if (!seat.onCut(reach)) return;
    const worst = worstRound(m, v);
    placeAtSeat(m, v, seat);
    const now = worstRound(m, v);
    if (now < worst && now < LEAST_SHAPE) {
      m.position.set(before, at);
      m.normal.set(normalBefore, at);
      m.owner[v] = -1;
      return;
    }
    beyond[v] = 0;
    m.onCut[v] = 1;
    m.standing[v] = SEATED;
  }

  /** The triangles inside, moved up; those at the cut are open there. */
  function keepInside(): Facets {
    const { corner, twin } = m;
    /** Number of each triangle among those kept, −1 for the others. */
    const numberOf = new Int32Array(m.triangles).fill(-1);
    let triangles = 0;
    for (let t = 0; t < 3 * m.triangles; t += 3) {
      const a = beyond[corner[t]];
      const b = beyond[corner[t + 1]];
      const c = beyond[corner[t + 2]];
      if (a > ON_CUT || b > ON_CUT || c > ON_CUT) continue;
      // All three corners on the cut: the middle decides.
      if (a >= -ON_CUT && b >= -ON_CUT && c >= -ON_CUT && !middleInside(t)) continue;
      numberOf[t / 3] = triangles++;
    }
    m.leaving.fill(-1, 0, m.vertices);
    // A triangle's place among those kept is never behind its own: nothing is overwritten before it is read.
    for (let t = 0; t < m.triangles; t++) {
      if (numberOf[t] < 0) continue;
      for (let i = 0; i < 3; i++) {
        const to = 3 * numberOf[t] + i;
        const other = twin[3 * t + i];
        const neighbour = other < 0 ? -1 : numberOf[(other / 3) | 0];
        corner[to] = corner[3 * t + i];
        twin[to] = neighbour < 0 ? -1 : 3 * neighbour + (other % 3);
        m.leaving[corner[to]] = to;
      }
    }
    m.triangles = triangles;
    partFans(m);
    return m;
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
    if (crosses(a, b) || crosses(b, c) || crosses(c, a)) found.push(t);
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
