/**
 * What is meant to be one, or to be two, and is neither: faces a few mm apart, which the radii round away without a word. Each
 * is refused with the figures that would work. Lengths mm.
 */
import type { Outline } from "../plan/chain.ts";
import { blankNearest, nearest } from "../plan/nearest.ts";
import type { FeatureSpec } from "../project/schema.ts";
import { limits } from "../project/shell-schema.ts";
import { type Block, covers } from "./blocks.ts";
import { depthRange } from "./feature-figures.ts";
import type { Trials } from "./fit-features.ts";
import { isSlip, LEAST_RISER, NEAR } from "./levels-apart.ts";
import type { Radii } from "./radii.ts";
import type { Refusal } from "./shell.ts";
import { tenths } from "./tenths.ts";
import { edgePoints, leastDepthOf } from "./validity.ts";

/** Treads no further apart than this in plan meet, mm. */
const BESIDE = 60;
/** Risers that turn from each other by less than about 8° run side by side. */
const SIDE_BY_SIDE = 0.99;

/** Treads of one flight must be far enough apart that there is a riser between them. */
export function checkRisers(features: readonly FeatureSpec[]): Refusal[] {
  return features.flatMap((feature, f): Refusal[] => {
    if (feature.kind !== "steps") return [];
    return feature.treads.flatMap(({ depth }, k): Refusal[] => {
      if (k === 0) return [];
      const above = feature.treads[k - 1].depth;
      const high = depth - above;
      if (high >= LEAST_RISER) return [];
      return [
        {
          path: `shell.features[${f}].treads[${k}].depth`,
          value: depth,
          why: `${feature.id}/riser-${k} is only ${tenths(high)} mm high, which its nose and the radius at its foot round away`,
          wouldWork:
            above + LEAST_RISER <= limits.treadDepth[1]
              ? `at least ${Math.ceil(above + LEAST_RISER)} mm`
              : `a depth of at most ${Math.floor(depth - LEAST_RISER)} mm of ${feature.id}/tread-${k}`,
        },
      ];
    });
  });
}

/** Treads and risers of different features that nearly coincide, each pair once. */
export function checkNearMisses(
  features: readonly FeatureSpec[],
  outline: Outline,
  blocks: readonly Block[],
  radii: Radii,
  trials: Trials,
): Refusal[] {
  return pairs(blocks).flatMap(([a, b]): Refusal[] => {
    const tops = nearTops(outline, a, b);
    if (tops) {
      const range = depthRange(features, b.top, LEAST_RISER);
      const others = blocks.filter((o) => o.feature !== b.feature);
      return [{ ...tops, wouldWork: depthsBeside(a, b, range, leastDepthOf(b, radii), others) }];
    }
    const apart = besideRiser(outline, a, b);
    if (apart === undefined) return [];
    const clear = (tried: readonly Block[]) => !runsBeside(outline, tried, (top) => top === b.top);
    return [
      {
        ...b.reaches,
        why: `${b.riser} runs ${tenths(apart)} mm beside ${a.riser}: what is left between them is no tread`,
        wouldWork:
          trials.otherReach(b, b, clear) ??
          trials.otherReach(a, b, clear) ??
          `a figure that brings them onto one line, or at least ${LEAST_RISER} mm apart`,
      },
    ];
  });
}

/** Whether a riser of the blocks with these treads nearly coincides with one of another feature. */
export const runsBeside = (
  outline: Outline,
  blocks: readonly Block[],
  of: (top: string) => boolean,
): boolean =>
  pairs(blocks).some(([a, b]) => (of(a.top) || of(b.top)) && besideRiser(outline, a, b) !== undefined);

/** Every two blocks of different features, the one that comes first in the file first. */
const pairs = (blocks: readonly Block[]): (readonly [Block, Block])[] =>
  blocks.flatMap((b, i) =>
    blocks.slice(0, i).flatMap((a) => (a.feature === b.feature ? [] : [[a, b] as const])),
  );

function nearTops(outline: Outline, a: Block, b: Block): Omit<Refusal, "wouldWork"> | undefined {
  if (!isSlip(a.depth, b.depth)) return undefined;
  const beside = (from: Block, to: Block) =>
    edgePoints(from, outline, BESIDE).some(({ x, y }) => covers(to, x, y, BESIDE));
  if (!beside(a, b) && !beside(b, a)) return undefined;
  const apart = tenths(Math.abs(a.depth - b.depth));
  return {
    path: `${b.path}.depth`,
    value: b.depth,
    why: `${b.top} lies ${apart} mm ${b.depth > a.depth ? "below" : "above"} ${a.top}, which it meets: neither level with it nor a step`,
  };
}

/** Depths for a tread that meets another: level with it, or a step above or below, in the range that the file takes. */
function depthsBeside(
  a: Block,
  b: Block,
  [low, most]: readonly [number, number],
  leastOnWall: number,
  others: readonly Block[],
): string {
  const least = Math.max(low, leastOnWall);
  const takes = (depth: number) =>
    depth >= least && depth <= most && !others.some((o) => isSlip(depth, o.depth));
  const [above, below] = [Math.floor(a.depth - LEAST_RISER), Math.ceil(a.depth + LEAST_RISER)];
  const offers = [
    // No depth that takes many decimals to tell.
    ...(takes(a.depth) && tenths(a.depth) === a.depth ? [`${a.depth} mm`] : []),
    ...(takes(above) ? [`at most ${above} mm`] : []),
    ...(takes(below) ? [`at least ${below} mm`] : []),
  ];
  return offers.join(", or ") || `another place for ${b.feature}, where it does not meet ${a.feature}`;
}

/** Filled wherever the nearest of a chain is asked for. */
const near = blankNearest();

/** How near a riser runs beside another, mm; undefined where it does not. */
function besideRiser(outline: Outline, a: Block, b: Block): number | undefined {
  if (Math.abs(a.depth - b.depth) < 1e-6) return undefined;
  for (const { x, y, nx, ny } of edgePoints(b, outline, BESIDE)) {
    nearest(a.footprint, x, y, near);
    const apart = Math.abs(near.distance);
    if (apart < 0.1 || apart > NEAR + 1e-6 || near.nx * nx + near.ny * ny < SIDE_BY_SIDE) continue;
    return apart;
  }
  return undefined;
}
