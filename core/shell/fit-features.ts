/** Features where they are to stand; of those that have no room there, the figures with which they have. Lengths mm. */
import { resolveRimPlace } from "../plan/rim-place.ts";
import { type FeatureSpec, limits, type RimPlace } from "../project/shell-schema.ts";
import { type Block, type Misfit, type PlacedBlocks, placeBlocks, type Surroundings } from "./blocks.ts";
import { featureOf, goingsDownTo, reachFigure, withEnd } from "./feature-figures.ts";
import { largestThatWorks, nearestThatWorks } from "./figure-that-works.ts";
import type { Radii } from "./radii.ts";
import type { Adjustment, Refusal } from "./shell.ts";
import { shortTreads } from "./tread-depths.ts";

/** Places along a run at which an end is tried: parts of the run, or mm. */
const PARTS = 0.01;
const PACE = 50;

/** Whether the blocks of a feature stand clear of others and of the wall: not nearly on one line with them, with no slot between. */
export type Clear = (blocks: readonly Block[], there: Surroundings, feature: string) => boolean;

/** Builds every feature's blocks; what has no room is refused with what would work. */
export function fitFeatures(
  features: readonly FeatureSpec[],
  surroundings: Surroundings,
  clear: Clear,
): { blocks: readonly Block[]; adjustments: readonly Adjustment[]; refusals: readonly Refusal[] } {
  const { blocks, adjustments, misfits } = placeBlocks(features, surroundings);
  const refusals = misfits.map((misfit): Refusal => {
    const { path, value, why } = misfit;
    return {
      path,
      value,
      why,
      wouldWork: misfit.wouldWork ?? roomFor(misfit, features, surroundings, clear),
    };
  });
  return { blocks, adjustments, refusals };
}

/** What would give a misfit room, in words: the first figure found, of its own or of the shell's. */
function roomFor(misfit: Misfit, features: readonly FeatureSpec[], here: Surroundings, clear: Clear): string {
  const { feature: id, top, path } = misfit;
  const ofPlace = path.includes(".place.");
  // All of its treads at best; where another of them is in the way for its own reasons, at least this one.
  const wholly = ({ misfits }: PlacedBlocks) => !misfits.some((other) => other.feature === id);
  const itself = ({ misfits }: PlacedBlocks) => !misfits.some((other) => other.top === top);
  const short = (tried: readonly FeatureSpec[], { radii }: Surroundings) => shortTreads(tried, radii);
  const before = short(features, here).length;
  for (const enough of ofPlace ? [wholly] : [wholly, itself]) {
    const roomy = (tried: readonly FeatureSpec[], there = here) => enough(placeBlocks(tried, there));
    // Not at the cost of another refusal.
    const fits = (tried: readonly FeatureSpec[], there = here): boolean => {
      const placed = placeBlocks(tried, there);
      if (!enough(placed)) return false;
      const left = short(tried, there);
      return (
        left.length <= before && !left.some((each) => each.top === top) && clear(placed.blocks, there, id)
      );
    };
    const end = () => endThatWorks(id, path, features, here, fits);
    const found =
      (ofPlace ? end() : null) ??
      reachThatWorks(misfit, features, here.radii, roomy, fits) ??
      footThatWorks(riserOf(top), here.radii, (radii) => fits(features, { ...here, radii })) ??
      draftThatWorks(here, (draft) => fits(features, { ...here, draft })) ??
      (ofPlace ? null : end()) ??
      reachWithFoot(misfit, features, here, roomy, fits) ??
      treadsThatWork(misfit, features, fits);
    if (found !== null) return found;
  }
  return `another place for ${id}, or a larger pool: no figure of its own gives it room here`;
}

const riserOf = (top: string): string =>
  top.replace(/\/top$/, "/riser").replace(/\/tread-(?=\d+$)/, "/riser-");

type Fits = (features: readonly FeatureSpec[]) => boolean;

