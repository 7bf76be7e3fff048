import type { SurfaceCurve } from "./curve.ts";
import type { Field } from "./field.ts";
import { CURVATURE, type Geodesic, TRAVELLED } from "./geodesic-carry.ts";
import { MOST_THROWS, SHORTEST_STEP, SLACK, THROW, type Throws, takeStep } from "./geodesic-step.ts";
import { projectOnto } from "./project.ts";

export type { Geodesic } from "./geodesic-carry.ts";

/** A start further than this from the surface, mm, is not on it. */
const LOST = 0.05;

/** A geodesic not yet started. */
export function newGeodesic(): Geodesic {
  return new Float64Array(16);
}

/**
 * Puts a geodesic on the surface `field` = 0 at the point nearest (x, y, z) (mm), heading along (dx, dy, dz) with
 * whatever points out of the surface removed. Returns false if the point cannot be projected or the direction stands
 * square to the surface.
 */
export function startGeodesic(
  field: Field,
  geodesic: Geodesic,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
): boolean {
  geodesic.fill(0);
  geodesic[0] = x;
  geodesic[1] = y;
  geodesic[2] = z;
  projectOnto(field, geodesic, 0, 1e-7);
  // Where three blends meet the gradient may jump, and Newton's step with it: near is near enough.
  if (!(Math.abs(field.evaluate(geodesic[0], geodesic[1], geodesic[2])) <= LOST)) return false;
  const size = Math.hypot(field.gradient[0], field.gradient[1], field.gradient[2]);
  if (!(size > 1e-9)) return false;
  const nx = field.gradient[0] / size;
  const ny = field.gradient[1] / size;
  const nz = field.gradient[2] / size;
  const out = dx * nx + dy * ny + dz * nz;
  const tx = dx - out * nx;
  const ty = dy - out * ny;
  const tz = dz - out * nz;
  const along = Math.sqrt(tx * tx + ty * ty + tz * tz);
  if (!(along > 1e-9)) return false;
  geodesic[3] = tx / along;
  geodesic[4] = ty / along;
  geodesic[5] = tz / along;
  geodesic[6] = nx;
  geodesic[7] = ny;
  geodesic[8] = nz;
  return true;
}

/**
 * Moves a geodesic on by `length` mm of arc (> 0) in steps of at most `stepMm`, halved where the surface turns sharply.
 * Returns false where the surface is lost (no zero of the field within reach); the geodesic then stands where it was
 * last on it. Allocates nothing; one field evaluation a step where the curvature is steady, or where `like`, the throws of
 * the same length on a neighbouring geodesic, still hold (they are left as this one's).
 *
 * Each step is symmetric in its two ends, so it is exact wherever the normal turns in one plane (planes, cylinders
 * square on, meridians), also over a jump of curvature where a flat runs into a fillet; elsewhere its error falls with
 * the fourth power of the step. See `tryStep`.
 */
export function advanceGeodesic(
  field: Field,
  geodesic: Geodesic,
  length: number,
  stepMm = 20,
  like: Throws | null = null,
): boolean {
  const goal = geodesic[TRAVELLED] + length;
  let step = length / Math.ceil(length / stepMm - 1e-9);
  for (let at = 0; ; at += THROW) {
    const left = goal - geodesic[TRAVELLED];
    if (left <= SLACK) {
      like?.fill(0, at);
      slide(geodesic, left);
      return true;
    }
    const taken = takeStep(field, geodesic, step, left, at < THROW * MOST_THROWS ? like : null, at);
    if (taken === 0) return false;
    step = Math.min(stepMm, Math.max(taken * 2, SHORTEST_STEP));
  }
}

/** Room for the throws of one length. */
export function newThrows(): Throws {
  return new Float64Array(THROW * MOST_THROWS);
}

/**
 * The geodesic from a point (mm) in a direction, as a curve of `lengthMm` with a sample every `stepMm` or a little
 * less. Null if the start is not on the surface or the surface is lost on the way.
 */
export function marchGeodesic(
  field: Field,
  point: ArrayLike<number>,
  direction: ArrayLike<number>,
  lengthMm: number,
  stepMm = 20,
): SurfaceCurve | null {
  const geodesic = newGeodesic();
  const [x, y, z] = [point[0], point[1], point[2]];
  if (!startGeodesic(field, geodesic, x, y, z, direction[0], direction[1], direction[2])) return null;
  const spans = Math.max(1, Math.ceil(lengthMm / stepMm - 1e-9));
  const points = new Float64Array(3 * (spans + 1));
  const tangents = new Float64Array(3 * (spans + 1));
  const normals = new Float64Array(3 * (spans + 1));
  const stations = new Float64Array(spans + 1);
  for (let i = 0; ; i++) {
    points.set(geodesic.subarray(0, 3), 3 * i);
    tangents.set(geodesic.subarray(3, 6), 3 * i);
    normals.set(geodesic.subarray(6, 9), 3 * i);
    stations[i] = (lengthMm * i) / spans;
    if (i === spans) break;
    if (!advanceGeodesic(field, geodesic, lengthMm / spans, stepMm)) return null;
  }
  return { points, tangents, normals, stations, length: lengthMm, closed: false };
}

/** Moves a geodesic by a last sliver (|s| ≤ about SLACK) along the arc of its curvature: no evaluation. */
function slide(geodesic: Geodesic, s: number): void {
  const turn = geodesic[CURVATURE] * s;
  for (let k = 0; k < 3; k++) {
    const t = geodesic[3 + k];
    const n = geodesic[6 + k];
    geodesic[k] += s * (t - 0.5 * turn * n);
    geodesic[3 + k] = t - turn * n;
    geodesic[6 + k] = n + turn * t;
  }
  const size = 1 / Math.sqrt(1 + turn * turn);
  for (let k = 3; k < 9; k++) geodesic[k] *= size;
  geodesic[TRAVELLED] += s;
}
