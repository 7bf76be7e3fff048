import type { Project } from "../project/schema.ts";
import { tiersOf } from "../shell/blocks.ts";
import { radiiOf } from "../shell/radii.ts";
import type { Astray } from "./adrift.ts";

/**
 * The laminate that is laid first takes its thickness (mm) off the radius of every outward edge. Where it is as thick as the
 * radius, nothing round is left to lay on: the sentence for zones that then find no place at the rim, or along a nose; null
 * where the laminate is thin enough.
 */
export function laminateTooThick({ shell, shop }: Project, edge: "rim" | "nose"): Astray | null {
  const radii = radiiOf(shell);
  const rim = { name: "the rim", radius: radii.rim };
  const noses = shell.features
    .flatMap((feature) => tiersOf(feature, ""))
    .map(({ top, riser }) => ({ name: `the nose of ${top}`, radius: radii.nose(top, riser) }));
  const edges = edge === "rim" ? [rim] : noses;
  const tightest = edges.reduce((a, b) => (b.radius < a.radius ? b : a), { name: "", radius: Infinity });
  const { laidThickness } = shop;
  if (tightest.radius > laidThickness) return null;
  return {
    why: `The ${laidThickness} mm of laminate laid first fill ${tightest.name}, which is rounded with ${tightest.radius} mm only: no round edge is left to lay on.`,
    mend: `A laid thickness of less than ${tightest.radius} mm, or more than ${laidThickness} mm of radius there.`,
  };
}
