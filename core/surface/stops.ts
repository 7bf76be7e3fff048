import { type Contest, contestValue } from "./contest.ts";
import type { Field } from "./field.ts";

/** A scalar of a point; a section ends where it rises from below zero to zero or above. */
export type Stop = (x: number, y: number, z: number) => number;

/** Stops a section at a height (mm), going down or up to it. */
export function atHeight(height: number, going: "down" | "up"): Stop {
  return going === "down" ? (_x, _y, z) => height - z : (_x, _y, z) => z - height;
}

/** Stops a section where the first side of a contest gives way to the second (side 1) or the other way (side 0). */
export function atContest(field: Field, contest: Contest, into: 0 | 1): Stop {
  const sign = into === 0 ? 1 : -1;
  return (x, y, z) => sign * contestValue(field, contest, x, y, z);
}

/** Stops a section where a face (its index in `field.faces`) becomes the owner of the surface. */
export function atFace(field: Field, face: number): Stop {
  return (x, y, z) => (field.owner(field.shares(x, y, z)) === face ? 1 : -1);
}

/** Stops a section where it crosses the plane through `point` to the side to which `direction` looks. */
export function atPlane(point: ArrayLike<number>, direction: ArrayLike<number>): Stop {
  return (x, y, z) =>
    (x - point[0]) * direction[0] + (y - point[1]) * direction[1] + (z - point[2]) * direction[2];
}
