import { Box3, Vector3 } from "three";
import type { Drawing } from "../worker/drawing/drawing.ts";

/** How much of a zone is seen to both sides of a place in it, along its line, mm. */
const ROUND = 400;

export interface ZonePlace {
  /** In the shell's own coordinates. */
  readonly middle: Vector3;
  /** From corner to corner, mm. */
  readonly size: number;
  /** Which way it faces, as far as its parts face the same way: of length 1 where all do, 0 where it runs all round. */
  readonly outwards: Vector3;
}

/** Where a zone's drawing lies, or what of it is near a place along its line (mm); all of it where nothing is. */
export function placeOf(
  { positions, normals, inCloth }: Pick<Drawing, "positions" | "normals" | "inCloth">,
  at: number | null,
): ZonePlace {
  const box = new Box3();
  const outwards = new Vector3();
  const point = new Vector3();
  let count = 0;
  for (let v = 0; 3 * v < positions.length; v++) {
    if (at !== null && Math.abs(inCloth[2 * v] - at) > ROUND) continue;
    box.expandByPoint(point.fromArray(positions, 3 * v));
    outwards.add(point.fromArray(normals, 3 * v));
    count++;
  }
  if (count === 0 && at !== null) return placeOf({ positions, normals, inCloth }, null);
  outwards.divideScalar(Math.max(1, count));
  return { middle: box.getCenter(new Vector3()), size: box.getSize(new Vector3()).length(), outwards };
}
