import { type FieldNear, fieldNear } from "./bricks.ts";
import { curvePointAt, type SurfaceCurve } from "./curve.ts";
import type { Field } from "./field.ts";
import { advanceGeodesic, type Geodesic, newGeodesic, startGeodesic } from "./geodesic.ts";

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

/** Numbers a column in `Ray.data`. */
export const RAY_STRIDE = 9;

/** Neighbouring rays may differ in heading or along by this angle, rad: the quadrature is then good to about 1e-6. */
const MOST_TURN = 0.2;
/** Difference of the angles of two rays' alongs to the chord, times the chord, mm: where a curvature begins or ends. */
const MOST_UNEVEN = 0.5;
/** Rays nearer to each other than this, mm, are not split for their turn. */
const NEAR_ENOUGH = 3;
/** Stations are never closer than this, mm. */
const CLOSEST = 0.02;
const MOST_PASSES = 16;

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
  const geodesic = newGeodesic();
  return (station) => {
    curvePointAt(curve, station, base);
    curvePointAt(curve, station, base, near(base[0], base[1], base[2]));
    return {
      station,
      left: shootRay(near, geodesic, base, 1, left),
      right: shootRay(near, geodesic, base, -1, right),
    };
  };
}

/** One ray from a place on the curve (point, tangent, normal) to its left (side 1) or right (side −1). */
function shootRay(
  near: FieldNear,
  geodesic: Geodesic,
  base: Float64Array,
  side: number,
  columns: Columns,
): Ray {
  const [tx, ty, tz, nx, ny, nz] = [base[3], base[4], base[5], base[6], base[7], base[8]];
  const data = new Float64Array(RAY_STRIDE * columns.count);
  const ray: Ray = { data, edge: Infinity, lost: Infinity, crossing: Infinity };
  const dx = side * (ny * tz - nz * ty);
  const dy = side * (nz * tx - nx * tz);
  const dz = side * (nx * ty - ny * tx);
  const field = near(base[0], base[1], base[2]);
  if (!startGeodesic(field, geodesic, base[0], base[1], base[2], dx, dy, dz)) {
    throw new Error(
      `The curve leaves the surface at (${base[0].toFixed(1)}, ${base[1].toFixed(1)}, ${base[2].toFixed(1)}) mm: ` +
        "a strip needs a curve that lies on the surface it is laid on.",
    );
  }
  let before = field.edge ? field.edge.evaluate(geodesic[0], geodesic[1], geodesic[2]) : -1;
  if (before > 0) ray.edge = 0;
  store(data, 0, geodesic, side);
  for (let column = 1; column < columns.count; column++) {
    if (ray.lost < Infinity || !advanceOn(near, geodesic, columns.spacing)) {
      if (ray.lost === Infinity) ray.lost = (column - 1) * columns.spacing;
      goStraight(data, column, columns.spacing);
      continue;
    }
    store(data, column, geodesic, side);
    if (field.edge) {
      const now = field.edge.evaluate(geodesic[0], geodesic[1], geodesic[2]);
      if (now > 0 && ray.edge === Infinity) ray.edge = edgeCrossing(field, ray, columns, column, before, now);
      before = now;
    }
  }
  return ray;
}

/** One column further, by the field of the brick in which the geodesic stands. */
function advanceOn(near: FieldNear, geodesic: Geodesic, spacing: number): boolean {
  return advanceGeodesic(near(geodesic[0], geodesic[1], geodesic[2]), geodesic, spacing, spacing);
}

