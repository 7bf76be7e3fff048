import type { Project } from "../project/schema.ts";
import type { Kit } from "./kit.ts";
import { totalsOf } from "./totals.ts";

/**
 * The same kit for another number of shells (a whole number, 1 or more): the cuts of one shell stay, the totals follow.
 * `project` is the one that the kit was cut for.
 */
export function kitForLot(project: Project, kit: Kit, shells: number): Kit {
  if (!(Number.isInteger(shells) && shells >= 1)) {
    throw new RangeError(`${shells} shells: a whole number of 1 or more is wanted.`);
  }
  return { ...kit, shells, totals: totalsOf({ ...kit, shells }, project.materials, project.shop) };
}
