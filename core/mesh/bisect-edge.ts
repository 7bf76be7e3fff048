import { splitEdge } from "./change-edges.ts";
import { ADRIFT, addVertex, type Facets, next, SEATED, TAKEN } from "./facets.ts";
import { placeAtSeat, type Seat } from "./seat.ts";
import { gapOf } from "./shape.ts";

/** An edge closer to both tangent planes than this lies in the surface: its middle needs no seating, mm. */
export const FLAT_MM = 2e-8;

/**
 * The middle of an edge is seated no further away than this part of its length: half of it for an edge across a half
 * round, and beyond that only where the field is torn.
 */
const FURTHEST = 0.52;
/** Walls that meet at less than 18° are the two sides of a slot or a sheet, between which there may be no bottom: (2 sin 9°)². */
const PARALLEL = 0.098;
/** How far the bottom of a valley, or the top of a ridge, can lie from an edge across it, in lengths of the edge: ½ cot 9°. */
const MOST_ONWARD = 3.2;
/**
 * The middle of such an edge is as far from the surface as from the planes of both sides. Where it is nearer by this part something else lies there, and its
 * sides need not meet at all, as those of a coping that turns a corner do not: no bottom is looked for further off than the edge is long.
 */
const AS_FAR = 0.8;
/** Mean normal of the ends of an edge across a sharp valley or ridge. */
const way = new Float64Array(3);

/**
 * Splits the edge of half-edge `h` at the point `t` of the way along, seated on the surface (and on the edge cut, when
 * the edge is part of the open boundary). Returns the new vertex. A middle that will not settle stays on the chord:
 * the net remains closed whatever the field does.
 */
export function bisectEdge(m: Facets, seat: Seat, h: number, t = 0.5): number {
  const a = m.corner[h];
  const b = m.corner[next(h)];
  const onCut = m.twin[h] < 0 && m.onCut[a] === 1 && m.onCut[b] === 1;
  const v = addVertex(m);
  m.standing[v] = seatBetween(m, seat, a, b, t, onCut);
  placeAtSeat(m, v, seat);
  m.onCut[v] = onCut ? 1 : 0;
  splitEdge(m, h, v);
  return v;
}

/**
 * Leaves in `seat` the surface's point and normal nearest to the point `t` of the way from vertex a to vertex b, the
 * point on the chord where the edge is flat or the field would not seat it. Returns how surely it lies on the surface.
 */
export function seatBetween(m: Facets, seat: Seat, a: number, b: number, t: number, onCut: boolean): number {
  const { position: p, normal: n } = m;
  const { point, normal } = seat;
  let length = 0;
  for (let i = 0; i < 3; i++) {
    const from = p[3 * a + i];
    const d = p[3 * b + i] - from;
    length += d * d;
    point[i] = from + t * d;
  }
  const flat = !onCut && gapOf(m, a, b) <= FLAT_MM;
  seat.owner = -1;
  if (!flat) {
    if (!onCut && !bulge(m, a, b, t, point)) {
      const isFree = seat.off() >= AS_FAR * fromPlanes(m, a, b, point);
      seat.onward(way, (isFree ? MOST_ONWARD : 1) * Math.sqrt(length));
    }
    if (onCut ? seat.onCut(Math.sqrt(length)) : seat.onSurface(FURTHEST * Math.sqrt(length))) return SEATED;
    for (let i = 0; i < 3; i++) point[i] = p[3 * a + i] + t * (p[3 * b + i] - p[3 * a + i]);
  }
  let size = 0;
  for (let i = 0; i < 3; i++) {
    normal[i] = (1 - t) * n[3 * a + i] + t * n[3 * b + i];
    size += normal[i] * normal[i];
  }
  size = Math.sqrt(size);
  if (size > 1e-9) for (let i = 0; i < 3; i++) normal[i] /= size;
  else for (let i = 0; i < 3; i++) normal[i] = n[3 * a + i];
  return flat ? TAKEN : ADRIFT;
}

/** How far a point lies from the nearer of the tangent planes at two vertices, mm. */
function fromPlanes({ position: p, normal: n }: Facets, a: number, b: number, point: Float64Array): number {
  let fromA = 0;
  let fromB = 0;
  for (let i = 0; i < 3; i++) {
    fromA += n[3 * a + i] * (point[i] - p[3 * a + i]);
    fromB += n[3 * b + i] * (point[i] - p[3 * b + i]);
  }
  return Math.min(Math.abs(fromA), Math.abs(fromB));
}

/**
 * Moves the point `t` of the way along an edge from its chord to where the surface is, as the normals at the ends tell:
 * exact in the middle of an edge on a sphere, a cylinder or a cone's parallel, whose sagitta is (e·Δn)/(4(1 + cos θ/2)) with θ the
 * turn of the normal; so that the field mostly has to be asked only once. False, with the mean normal in `way`, for an edge across a sharp
 * valley or ridge: its normals turn by more than a right angle, and the bottom can lie far from its middle.
 */
function bulge(m: Facets, a: number, b: number, t: number, point: Float64Array): boolean {
  const { position: p, normal: n } = m;
  let across = 0;
  let turn = 0;
  let sum = 0;
  for (let i = 0; i < 3; i++) {
    const d = n[3 * b + i] - n[3 * a + i];
    const s = n[3 * b + i] + n[3 * a + i];
    across += (p[3 * b + i] - p[3 * a + i]) * d;
    turn += d * d;
    sum += s * s;
  }
  if (turn > 2) {
    const size = Math.sqrt(sum);
    for (let i = 0; i < 3; i++) way[i] = (n[3 * b + i] + n[3 * a + i]) / size;
    return sum < PARALLEL;
  }
  const sagitta = (across * t * (1 - t)) / ((1 + Math.sqrt(1 - turn / 4)) * Math.sqrt(sum));
  for (let i = 0; i < 3; i++) point[i] += sagitta * (n[3 * b + i] + n[3 * a + i]);
  return true;
}
