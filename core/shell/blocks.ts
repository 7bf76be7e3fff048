import type { Chain, Outline } from "../plan/chain.ts";
import { blankNearest, nearest } from "../plan/nearest.ts";
import type { Figure } from "../plan/outlines/corner-figure.ts";
import type { FeatureSpec } from "../project/schema.ts";
import { buildFootprint } from "./footprint.ts";
import type { Radii } from "./radii.ts";
import { refuseRimPlace } from "./rim-place-refusal.ts";
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
  /** Path of what a refusal would name: the tread or the feature, and of its figure that says how far it reaches. */
  readonly path: string;
  readonly reaches: Figure;
}

interface Tier {
  readonly top: string;
  readonly riser: string;
  readonly depth: number;
  readonly reach: number;
  readonly wrap: number;
  readonly path: string;
  readonly reaches: Figure;
}

/** Room beyond the bare need, mm, so that no ball's centre reaches the centre of an arc in plan. */
const MARGIN = 8;

/** The tiers of a feature, top down: steps have one a tread, each reaching further than the one above. */
export function tiersOf(feature: FeatureSpec, path: string): Tier[] {
  if (feature.kind !== "steps") {
    const [figure, reach] = feature.kind === "bench" ? ["width", feature.width] : ["reach", feature.reach];
    return [
      {
        top: `${feature.id}/top`,
        riser: `${feature.id}/riser`,
        depth: feature.depth,
        reach,
        wrap: 0,
        path,
        reaches: { path: `${path}.${figure}`, value: reach },
      },
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
      reaches: { path: `${path}.treads[${i}].going`, value: tread.going },
    };
  });
}

/** What features stand in: the walls round them, and the greatest depth of the floor, mm. */
export interface Surroundings {
  readonly outline: Outline;
  readonly radii: Radii;
  /** Radians. */
  readonly draft: number;
  readonly deepest: number;
}

/** A tier that has no room where it is to stand. */
export interface Misfit {
  readonly feature: string;
  readonly top: string;
  readonly path: string;
  readonly value: unknown;
  readonly why: string;
  /** Null where what would work is to be found by trying. */
  readonly wouldWork: string | null;
}

export interface PlacedBlocks {
  readonly blocks: readonly Block[];
  readonly adjustments: readonly Adjustment[];
  readonly misfits: readonly Misfit[];
}

/** Builds every feature's blocks where there is room for them. */
export function placeBlocks(
  features: readonly FeatureSpec[],
  { outline, radii, draft, deepest }: Surroundings,
): PlacedBlocks {
  const adjustments: Adjustment[] = [];
  const misfits: Misfit[] = [];
  // How far in from the tread's edge the centre of the nose's ball lies, per mm of its radius.
  const inward = (1 - Math.sin(draft)) / Math.cos(draft);
  const made: Block[][] = features.map(() => []);
  // Features along a run come last: their ends make way for what stands fast.
  const order = features
    .map((_, i) => i)
    .sort((a, b) => Number(runs(features[a])) - Number(runs(features[b])) || a - b);
  for (const f of order) {
    const feature = features[f];
    const path = `shell.features[${f}]`;
    const misplaced = checkPlace(feature, outline, path);
    misfits.push(...misplaced.map((one) => ({ feature: feature.id, top: feature.id, ...one })));
    if (misplaced.length > 0) continue;
    for (const tier of tiersOf(feature, path)) {
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
        figure: tier.reaches.path.slice(tier.reaches.path.lastIndexOf(".") + 1),
        above: feature.kind === "steps" ? tier.reach - Number(tier.reaches.value) : 0,
      });
      if (!result.ok) {
        const { at, wouldWork } = result;
        const misfit = { feature: feature.id, top: tier.top, why: `${tier.top} ${result.why}`, wouldWork };
        if (at === "reach") {
          misfits.push({ ...misfit, ...tier.reaches });
          continue;
        }
        // What is wrong with the place is wrong for every tread.
        misfits.push({ ...misfit, path: `${path}.place.${at.field}`, value: at.value });
        break;
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
        reaches: tier.reaches,
      });
    }
  }
  return { blocks: made.flat(), adjustments, misfits };
}

/** The places on the rim that a feature along a run names must be there. */
function checkPlace({ id, place }: FeatureSpec, outline: Outline, path: string): Refusal[] {
  if (place.kind !== "along") return [];
  return (["from", "to"] as const).flatMap((end) => {
    const who = `the ${end === "from" ? "start" : "end"} of ${id}`;
    const refusal = refuseRimPlace(outline, place[end], `${path}.place.${end}`, who);
    return refusal ? [refusal] : [];
  });
}

const runs = (feature: FeatureSpec): boolean => feature.place.kind === "along";

const edge = blankNearest();

/** True where the block's tread reaches within `margin` of a plan point. */
export const covers = (block: Block, x: number, y: number, margin = 0): boolean =>
  nearest(block.footprint, x, y, edge).distance <= margin;