/** Its going, width or reach; where it would have to be less than the project takes, all goings down to there. */
function reachThatWorks(
  { feature: id, top, path }: Misfit,
  features: readonly FeatureSpec[],
  radii: Radii,
  roomy: Fits,
  fits: Fits,
): string | null {
  // What is short enough for its room may still be refused for another reason, where a shorter one is not.
  const largest = (least: number, most: number, changed: (figure: number) => readonly FeatureSpec[]) => {
    const room = least > most ? null : largestThatWorks(least, most, (tried) => roomy(changed(tried)));
    if (room === null || fits(changed(room))) return room;
    return nearestThatWorks(room, least, (tried) => fits(changed(tried)));
  };
  const { name, value, least, changed } = reachFigure(features, top);
  // What is refused may be an end of it, and that for all of its treads.
  const whole = !path.endsWith(`.${name}`);
  if (name !== "going" || !whole) {
    const own = largest(least, value, changed);
    if (own !== null) return `a ${name} of at most ${own} mm${whole ? ` of ${id}` : ""}`;
  }
  if (name !== "going") return null;
  const goings = goingsDownTo(features, top, radii, whole);
  const together = largest(goings.least, goings.now, goings.changed);
  return together === null ? null : `goings that come to at most ${together} mm together`;
}

/** Its own figure for the room that there is, where its tread is level only with a smaller radius too. */
function reachWithFoot(
  { top }: Misfit,
  features: readonly FeatureSpec[],
  here: Surroundings,
  roomy: Fits,
  fits: (features: readonly FeatureSpec[], there: Surroundings) => boolean,
): string | null {
  const { name, value, least, changed } = reachFigure(features, top);
  const room = largestThatWorks(least, value, (tried) => roomy(changed(tried)));
  if (room === null) return null;
  const foot = footThatWorks(riserOf(top), here.radii, (radii) => fits(changed(room), { ...here, radii }));
  return foot === null ? null : `a ${name} of at most ${room} mm and with it ${foot}`;
}

/** A flight that ends higher up. */
function treadsThatWork(
  { feature: id }: Misfit,
  features: readonly FeatureSpec[],
  fits: Fits,
): string | null {
  const flight = features.find((each) => each.id === id);
  if (flight?.kind !== "steps") return null;
  for (let count = flight.treads.length - 1; count > 0; count--) {
    const shorter = { ...flight, treads: flight.treads.slice(0, count) };
    if (fits(features.map((each) => (each === flight ? shorter : each))))
      return `at most ${count} ${count === 1 ? "tread" : "treads"}`;
  }
  return null;
}

/** The radius at the foot of a riser: the pair's own where it has one. */
function footThatWorks(riser: string, radii: Radii, fits: (radii: Radii) => boolean): string | null {
  const given = radii.given(riser, "floor");
  const isFoot = (a: string, b: string) => (a === riser && b === "floor") || (b === riser && a === "floor");
  const tried = (radius: number): Radii =>
    given === undefined
      ? { ...radii, general: radius, step: (a, b) => radii.given(a, b) ?? radius }
      : { ...radii, step: (a, b) => (isFoot(a, b) ? radius : radii.step(a, b)) };
  const [[least], most] = given === undefined ? [limits.step, radii.general] : [limits.pair, given];
  const radius = largestThatWorks(least, most, (each) => fits(tried(each)));
  return radius === null ? null : `${radii.called(riser, "floor", "step")} of at most ${radius} mm`;
}

function draftThatWorks({ draft }: Surroundings, fits: (draft: number) => boolean): string | null {
  const degrees = largestThatWorks(0, (draft * 180) / Math.PI, (tried) => fits((tried * Math.PI) / 180));
  return degrees === null ? null : `a draft of at most ${degrees}°`;
}

/** The nearest place on its run to which its end, or else its start, can be moved; `path` leads to what is refused. */
function endThatWorks(
  id: string,
  path: string,
  features: readonly FeatureSpec[],
  { outline }: Surroundings,
  fits: Fits,
): string | null {
  const place = features.find((each) => each.id === id)?.place;
  if (place?.kind !== "along") return null;
  const stationOf = (at: RimPlace) => {
    const found = resolveRimPlace(outline, at);
    return "station" in found ? found.station : Number.NaN;
  };
  const total = outline.chain.length;
  const turn = (s: number) => s - Math.floor(s / total) * total;
  const span = turn(stationOf(place.to) - stationOf(place.from)) || total;
  for (const end of ["to", "from"] as const) {
    const at = place[end];
    const run = outline.runs.find((each) => each.id === at.run);
    if (!run) continue;
    const inParts = "part" in at;
    const [now, pace, most] = inParts ? [at.part, PARTS, 1] : [at.distance, PACE, run.length];
    const placed = (figure: number): RimPlace =>
      inParts ? { run: at.run, part: figure } : { run: at.run, distance: figure };
    const works = (figure: number): boolean => {
      if (figure < 0 || figure > most) return false;
      // Moved past the other end it would go all the way round instead.
      const longer = ((figure - now) / most) * run.length * (end === "to" ? 1 : -1);
      return span + longer > 0 && span + longer < total && fits(withEnd(features, id, end, placed(figure)));
    };
    for (let k = 1; k * pace <= most; k++) {
      for (const figure of [now + k * pace, now - k * pace]) {
        const round = inParts ? Math.round(figure * 100) / 100 : Math.round(figure);
        if (!works(round)) continue;
        const bound = round > now ? "at least" : "at most";
        const told = inParts ? `a part of ${bound} ${round}` : `a distance of ${bound} ${round} mm`;
        const which = end === "from" ? "a start at " : path.includes(".place.to") ? "" : "an end at ";
        return `${which}${told}`;
      }
    }
  }
  return null;
}

