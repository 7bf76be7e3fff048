import { likelyCuts } from "./cuts.ts";
import { type Drape, drape, isUndraped } from "./drape.ts";
import { EVEN, foretell, type Hanging } from "./foretell.ts";
import { hangCloth } from "./hang.ts";
import { MET } from "./join-yarns.ts";
import { type Cut, latticeOver } from "./lattice.ts";
import { outlineOf } from "./outline.ts";
import { isSimple } from "./simple.ts";
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
  /** Whether it could not be drawn as finely as the surface bends: finer cloth is lost or folds there, or no two nets agree. */
  readonly isRough: boolean;
}

/** Ways to hang whole cloth that are tried before it is cut; of cut cloth only the most promising is. */
const TRIES = 3;
/** Shear within this of what the next way would cost, rad, is good enough: 2°. */
const GOOD_ENOUGH = (2 * Math.PI) / 180;
/** What is foretold to pass the locking angle by more than this part is not tried. */
const HOPELESS = 1.15;
/** At most so many cuts in one piece. */
export const MOST_CUTS = 2;
/** Places are found in nets of these parts of a spacing, one after the other, until … */
const PARTS = [1, 1.6, 2, 3, 4];
/** … the surface bends by no more than this over one spacing, rad, or it is half of the whole, and … */
const BEND = 0.7;
const HALF = 2;
/** … no place lies further than this, mm, from where the net before had it. */
const AGREED = 2.5;
/** A net coarser by so much need not be followed by a finer one if it agrees within so many mm. */
const COARSER = 1.6;
const COARSER_AGREED = 1.6;
/** Sheared by no more than this the first net has it right, rad: 10°, if over its spacing the surface bends by no more than … */
const LITTLE = Math.PI / 18;
/** … this, rad. */
const LITTLE_BEND = 0.5;
/** The two sides of a cut may lie this far over each other in flat cloth, mm. */
const OVERLAP = 1;

/**
 * Finds how cloth is hung over a zone so that its largest shear is least, and cut where that passes the locking angle (rad): with as few cuts as do,
 * and each as short as does. `spacing` is that of the net and of the places looked at, mm. Gives back the best that was found,
 * whose shear may still be past locking; null where no cloth could be hung at all. Of no more than `mostCuts` cuts is thought.
 *
 * What shear a way of hanging will have is foretold from the zone's own turning, so that of the many ways only the few
 * promising are draped.
 */
export function fitCloth(
  zone: ClothZone,
  locking: number,
  spacing: number,
  mostCuts: number = MOST_CUTS,
): Fit | null {
  const turning = turningOf(zone);
  let best = hangBest(zone, turning, [], locking, spacing);
  for (let cuts: readonly Cut[] = []; !(best && lies(best, locking)) && cuts.length < mostCuts; ) {
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
  return { ...drawn, outline, overlaps: !isSimple(outline), isRough: fine === null };
}

/**
 * The same fit with its places found in a net as fine as the zone wants it: a coarse net may step over a sharp bend that a finer sees, and what is off in one net grows
 * along sheared cloth. Shear stays that of the coarser net: what the cloth does over the width of a hand. Null where no finer cloth can be had, or no two
 * nets agree.
 */
function drawnFine(zone: ClothZone, fit: Draped, spacing: number): Draped | null {
  const { columns, shear } = fit.drape;
  // The feet of cut cloth lie whole parts apart.
  const possible = PARTS.filter((parts) => fit.cuts.length === 0 || Number.isInteger(parts));
  let drawn = fit.drape;
  const bend = spacing * drawn.bend;
  let isAgreed =
    (shear.most < LITTLE && bend < LITTLE_BEND) || (bend <= BEND && coarserAgrees(zone, fit, spacing));
  let reached = 1;
  for (const parts of possible) {
    const isBent = reached < HALF && (spacing * drawn.bend) / reached > BEND;
    if (isAgreed && !isBent) break;
    // A net on which the surface bends too much still would be drawn for nothing.
    if (parts === 1 || (parts < HALF && bend / parts > BEND)) continue;
    const cloth = hangCloth(zone, fit.hanging, fit.cuts, spacing / parts);
    const fine = cloth && drape(cloth, fit.hanging, columns);
    if (!fine || isUndraped(fine)) return null;
    isAgreed = furthestApart(fine, drawn) <= AGREED;
    drawn = { ...fine, shear };
    reached = parts;
  }
  return isAgreed ? { ...fit, drape: drawn } : null;
}

/** Whether a net coarser than this one, which costs a fraction of a finer one, agrees with it already: then this one is the finer of two that agree. */
function coarserAgrees(zone: ClothZone, { drape: drawn, hanging, cuts }: Draped, spacing: number): boolean {
  // The feet of cut cloth lie whole parts apart.
  if (cuts.length > 0) return false;
  const cloth = hangCloth(zone, hanging, cuts, spacing * COARSER);
  const coarse = cloth && drape(cloth, hanging, drawn.columns);
  return coarse !== null && !isUndraped(coarse) && furthestApart(coarse, drawn) <= COARSER_AGREED;
}

/** How far the places of two drapes of the same columns lie apart in flat cloth at the most, mm. */
function furthestApart(a: Drape, b: Drape): number {
  let most = 0;
  a.flat.forEach((places, c) => {
    for (let i = 0; i < places.length; i += 2)
      most = Math.max(most, Math.hypot(places[i] - b.flat[c][i], places[i + 1] - b.flat[c][i + 1]));
  });
  return most;
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
  let tries = cuts.length > 0 ? 1 : TRIES;
  for (const [i, hanging] of ways.entries()) {
    if (tries === 0) break;
    const cloth = hangCloth(zone, hanging, cuts, spacing);
    if (!cloth) continue;
    const result = drape(cloth, hanging, columns, best?.drape.shear.most ?? Infinity);
    // A way on which cloth is lost costs little and tells nothing of the others.
    if (!isUndraped(result) || result.why === MET.yes) tries--;
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
