import { FLAT_MM } from "./bisect-edge.ts";
import {
  ADRIFT,
  aroundFrom,
  type Facets,
  next,
  previous,
  SEATED,
  startOf,
  TAKEN,
  unplain,
} from "./facets.ts";
import { placeAtSeat, type Seat } from "./seat.ts";
import { gapOf, shapeOf } from "./shape.ts";

const MOST_NEIGHBOURS = 64;
/** Neighbours of the vertex in order; on an open boundary the first and the last lie on the boundary. */
const ring = new Int32Array(MOST_NEIGHBOURS);
let count = 0;
/** No boundary runs through the vertex. */
let closed = true;
/** Place and normal before the move, and the place to try. */
const before = new Float64Array(6);
const wanted = new Float64Array(3);

/** A move has to better the shape by this much to be kept. */
const isBetter = (shape: number, than: number): boolean => shape > than * 1.03 + 1e-4;

/**
 * Slides a vertex along the surface (along the boundary, if it stands on it) to where the smallest angle round it grows,
 * without letting an edge leave the surface by more than `tolerance` mm. Returns whether it moved.
 */
export function smoothVertex(m: Facets, seat: Seat, v: number, tolerance: number): boolean {
  if (m.standing[v] === ADRIFT || !gatherRing(m, v)) return false;
  // An open edge off the cut (a net that leaves its bounds) stays where it is.
  if (!closed && m.onCut[v] === 0) return false;
  const { position, normal } = m;
  const at = 3 * v;
  for (let i = 0; i < 3; i++) {
    before[i] = position[at + i];
    before[3 + i] = normal[at + i];
  }
  const owner = m.owner[v];
  const worst = worstShape(m, v);
  const gap = worstGap(m, v);
  const aims = closed ? aimsInside : aimsOnBoundary;
  for (const aim of aims) {
    aim(m, v);
    for (let i = 0; i < 3; i++) position[at + i] = wanted[i];
    // Seldom worth asking the field when the unseated place is no better.
    if (isBetter(worstShape(m, v), worst)) {
      if (closed && gap <= FLAT_MM) {
        m.standing[v] = TAKEN;
        m.owner[v] = -1;
        return true;
      }
      if (settles(m, seat, v) && isBetter(worstShape(m, v), worst)) {
        const now = worstGap(m, v);
        if (now <= tolerance || now <= gap || worst <= 0) {
          unplain(m, v);
          m.standing[v] = SEATED;
          return true;
        }
      }
    }
    for (let i = 0; i < 3; i++) {
      position[at + i] = before[i];
      normal[at + i] = before[3 + i];
    }
    m.owner[v] = owner;
  }
  return false;
}

function gatherRing(m: Facets, v: number): boolean {
  const start = startOf(m, v);
  count = 0;
  closed = true;
  let h = start;
  for (;;) {
    if (count + 2 > MOST_NEIGHBOURS) return false;
    ring[count++] = m.corner[next(h)];
    const on = aroundFrom(m, h);
    if (on < 0) {
      ring[count++] = m.corner[previous(h)];
      closed = false;
      return true;
    }
    h = on;
    if (h === start) return true;
  }
}

/** Seats the vertex at the place to try, no further away than half its longest edge. */
function settles(m: Facets, seat: Seat, v: number): boolean {
  const { position: p } = m;
  let longest = 0;
  for (let k = 0; k < count; k++) {
    const r = 3 * ring[k];
    longest = Math.max(
      longest,
      (p[r] - before[0]) ** 2 + (p[r + 1] - before[1]) ** 2 + (p[r + 2] - before[2]) ** 2,
    );
  }
  const reach = Math.sqrt(longest) / 2;
  for (let i = 0; i < 3; i++) seat.point[i] = wanted[i];
  if (!(closed ? seat.onSurface(reach) : seat.onCut(reach))) return false;
  placeAtSeat(m, v, seat);
  return true;
}

type Aim = (m: Facets, v: number) => void;

/** Places to try: the mean of the neighbours, that of the opposite edges by their lengths, part of the way, … */
const aimsInside: readonly Aim[] = [
  (m) => meanOfNeighbours(m, 1),
  meanOfEdges,
  (m) => meanOfNeighbours(m, 0.4),
  // … and towards the apex of a right-angled, then a flatter triangle on the worst one's far edge.
  (m, v) => towardsApex(m, v, 0.5),
  (m, v) => towardsApex(m, v, 0.2),
];

const aimsOnBoundary: readonly Aim[] = [
  (m) => between(m, 0.5, 1),
  (m) => between(m, 0, 0.25),
  (m) => between(m, 1, 0.25),
];

function meanOfNeighbours({ position: p }: Facets, part: number): void {
  for (let i = 0; i < 3; i++) {
    let sum = 0;
    for (let k = 0; k < count; k++) sum += p[3 * ring[k] + i];
    wanted[i] = before[i] + part * (sum / count - before[i]);
  }
}

function meanOfEdges({ position: p }: Facets): void {
  wanted.fill(0);
  let total = 0;
  for (let k = 0; k < count; k++) {
    const a = 3 * ring[k];
    const b = 3 * ring[k + 1 === count ? 0 : k + 1];
    const w = Math.sqrt((p[a] - p[b]) ** 2 + (p[a + 1] - p[b + 1]) ** 2 + (p[a + 2] - p[b + 2]) ** 2);
    total += w;
    for (let i = 0; i < 3; i++) wanted[i] += (w * (p[a + i] + p[b + i])) / 2;
  }
  for (let i = 0; i < 3; i++) wanted[i] /= total;
}

function towardsApex(m: Facets, v: number, part: number): void {
  const p = m.position;
  let worst = 2;
  let a = 0;
  let b = 0;
  for (let k = 0; k < count; k++) {
    const r = ring[k];
    const s = ring[k + 1 === count ? 0 : k + 1];
    const shape = shapeOf(m, v, r, s);
    if (shape < worst) {
      worst = shape;
      a = 3 * r;
      b = 3 * s;
    }
  }
  const dx = p[b] - p[a];
  const dy = p[b + 1] - p[a + 1];
  const dz = p[b + 2] - p[a + 2];
  const nx = before[3];
  const ny = before[4];
  const nz = before[5];
  // The vertex lies on the left of its far edge, seen along the normal.
  const left = [ny * dz - nz * dy, nz * dx - nx * dz, nx * dy - ny * dx];
  for (let i = 0; i < 3; i++) {
    const apex = (p[a + i] + p[b + i]) / 2 + 0.6 * left[i];
    wanted[i] = before[i] + part * (apex - before[i]);
  }
}

/** Part of the way towards a place between the two neighbours on the boundary. */
function between({ position: p }: Facets, place: number, part: number): void {
  const a = 3 * ring[0];
  const b = 3 * ring[count - 1];
  for (let i = 0; i < 3; i++) {
    const aim = (1 - place) * p[a + i] + place * p[b + i];
    wanted[i] = before[i] + part * (aim - before[i]);
  }
}

function worstShape(m: Facets, v: number): number {
  let worst = 1;
  for (let i = closed ? 0 : 1; i < count; i++) {
    const s = shapeOf(m, v, ring[i === 0 ? count - 1 : i - 1], ring[i]);
    if (s < worst) worst = s;
  }
  return worst;
}

function worstGap(m: Facets, v: number): number {
  let worst = 0;
  for (let i = 0; i < count; i++) {
    const g = gapOf(m, v, ring[i]);
    if (g > worst) worst = g;
  }
  return worst;
}