/** Tries figures of the features of a shell. Those that leave one more tread nothing level, or one more feature no room, do not work. */
export interface Trials {
  /**
   * Reaches of a block nearest to its own with which `works` holds of all blocks, in words; null for none. `refused`: the block
   * whose reach is refused, which the words need not name.
   */
  otherReach(block: Block, refused: Block, works: (blocks: readonly Block[]) => boolean): string | null;
  /** The nearest place on its run for an end of a block's feature with which `works` holds, in words; null for none. */
  otherEnd(block: Block, works: (blocks: readonly Block[]) => boolean): string | null;
  /** The largest radius at the foot of a block's riser with which `works` holds, in words; null for none. */
  otherFoot(block: Block, works: (blocks: readonly Block[], here: Surroundings) => boolean): string | null;
  /** The smallest figure from `least` on of how far the tier with this tread reaches that goes with all others; null for none. */
  reachFrom(top: string, least: number): number | null;
}

/** The figures of these features, tried where they stand. */
export function trialsOf(features: readonly FeatureSpec[], here: Surroundings, clear: Clear): Trials {
  const faults = ({ misfits }: PlacedBlocks, made: readonly FeatureSpec[], { radii }: Surroundings): number =>
    misfits.length + shortTreads(made, radii).length;
  // Others may be refused as well.
  const before = () => faults(placeBlocks(features, here), features, here);
  const fitted = (made: readonly FeatureSpec[], there: Surroundings, most: number) => {
    const placed = placeBlocks(made, there);
    return faults(placed, made, there) > most ? null : placed.blocks;
  };
  return {
    otherReach(block, refused, works) {
      const { name, value, least, most, changed } = reachFigure(features, block.top);
      const refusedNow = before();
      const goes = (tried: number): boolean => {
        const blocks = fitted(changed(tried), here, refusedNow);
        return blocks !== null && works(blocks);
      };
      const of = block === refused ? "" : ` of ${name === "going" ? block.top : block.feature}`;
      const less = nearestThatWorks(value, least, goes);
      const more = nearestThatWorks(value, most, goes);
      const found = [
        ...(less === null ? [] : [`a ${name} of at most ${less} mm${of}`]),
        ...(more === null ? [] : [`a ${name} of at least ${more} mm${of}`]),
      ];
      return found.length === 0 ? null : found.join(", or ");
    },
    otherEnd({ feature, path }, works) {
      const refusedNow = before();
      return endThatWorks(feature, path, features, here, (made) => {
        const blocks = fitted(made, here, refusedNow);
        return blocks !== null && works(blocks);
      });
    },
    otherFoot({ riser }, works) {
      const refusedNow = before();
      return footThatWorks(riser, here.radii, (radii) => {
        const there = { ...here, radii };
        const blocks = fitted(features, there, refusedNow);
        return blocks !== null && works(blocks, there);
      });
    },
    reachFrom(top, least) {
      const { most, changed } = reachFigure(features, top);
      const { misfits, blocks } = placeBlocks(features, here);
      const feature = featureOf(features, top).id;
      // Where it is not clear as it stands, that is refused by itself.
      const isClear = clear(blocks, here, feature);
      const goes = (tried: number): boolean => {
        const placed = placeBlocks(changed(tried), here);
        if (placed.misfits.length > misfits.length) return false;
        return (
          !placed.misfits.some((each) => each.top === top) &&
          (!isClear || clear(placed.blocks, here, feature))
        );
      };
      return least <= most && goes(least) ? least : nearestThatWorks(least, most, goes);
    },
  };
}
