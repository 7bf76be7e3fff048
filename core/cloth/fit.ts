import { likelyCuts } from "./cuts.ts";
import { type Drape, drape, isUndraped } from "./drape.ts";
import { EVEN, foretell, type Hanging } from "./foretell.ts";
import { hangCloth } from "./hang.ts";
import { type Cut, latticeOver } from "./lattice.ts";
import { liesOverItself, outlineOf } from "./outline.ts";
import { isTorn } from "./tip.ts";
import { type Turning, turningOf } from "./turning.ts";
import type { ClothZone } from "./zone.ts";

/** A zone draped, with the cuts that it takes. */
interface Draped {
  readonly drape: Drape;
  readonly cuts: readonly Cut[];
  readonly hanging: Hanging;
}

export interface Fit extends Draped {
  /** See `outlineOf`. */
  readonly outline: Float64Array;
  /** Whether its flat outline lies over itself, as that of a whole ring does. */
  readonly overlaps: boolean;
  /** Whether it could not be drawn as finely as the surface bends: finer cloth is lost or folds there. */
  readonly isRough: boolean;
}

/** Ways to hang whole cloth that are tried before it is cut; of cut cloth only the most promising is. */
const TRIES = 3;
/** Shear within this of what the next way would cost, rad, is good enough: 2°. */
const GOOD_ENOUGH = (2 * Math.PI) / 180;
/** What is foretold to pass the locking angle by more than this part is not tried. */
const HOPELESS = 1.15;
/** At most so many cuts in one piece. */
const MOST_CUTS = 2;
/** Over one spacing of the net that places are found in the surface bends by no more than this, rad, if one of these parts of a spacing does. */
const BEND = 0.6;
const PARTS = [1, 1.6, 2];
/** The two sides of a cut may lie this far over each other in flat cloth, mm. */
const OVERLAP = 1;

/**
 * Finds how cloth is hung over a zone so that its largest shear is least, and cut where that passes the locking angle (rad): with as few cuts as do,
 * and each as short as does. `spacing` is that of the net and of the places looked at, mm. Gives back the best that was found,
 * whose shear may still be past locking; null where no cloth could be hung at all.
 *
 * What shear a way of hanging will have is foretold from the zone's own turning, so that of the many ways only the few
 * promising are draped.
 */
export function fitCloth(zone: ClothZone, locking: number, spacing: number): Fit | null {
  const turning = turningOf(zone);
  let best = hangBest(zone, turning, [], locking, spacing);
  for (let cuts: readonly Cut[] = []; !(best && lies(best, locking)) && cuts.length < MOST_CUTS; ) {
    const wanted = likeliest(turning, cuts, locking);
    if (!wanted) break;
    cuts = wanted;
    const found = hangBest(zone, turning, cuts, locking, spacing);
    if (found && (!best || found.drape.shear.most < best.drape.shear.most)) best = found;
  }
  // Better a shape that is told to lock than none.
  best ??= hangBest(zone, turning, [], Math.PI, spacing);
  if (!best) return null;
  // What does not lie down is not worth drawing finely.
  const fine = lies(best, locking) ? drawnFine(zone, best, spacing) : best;
  const drawn = fine ?? best;
  const outline = outlineOf(zone, drawn.drape);
  return { ...drawn, outline, overlaps: liesOverItself(outline), isRough: fine === null };
}

/**
 * The same fit with its places found in a net as fine as the zone's bends want it: a coarse net may step over a sharp one that a finer sees, which is
 * then drawn finer yet. Shear stays that of the coarser net: what the cloth does over the width of a hand. Null where no finer cloth can be had.
 */
function drawnFine(zone: ClothZone, fit: Draped, spacing: number): Draped | null {
  const { columns, shear } = fit.drape;
  // The feet of cut cloth lie whole parts apart.
  const possible = PARTS.filter((parts) => fit.cuts.length === 0 || Number.isInteger(parts));
  const finest = Math.max(...possible);
  const isEnough = (parts: number, { bend }: Drape) => parts === finest || (spacing * bend) / parts <= BEND;
  let drawn = fit.drape;
  for (const parts of possible) {
    if (!isEnough(parts, drawn)) continue;
    if (parts > 1) {
      const cloth = hangCloth(zone, fit.hanging, fit.cuts, spacing / parts);
      const fine = cloth && drape(cloth, fit.hanging, columns);
      if (!fine || isUndraped(fine)) return null;
      drawn = { ...fine, shear };
    }
    if (isEnough(parts, drawn)) break;
  }
  return { ...fit, drape: drawn };
}

/** Whether a fit can be cut in one piece and lies down without locking (rad). */
export const fits = (fit: Fit, locking: number): boolean =>
  lies(fit, locking) && !fit.overlaps && !fit.isRough;

const lies = ({ drape }: Draped, locking: number): boolean => drape.shear.most <= locking;

/** The best of the promising ways to hang cloth with given cuts. */
function hangBest(
  zone: ClothZone,
  turning: Turning,
  cuts: readonly Cut[],
  locking: number,
  spacing: number,
): Draped | null {
  const ways = foretell(turning, cuts).filter((way) => way.shear < HOPELESS * locking);
  if (ways.length === 0) return null;
  const columns = latticeOver(zone, cuts, spacing);
  let best: Draped | null = null;
  for (const [i, hanging] of ways.slice(0, cuts.length > 0 ? 1 : TRIES).entries()) {
    const cloth = hangCloth(zone, hanging, cuts, spacing);
    if (!cloth) continue;
    const result = drape(cloth, hanging, columns, best?.drape.shear.most ?? Infinity);
    if (isUndraped(result) || isShort(result) || isTorn(result)) continue;
    best = { drape: result, cuts, hanging };
    if (result.shear.most < (ways[i + 1]?.cost ?? Infinity) + GOOD_ENOUGH) break;
  }
  return best;
}

/** The cuts and one more: the shortest that is foretold to fit, or else the one with which the shear is least. */
function likeliest(turning: Turning, cuts: readonly Cut[], locking: number): Cut[] | null {
  const likely = likelyCuts(turning)
    .filter((cut) => !cuts.some((other) => other.side === cut.side && other.station === cut.station))
    .map((cut) => ({ cut, depth: depthOf(turning, cut) }))
    .sort((a, b) => Math.round((a.depth - b.depth) / EVEN));
  let best: { cuts: Cut[]; shear: number } | null = null;
  for (const { cut } of likely) {
    const more = [...cuts, cut].sort((a, b) => a.station - b.station);
    const [way] = foretell(turning, more);
    if (!way) continue;
    if (way.shear <= 0.95 * locking) return more;
    if (!best || way.shear < best.shear - EVEN) best = { cuts: more, shear: way.shear };
  }
  return best?.cuts ?? null;
}

function depthOf({ ws }: Turning, { side, tip }: Cut): number {
  return (side === "left" ? ws[ws.length - 1] : -ws[0]) - tip;
}

/** Whether the two sides of a cut lie over each other in flat cloth, so that no one piece can be cut so. */
function isShort({ columns, flat }: Drape): boolean {
  return columns.some(({ after, ws }, c) => {
    if (!after) return false;
    const beyond = (w: number) => (after.side === "left" ? w > after.tip : w < -after.tip);
    return ws.some((w, k) => beyond(w) && flat[c][2 * k] < flat[c - 1][2 * k] - OVERLAP);
  });
}
