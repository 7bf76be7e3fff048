import { type FieldNear, fieldNear } from "./bricks.ts";
import { curvePointAt, type SurfaceCurve } from "./curve.ts";
import type { EdgeCut, Field } from "./field.ts";
import { advanceGeodesic, type Geodesic, newGeodesic, newThrows, startGeodesic } from "./geodesic.ts";
import type { Throws } from "./geodesic-step.ts";

/** A geodesic shot square from the curve to one side, sampled at the columns of its side. */
export interface Ray {
  /** Nine numbers a column: point (mm), unit heading (away from the curve), unit direction along the curve's parallel. */
  readonly data: Float64Array;
  /** Distance from the curve at which the surface's open edge is reached, mm; Infinity if it is not. */
  edge: number;
  /** Distance at which the surface was lost (the field has no zero further on), mm; Infinity if it was not. */
  lost: number;
  /** Distance at which another stretch of the curve becomes nearer, mm; Infinity if it does not by the last column. */
  crossing: number;
}

/** The two rays of one place on the curve. */
export interface RayPair {
  readonly station: number;
  readonly left: Ray;
  readonly right: Ray;
}

/** Columns of one side: distances 0, spacing, 2·spacing … (count − 1)·spacing, the last one just beyond the half width. */
export interface Columns {
  readonly halfWidth: number;
  readonly spacing: number;
  readonly count: number;
}

/** Distance from the curve at which a ray ends, mm: at most `last`. */
export function endOf(ray: Ray, last: number): number {
  return Math.min(last, ray.crossing, ray.edge, ray.lost);
}

/** Rays whose columns share one array. */
const RAYS_A_SLAB = 64;
/** Numbers a column in `Ray.data`. */
export const RAY_STRIDE = 9;

/**
 * The curve's direction is taken between the points this far before and behind, mm: exact on lines and arcs. A line in which three
 * blends meet may jump by a few hundredths of a millimetre and turn by degrees within less; rays that followed it would swing far out
 * and back.
 */
const STEADY = 4;
/** The open edge's value grows by at most this much per mm. */
const EDGE_SLOPE = 1.1;

export function columnsFor(halfWidth: number, acrossMm: number): Columns {
  if (halfWidth === 0) return { halfWidth, spacing: acrossMm, count: 1 };
  const spans = Math.max(1, Math.ceil(halfWidth / acrossMm - 1e-9));
  return { halfWidth, spacing: halfWidth / spans, count: spans + 2 };
}

/** Shoots the rays of any station of a curve on the surface `field` = 0. */
export type Shooter = (station: number) => RayPair;

export function rayShooter(field: Field, curve: SurfaceCurve, left: Columns, right: Columns): Shooter {
  const near = fieldNear(field);
  const base = new Float64Array(9);
  const before = new Float64Array(9);
  const after = new Float64Array(9);
  const geodesic = newGeodesic();
  const sides = [roomFor(left), roomFor(right)];
  const likes = [left, right].map(({ count }) => Array.from({ length: Math.max(0, count - 1) }, newThrows));
  return (station) => {
    curvePointAt(curve, station, base);
    curvePointAt(curve, station, base, near(base[0], base[1], base[2]));
    const reach = curve.closed ? STEADY : Math.min(STEADY, station, curve.length - station);
    if (reach > STEADY / 8) {
      curvePointAt(curve, station + reach, after);
      curvePointAt(curve, station - reach, before);
      for (let k = 0; k < 3; k++) base[3 + k] = after[k] - before[k];
    }
    return {
      station,
      left: shootRay(near, geodesic, base, 1, left, sides[0](), likes[0]),
      right: shootRay(near, geodesic, base, -1, right, sides[1](), likes[1]),
    };
  };
}

/** Hands out room for one ray's columns at a time, cut from large arrays: thousands of small ones are slow to make. */
function roomFor({ count }: Columns): () => Float64Array {
  const size = RAY_STRIDE * count;
  let slab = new Float64Array(0);
  let used = 0;
  return () => {
    if (used + size > slab.length) {
      slab = new Float64Array(RAYS_A_SLAB * size);
      used = 0;
    }
    used += size;
    return slab.subarray(used - size, used);
  };
}

