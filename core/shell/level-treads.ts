import type { FeatureSpec, ShellSpec } from "../project/schema.ts";
import { limits } from "../project/shell-schema.ts";
import { tiersOf } from "./blocks.ts";
import type { Trials } from "./fit-features.ts";
import type { Radii } from "./radii.ts";
import type { Refusal } from "./shell.ts";
import { tenths } from "./tenths.ts";
import { isShort, LEAST_TREAD, type TreadDepth, treadDepths } from "./tread-depths.ts";

/**
 * Between the radius at its back and the nose at its front a tread must keep something level: taken up by the two it would
 * be lost without a word. Draft makes both a little less, which is left as room.
 */
export function checkTreads(features: readonly FeatureSpec[], radii: Radii, trials: Trials): Refusal[] {
  return features.flatMap((feature, f) =>
    treadDepths(feature, radii, `shell.features[${f}]`)
      .filter(isShort)
      .map((depth): Refusal => {
        const { top, behind, back, nose, reaches } = depth;
        return {
          ...reaches,
          why: `of ${top}, ${tenths(Number(reaches.value))} mm from ${behind} to its nose, nothing level is left between the radius of ${tenths(back)} mm behind it and its nose of ${tenths(nose)} mm`,
          wouldWork: levelWith(depth, radii, trials),
        };
      }),
  );
}

/** What leaves a tread something level: its own depth where there is room for that, or a smaller radius behind it; else its nose. */
function levelWith(depth: TreadDepth, radii: Radii, trials: Trials): string {
  const { feature, top, riser, behind, back, nose, least, reaches } = depth;
  const own = trials.reachFrom(top, least);
  const rest = Number(reaches.value) - LEAST_TREAD;
  const smaller = Math.floor(rest - nose);
  const sharper = Math.floor(rest - back);
  const offers = [
    ...(own === null ? [] : [`at least ${own} mm`]),
    ...(smaller >= limits.step[0] ? [`${radii.called(top, behind, "step")} of at most ${smaller} mm`] : []),
    ...(own === null && sharper >= limits.nose[0]
      ? [`${radii.called(top, riser, "nose")} of at most ${sharper} mm`]
      : []),
  ];
  return offers.length > 0
    ? offers.join(", or ")
    : `another place for ${feature}, or a larger pool: for the ${least} mm that ${top} needs there is no room here`;
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
        why: `the nose between ${tier.top} and ${tier.riser}, ${tenths(radius)} mm, is larger than ${LARGEST} mm, which the valleys beside it are made for`,
        wouldWork: `at most ${LARGEST} mm`,
      },
    ];
  });
}
