import { FLAT_MM } from "./bisect-edge.ts";
import { aroundFrom, type Facets, next, startOf } from "./facets.ts";
import type { Seat } from "./seat.ts";
import { gapOf, shapeOf } from "./shape.ts";

/** Neighbours of one vertex in order; on an open boundary the first and the last lie on the boundary. */
const MOST_NEIGHBOURS = 64;
const ring = new Int32Array(MOST_NEIGHBOURS);
const before = new Float64Array(6);

/**
 * Slides a vertex along the surface (along the boundary, if it stands on it) to where the smallest angle round it grows,
 * without letting an edge leave the surface by more than `tolerance` mm. Returns whether it moved.
 */
export function smoothVertex(m: Facets, seat: Seat, v: number, tolerance: number): boolean {
  if (m.adrift[v] === 1) return false;
  const start = startOf(m, v);
  const { corner, position, normal } = m;
  let n = 0;
  let h = start;
  let closed = true;
  for (;;) {
    if (n + 2 > MOST_NEIGHBOURS) return false;
    ring[n++] = corner[next(h)];
    const on = aroundFrom(m, h);
    if (on < 0) {
      ring[n++] = corner[next(next(h))];
      closed = false;
      break;
    }
    h = on;
    if (h === start) break;
  }
  // An open edge off the cut (a net that leaves its bounds) stays where it is.
  if (!closed && m.onCut[v] === 0) return false;
  const worst = worstShape(m, v, n, closed);
  const gap = worstGap(m, v, n);
  const flat = gap <= FLAT_MM;
  const at = 3 * v;
  for (let i = 0; i < 3; i++) {
    before[i] = position[at + i];
    before[3 + i] = normal[at + i];
  }
  let longest = 0;
  for (let i = 0; i < n; i++) {
    const r = 3 * ring[i];
    longest = Math.max(
      longest,
      (position[r] - before[0]) ** 2 +
        (position[r + 1] - before[1]) ** 2 +
        (position[r + 2] - before[2]) ** 2,
    );
  }
  const reach = Math.sqrt(longest);
  for (let attempt = 0; attempt < 3; attempt++) {
    aim(m, n, closed, attempt);
    const part = attempt === 2 ? 0.4 : 1;
    for (let i = 0; i < 3; i++) position[at + i] = before[i] + part * (wanted[i] - before[i]);
    // Seldom worth asking the field when the unseated place is no better.
    if (worstShape(m, v, n, closed) > worst * 1.03 + 1e-4) {
      if (flat && closed) return true;
      seat.point[0] = position[at];
      seat.point[1] = position[at + 1];
      seat.point[2] = position[at + 2];
      if (closed ? seat.onSurface(reach / 2) : seat.onCut(reach / 2)) {
        for (let i = 0; i < 3; i++) {
          position[at + i] = seat.point[i];
          normal[at + i] = seat.normal[i];
        }
        if (worstShape(m, v, n, closed) > worst * 1.03 + 1e-4) {
          const now = worstGap(m, v, n);
          if (now <= tolerance || now <= gap || worst <= 0) return true;
        }
      }
    }
    for (let i = 0; i < 3; i++) {
      position[at + i] = before[i];
      normal[at + i] = before[3 + i];
    }
  }
  return false;
}

const wanted = new Float64Array(3);

/** Sets `wanted` to where to try: the mean of the neighbours, or of the opposite edges weighted by their lengths. */
function aim(m: Facets, n: number, closed: boolean, attempt: number): void {
  const p = m.position;
  wanted.fill(0);
  if (!closed) {
    const a = 3 * ring[0];
    const b = 3 * ring[n - 1];
    for (let i = 0; i < 3; i++) wanted[i] = (p[a + i] + p[b + i]) / 2;
    return;
  }
  if (attempt !== 1) {
    for (let k = 0; k < n; k++) for (let i = 0; i < 3; i++) wanted[i] += p[3 * ring[k] + i] / n;
    return;
  }
  let total = 0;
  for (let k = 0; k < n; k++) {
    const a = 3 * ring[k];
    const b = 3 * ring[k + 1 === n ? 0 : k + 1];
    const w = Math.sqrt((p[a] - p[b]) ** 2 + (p[a + 1] - p[b + 1]) ** 2 + (p[a + 2] - p[b + 2]) ** 2);
    total += w;
    for (let i = 0; i < 3; i++) wanted[i] += (w * (p[a + i] + p[b + i])) / 2;
  }
  for (let i = 0; i < 3; i++) wanted[i] /= total;
}

function worstShape(m: Facets, v: number, n: number, closed: boolean): number {
  let worst = 1;
  for (let i = closed ? 0 : 1; i < n; i++) {
    const s = shapeOf(m, v, ring[i === 0 ? n - 1 : i - 1], ring[i]);
    if (s < worst) worst = s;
  }
  return worst;
}

function worstGap(m: Facets, v: number, n: number): number {
  let worst = 0;
  for (let i = 0; i < n; i++) {
    const g = gapOf(m, v, ring[i]);
    if (g > worst) worst = g;
  }
  return worst;
}