function store(data: Float64Array, column: number, geodesic: Geodesic, side: number): void {
  const at = RAY_STRIDE * column;
  const [tx, ty, tz, nx, ny, nz] = [
    geodesic[3],
    geodesic[4],
    geodesic[5],
    geodesic[6],
    geodesic[7],
    geodesic[8],
  ];
  for (let k = 0; k < 6; k++) data[at + k] = geodesic[k];
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

/** Distance at which the open edge is crossed between column − 1 (edge value `before` ≤ 0) and `column` (`now` > 0). */
function edgeCrossing(
  field: Field,
  ray: Ray,
  columns: Columns,
  column: number,
  before: number,
  now: number,
): number {
  let low = (column - 1) * columns.spacing;
  let high = column * columns.spacing;
  const p = new Float64Array(3);
  let at = high;
  // Regula falsi with the retained end halved (Illinois): the edge value is smooth along the ray.
  for (let round = 0; round < 20 && high - low > 1e-3; round++) {
    at = low + ((high - low) * before) / (before - now);
    rayPoint(ray, columns, at, p);
    const value = field.edge!.evaluate(p[0], p[1], p[2]);
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

/**
 * Rays from every part of the curve between two stations, ever closer where neighbours differ in direction at any
 * column: every span starts at most `alongMm` long and is halved until its two rays turn by less than MOST_TURN.
 */
export function spreadRays(
  shoot: Shooter,
  from: number,
  to: number,
  alongMm: number,
  left: Columns,
  right: Columns,
): RayPair[] {
  const spans = Math.max(1, Math.ceil((to - from) / alongMm - 1e-9));
  let pairs: RayPair[] = [];
  for (let i = 0; i <= spans; i++) pairs.push(shoot(from + ((to - from) * i) / spans));
  const settled = new WeakSet<RayPair>();
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const next = splitSpans(pairs, shoot, (a, b) => {
      if (settled.has(a)) return false;
      const split =
        b.station - a.station > 2 * CLOSEST &&
        (turnsApart(a.left.data, b.left.data, left.count) ||
          turnsApart(a.right.data, b.right.data, right.count));
      if (!split) settled.add(a);
      return split;
    });
    if (next.length === pairs.length) break;
    pairs = next;
  }
  return pairs;
}

/** The rays with one more in the middle of every span for which `split` says so. */
export function splitSpans(
  pairs: readonly RayPair[],
  shoot: Shooter,
  split: (a: RayPair, b: RayPair, index: number) => boolean,
): RayPair[] {
  const next: RayPair[] = [];
  for (let i = 0; i < pairs.length; i++) {
    next.push(pairs[i]);
    if (i + 1 < pairs.length && split(pairs[i], pairs[i + 1], i)) {
      next.push(shoot((pairs[i].station + pairs[i + 1].station) / 2));
    }
  }
  return next;
}

/** Whether two neighbouring rays turn away from each other, or from the chord between them, by more than MOST_TURN anywhere they are apart. */
function turnsApart(a: Float64Array, b: Float64Array, columns: number): boolean {
  const least = Math.cos(MOST_TURN);
  for (let column = 0; column < columns; column++) {
    const at = RAY_STRIDE * column;
    const cx = b[at] - a[at];
    const cy = b[at + 1] - a[at + 1];
    const cz = b[at + 2] - a[at + 2];
    const gap2 = cx * cx + cy * cy + cz * cz;
    if (gap2 < NEAR_ENOUGH * NEAR_ENOUGH) continue;
    const headings = a[at + 3] * b[at + 3] + a[at + 4] * b[at + 4] + a[at + 5] * b[at + 5];
    const alongs = a[at + 6] * b[at + 6] + a[at + 7] * b[at + 7] + a[at + 8] * b[at + 8];
    if (headings < least || alongs < least) return true;
    const gap = Math.sqrt(gap2);
    const atA = Math.abs(cx * a[at + 6] + cy * a[at + 7] + cz * a[at + 8]) / gap;
    const atB = Math.abs(cx * b[at + 6] + cy * b[at + 7] + cz * b[at + 8]) / gap;
    if (Math.min(atA, atB) < least) return true;
    // Half of a span straight and half an arc: the sagitta is then off by up to about uneven · gap / 16.
    const uneven = Math.abs(Math.sqrt(Math.max(0, 1 - atA * atA)) - Math.sqrt(Math.max(0, 1 - atB * atB)));
    if (uneven * gap > MOST_UNEVEN) return true;
  }
  return false;
}