/** One ray from a place on the curve (point, tangent, normal) to its left (side 1) or right (side −1); `likes` are the throws of the ray before, and left as its own. */
function shootRay(
  near: FieldNear,
  geodesic: Geodesic,
  base: Float64Array,
  side: number,
  columns: Columns,
  data: Float64Array,
  likes: readonly Throws[],
): Ray {
  const ray: Ray = { data, edge: Infinity, lost: Infinity, crossing: Infinity };
  const dx = side * (base[7] * base[5] - base[8] * base[4]);
  const dy = side * (base[8] * base[3] - base[6] * base[5]);
  const dz = side * (base[6] * base[4] - base[7] * base[3]);
  const field = near(base[0], base[1], base[2]);
  if (!startGeodesic(field, geodesic, base[0], base[1], base[2], dx, dy, dz)) {
    throw new Error(
      `The curve leaves the surface at (${base[0].toFixed(1)}, ${base[1].toFixed(1)}, ${base[2].toFixed(1)}) mm: ` +
        "a strip needs a curve that lies on the surface it is laid on.",
    );
  }
  store(data, 0, geodesic, side);
  const { edge } = field;
  // The edge's value grows by no more than the way gone, so it is asked for again only where it could have been reached.
  let before = edge ? edge.evaluate(geodesic[0], geodesic[1], geodesic[2]) : -Infinity;
  let asked = 0;
  if (before > 0) ray.edge = 0;
  for (let column = 1; column < columns.count; column++) {
    if (ray.lost < Infinity || !advanceOn(near, geodesic, columns.spacing, likes[column - 1])) {
      if (ray.lost === Infinity) ray.lost = (column - 1) * columns.spacing;
      goStraight(data, column, columns.spacing);
      continue;
    }
    store(data, column, geodesic, side);
    const w = column * columns.spacing;
    if (edge && ray.edge === Infinity && w - asked > -before / EDGE_SLOPE) {
      const now = edge.evaluate(geodesic[0], geodesic[1], geodesic[2]);
      if (now > 0) ray.edge = edgeCrossing(edge, ray, columns, asked, w, before, now);
      before = now;
      asked = w;
    }
  }
  return ray;
}

/** One column further, by the field of the brick in which the geodesic stands. */
function advanceOn(near: FieldNear, geodesic: Geodesic, spacing: number, like: Throws): boolean {
  return advanceGeodesic(near(geodesic[0], geodesic[1], geodesic[2]), geodesic, spacing, spacing, like);
}

function store(data: Float64Array, column: number, geodesic: Geodesic, side: number): void {
  const at = RAY_STRIDE * column;
  for (let k = 0; k < 6; k++) data[at + k] = geodesic[k];
  const tx = geodesic[3];
  const ty = geodesic[4];
  const tz = geodesic[5];
  const nx = geodesic[6];
  const ny = geodesic[7];
  const nz = geodesic[8];
  data[at + 6] = side * (ty * nz - tz * ny);
  data[at + 7] = side * (tz * nx - tx * nz);
  data[at + 8] = side * (tx * ny - ty * nx);
}

/** Fills a column beyond the end of the surface, so that neighbours have something to be measured against. */
function goStraight(data: Float64Array, column: number, spacing: number): void {
  const at = RAY_STRIDE * column;
  for (let k = 0; k < RAY_STRIDE; k++) data[at + k] = data[at - RAY_STRIDE + k];
  for (let k = 0; k < 3; k++) data[at + k] += spacing * data[at + 3 + k];
}

/** Distance at which the open edge is crossed between `low` (edge value `before` ≤ 0) and `high` (`now` > 0), mm. */
function edgeCrossing(
  edge: EdgeCut,
  ray: Ray,
  columns: Columns,
  low: number,
  high: number,
  before: number,
  now: number,
): number {
  const p = new Float64Array(3);
  let at = high;
  // Regula falsi with the retained end halved (Illinois).
  for (let round = 0; round < 30 && high - low > 1e-3; round++) {
    at = low + ((high - low) * before) / (before - now);
    rayPoint(ray, columns, at, p);
    const value = edge.evaluate(p[0], p[1], p[2]);
    if (Math.abs(value) < 1e-4) break;
    if (value > 0) {
      high = at;
      now = value;
      before /= 2;
    } else {
      low = at;
      before = value;
      now /= 2;
    }
  }
  return at;
}

/** Point of a ray at distance w (mm) from the curve, written to out[0…2]: cubic Hermite between the columns. */
export function rayPoint(ray: Ray, columns: Columns, w: number, out: Float64Array): void {
  const data = ray.data;
  if (columns.count === 1) {
    for (let k = 0; k < 3; k++) out[k] = data[k];
    return;
  }
  const h = columns.spacing;
  const column = Math.max(0, Math.min(columns.count - 2, Math.floor(w / h)));
  const u = w / h - column;
  const v = 1 - u;
  const a = RAY_STRIDE * column;
  const b = a + RAY_STRIDE;
  for (let k = 0; k < 3; k++) {
    out[k] =
      v * v * (1 + 2 * u) * data[a + k] +
      u * u * (3 - 2 * u) * data[b + k] +
      u * v * h * (v * data[a + 3 + k] - u * data[b + 3 + k]);
  }
}
