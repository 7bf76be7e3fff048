import type { Field } from "./field.ts";

/**
 * A contest between two groups of faces: one weight per face of the field, +1 for the first group, −1 for the second,
 * 0 for the rest. Its value at a point is the weighted sum of the faces' shares: +1 where the first group makes the
 * surface alone, −1 where the second does, 0 on the line where they compete.
 */
export type Contest = Float64Array;

/** Half distance of the central differences, mm: their error is about h²/R² of the gradient, rounding 1e-9 of it. */
const DIFFERENCE = 0.02;

/**
 * Contest of the faces `first` against `second` (ids). `contestBetween(field, ["wall"], everything else)` is
 * 2·share(wall) − 1, since shares sum to 1. Throws on an unknown face and on one that stands on both sides.
 */
export function contestBetween(field: Field, first: Iterable<string>, second: Iterable<string>): Contest {
  const weights = new Float64Array(field.faces.length);
  const set = (ids: Iterable<string>, weight: number) => {
    for (const id of ids) {
      const i = field.faces.indexOf(id);
      if (i < 0) throw new RangeError(`No face is called "${id}"; the faces are ${field.faces.join(", ")}.`);
      if (weights[i] === -weight)
        throw new RangeError(`Face "${id}" cannot stand on both sides of a contest.`);
      weights[i] = weight;
    }
  };
  set(first, 1);
  set(second, -1);
  return weights;
}

/** Value of the contest at a point (mm): −1…1, positive where the first group has more. Allocates nothing. */
export function contestValue(field: Field, contest: Contest, x: number, y: number, z: number): number {
  const shares = field.shares(x, y, z);
  let sum = 0;
  for (let i = 0; i < contest.length; i++) sum += contest[i] * shares[i];
  return sum;
}

/** Share (0…1) of one side's faces at a point: side 0 is the first group, side 1 the second. */
export function sideShare(
  field: Field,
  contest: Contest,
  side: 0 | 1,
  x: number,
  y: number,
  z: number,
): number {
  const shares = field.shares(x, y, z);
  const weight = side === 0 ? 1 : -1;
  let sum = 0;
  for (let i = 0; i < contest.length; i++) if (contest[i] === weight) sum += shares[i];
  return sum;
}

/** Rate of change of the contest (1/mm) at a point along the unit direction (dx, dy, dz), by central differences. */
export function contestSlope(
  field: Field,
  contest: Contest,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  const h = DIFFERENCE;
  const ahead = contestValue(field, contest, x + h * dx, y + h * dy, z + h * dz);
  return (ahead - contestValue(field, contest, x - h * dx, y - h * dy, z - h * dz)) / (2 * h);
}

/** Gradient of the contest (1/mm) at a point, by central differences, written to out[0…2]. */
export function contestGradient(
  field: Field,
  contest: Contest,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): void {
  out[0] = contestSlope(field, contest, x, y, z, 1, 0, 0);
  out[1] = contestSlope(field, contest, x, y, z, 0, 1, 0);
  out[2] = contestSlope(field, contest, x, y, z, 0, 0, 1);
}
