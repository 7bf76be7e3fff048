import type { Outline } from "../plan/chain.ts";
import type { FittingSpec } from "../project/schema.ts";
import { refuseRimPlace } from "./rim-place-refusal.ts";
import type { Refusal } from "./shell.ts";

/** Fittings on the wall whose place the outline does not have: none is lost in silence. Lengths mm. */
export function checkFittings(fittings: readonly FittingSpec[], outline: Outline): Refusal[] {
  return fittings.flatMap(({ id, at }, i): Refusal[] => {
    if (!("wall" in at)) return [];
    const refusal = refuseRimPlace(outline, at.wall, `shell.fittings[${i}].at.wall`, id);
    return refusal ? [refusal] : [];
  });
}
