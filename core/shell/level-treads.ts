import type { FeatureSpec, ShellSpec } from "../project/schema.ts";
import { limits } from "../project/shell-schema.ts";
import { tiersOf } from "./blocks.ts";
import type { Radii } from "./radii.ts";
import type { Refusal } from "./shell.ts";

/** So much of every tread is left level at least, mm. */
const LEAST_TREAD = 10;

/**
 * Between the radius at its back and the nose at its front a tread must keep something level: taken up by the two it would
 * be lost without a word. Draft makes both a little less, which is left as room.
 */
export function checkTreads(features: readonly FeatureSpec[], radii: Radii): Refusal[] {
  return features.flatMap((feature, f) =>
    tiersOf(feature, `shell.features[${f}]`).flatMap(({ top, riser, reaches }, i, tiers): Refusal[] => {
      const behind = i === 0 ? "wall" : tiers[i - 1].riser;
      const back = radii.step(top, behind);
      const nose = radii.nose(top, riser);
      const least = Math.ceil(back + nose + LEAST_TREAD);
      const depth = Number(reaches.value);
      if (depth >= least) return [];
      const smaller = Math.floor(depth - nose - LEAST_TREAD);
      return [
        {
          ...reaches,
          why: `of ${top}, ${depth} mm from ${behind} to its nose, nothing level is left between the radius of ${back} mm behind it and its nose of ${nose} mm`,
          wouldWork: `at least ${least} mm${smaller >= limits.step[0] ? `, or ${radii.called(top, behind, "step")} of at most ${smaller} mm` : ""}`,
        },
      ];
    }),
  );
}

/** The largest nose, mm. */
const LARGEST = limits.nose[1];

/** A nose that is given for a pair of faces is no larger than noses in general can be. */
export function checkNoses({ features, radii }: ShellSpec): Refusal[] {
  const tiers = features.flatMap((feature, f) => tiersOf(feature, `shell.features[${f}]`));
  return radii.pairs.flatMap(({ between, radius }, i): Refusal[] => {
    const tier = tiers.find(({ top, riser }) => between.includes(top) && between.includes(riser));
    if (!tier || radius <= LARGEST) return [];
    return [
      {
        path: `shell.radii.pairs[${i}].radius`,
        value: radius,
        why: `the nose between ${tier.top} and ${tier.riser}, ${radius} mm, is larger than ${LARGEST} mm, which the valleys beside it are made for`,
        wouldWork: `at most ${LARGEST} mm`,
      },
    ];
  });
}
