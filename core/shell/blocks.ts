import type { Chain, Outline } from "../plan/chain.ts";
import { nearest } from "../plan/nearest.ts";
import type { FeatureSpec } from "../project/schema.ts";
import { buildFootprint } from "./footprint.ts";
import type { Radii } from "./radii.ts";
import type { Adjustment, Refusal } from "./shell.ts";

/** One solid of a feature: a tread at a depth over a footprint, with a riser all round its free edges. */
export interface Block {
  readonly feature: string;
  readonly top: string;
  readonly riser: string;
  readonly depth: number;
  /** Plan shape of the tread, the solid on its left. */
  readonly footprint: Chain;
  readonly nose: number;
  /** Path of the figure that a refusal would name. */
  readonly path: string;
}

interface Tier {
  readonly top: string;
  readonly riser: string;
  readonly depth: number;
  readonly reach: number;
  readonly wrap: number;
  readonly path: string;
}

/** Room beyond the bare need, mm, so that no ball's centre reaches the centre of an arc in plan. */
const MARGIN = 8;

/** The tiers of a feature, top down: steps have one a tread, each reaching further than the one above. */
export function tiersOf(feature: FeatureSpec, path: string): Tier[] {
  if (feature.kind !== "steps") {
    const reach = feature.kind === "bench" ? feature.width : feature.reach;
    return [
      { top: `${feature.id}/top`, riser: `${feature.id}/riser`, depth: feature.depth, reach, wrap: 0, path },
    ];
  }
  let reach = 0;
  return feature.treads.map((tread, i) => {
    reach += tread.going;
    return {
      top: `${feature.id}/tread-${i + 1}`,
      riser: `${feature.id}/riser-${i + 1}`,
      depth: tread.depth,
      reach,
      wrap: reach - feature.treads[0].going,
      path: `${path}.treads[${i}]`,
    };
  });
}

/** Builds every feature's blocks; `deepest` is the greatest depth of the floor, `join` the least re-entrant radius. */
export function buildBlocks(
  features: readonly FeatureSpec[],
  outline: Outline,
  radii: Radii,
  draft: number,
  deepest: number,
): { blocks: Block[]; adjustments: Adjustment[]; refusals: Refusal[] } {
  const adjustments: Adjustment[] = [];
  const refusals: Refusal[] = [];
  // How far in from the tread's edge the centre of the nose's ball lies, per mm of its radius.
  const inward = (1 - Math.sin(draft)) / Math.cos(draft);
  const made: Block[][] = features.map(() => []);
  // Features along a run come last: their ends make way for what stands fast.
  const order = features
    .map((_, i) => i)
    .sort((a, b) => Number(runs(features[a])) - Number(runs(features[b])) || a - b);
  for (const f of order) {
    const feature = features[f];
    for (const tier of tiersOf(feature, `shell.features[${f}]`)) {
      const foot = radii.step(tier.riser, "floor");
      const asked = radii.nose(tier.top, tier.riser);
      const outward = asked * inward + MARGIN;
      const drop = Math.max(0, deepest - tier.depth);
      const result = buildFootprint(outline, {
        place: feature.place,
        reach: tier.reach,
        wrap: tier.wrap,
        outward,
        reentrant: drop * Math.tan(draft) + foot / Math.cos(draft) + MARGIN,
        slot: 2 * (foot / Math.cos(draft) + drop * Math.tan(draft)) + 60,
        others: made.flatMap((blocks, i) => (i === f ? [] : blocks)),
        depth: tier.depth,
        name: tier.top.endsWith("/top") ? feature.id : tier.top,
      });
      if (!result.ok) {
        const why = `${tier.top} ${result.why}`;
        refusals.push({ path: tier.path, value: tier.reach, why, wouldWork: result.wouldWork });
        continue;
      }
      adjustments.push(...result.adjustments);
      const nose = result.tightest < outward ? (result.tightest - MARGIN) / inward : asked;
      if (nose < asked) {
        adjustments.push({
          id: `radius/${tier.top}|${tier.riser}`,
          what: `radius between ${tier.top} and ${tier.riser}`,
          asked,
          used: nose,
          unit: "mm",
          why: `no larger nose goes round its ends, for which there is room with a radius of ${Math.floor(result.tightest)} mm only`,
        });
      }
      made[f].push({
        feature: feature.id,
        top: tier.top,
        riser: tier.riser,
        depth: tier.depth,
        footprint: result.chain,
        nose,
        path: tier.path,
      });
    }
  }
  return { blocks: made.flat(), adjustments, refusals };
}

const runs = (feature: FeatureSpec): boolean => feature.place.kind === "along";

/** True where the block's tread reaches within `margin` of a plan point. */
export const covers = (block: Block, x: number, y: number, margin = 0): boolean =>
  nearest(block.footprint, x, y).distance <= margin;
