import { type Fit, fits } from "../cloth/fit.ts";
import { EVEN, foretell } from "../cloth/foretell.ts";
import { turningBetween, turningOf } from "../cloth/turning.ts";
import type { ClothZone } from "../cloth/zone.ts";
import { fault, type Joint, type JointRules, lapAt } from "./joints.ts";
import type { Ruler } from "./ruler.ts";

/** A stretch of a ply that one piece of cloth covers, and how it lies there; no fit where cloth could not be laid at all. */
export interface FittedPart {
  /** Stations counted from the strip's beginning, mm. */
  readonly from: number;
  readonly to: number;
  readonly zone: ClothZone;
  readonly fit: Fit | null;
}

export interface PartRules extends Pick<JointRules, "lap" | "below" | "stagger" | "awkward"> {
  /** The zone of the piece between two stations. */
  readonly zoneOf: (from: number, to: number) => ClothZone;
  /** How cloth lies on such a zone. */
  readonly fitZone: (zone: ClothZone) => Fit | null;
  /** rad. */
  readonly locking: number;
  /** Width of the roll, mm. */
  readonly rollWidth: number;
}

/** No piece is made shorter by a split than this, mm, nor than three laps. */
const SHORTEST = 120;
/** A part that was split off so many times over is left as it is. */
const MOST_SPLITS = 5;
/** What the faults of a joint that is wanted for a split count, beside its awkwardness: one on a joint below as much as 9° past locking. */
const FAULT = 0.03;
/** No piece is taken to be sheared more times than this of what was foretold. */
export const MOST_TIMES = 2;
/** Places tried for a split. */
const PLACES = 15;

/**
 * Lays the piece between two stations of a ply. What passes the locking angle however it is hung and cut is split where its two parts are foretold
 * to shear least; splits in straight stretches, clear of the joints below, are preferred. `depth` counts the splits so far.
 */
export function fitPart(
  ruler: Ruler,
  rules: PartRules,
  from: number,
  to: number,
  depth = 0,
): { parts: FittedPart[]; joints: Joint[] } {
  const zone = rules.zoneOf(from, to);
  const fit = rules.fitZone(zone);
  const whole = { parts: [{ from, to, zone, fit }], joints: [] };
  if (liesWhole(fit, zone, rules.locking, rules.rollWidth) || depth === MOST_SPLITS) return whole;
  const joint = bestSplit(ruler, rules, from, to, fit);
  if (!joint) return whole;
  const first = fitPart(ruler, rules, from, joint.to, depth + 1);
  const second = fitPart(ruler, rules, joint.from, to, depth + 1);
  return {
    parts: [...first.parts, ...second.parts],
    joints: [...first.joints, joint, ...second.joints],
  };
}

/** Whether a zone's cloth lies down in one piece that can be cut from a roll so wide, mm. */
export const liesWhole = (fit: Fit | null, zone: ClothZone, locking: number, rollWidth: number): boolean =>
  fit !== null && fits(fit, locking) && !isTooWide(fit, zone, rollWidth);

/** Whether a piece is wider than the roll only because its zone turns: one that is too wide where it is straight stays so. */
const isTooWide = (fit: Fit, { left, right }: ClothZone, rollWidth: number): boolean =>
  left + right <= rollWidth && widthOf(fit) > rollWidth;

/** How much of the width of a roll a piece takes, mm. */
function widthOf({ drape }: Fit): number {
  let [low, high] = [Infinity, -Infinity];
  for (const places of drape.flat)
    for (let i = 1; i < places.length; i += 2) {
      low = Math.min(low, places[i]);
      high = Math.max(high, places[i]);
    }
  return high - low;
}

/** How many times more a piece has of something than was foretold, from 1 to MOST_TIMES. */
const timesOf = (found: number, foretold: number): number =>
  foretold > 0 ? Math.min(MOST_TIMES, Math.max(1, found / foretold)) : 1;

function bestSplit(ruler: Ruler, rules: PartRules, from: number, to: number, fit: Fit | null): Joint | null {
  const least = Math.max(SHORTEST, 3 * rules.lap);
  const zone = rules.zoneOf(from, to);
  const turning = turningOf(zone);
  const wayOf = (a: number, b: number) =>
    foretell(turningBetween(turning, zone.from + a - from, zone.from + b - from))[0];
  // Where the piece is sheared most it is so many times more than foretold, and will be in its part as well.
  const worst = fit ? from + fit.drape.shear.station - zone.from : (from + to) / 2;
  const foretold = wayOf(from, to);
  const times = timesOf(fit?.drape.shear.most ?? Math.PI, foretold?.shear ?? Math.PI);
  // So it is with how far the warp of one that does lie goes astray.
  const width = zone.left + zone.right;
  const timesAstray = timesOf(
    fit && fits(fit, rules.locking) ? widthOf(fit) - width : 0,
    foretold?.astray ?? 0,
  );
  let best: { joint: Joint; cost: number } | null = null;
  for (let place = 1; place <= PLACES; place++) {
    const joint = lapAt(ruler, from + ((to - from) * place) / (PLACES + 1), rules.lap);
    if (joint.to - from < least || to - joint.from < least) continue;
    const parts = [
      { way: wayOf(from, joint.to), times: worst <= joint.to ? times : 1 },
      { way: wayOf(joint.from, to), times: worst >= joint.from ? times : 1 },
    ];
    const shear = Math.max(...parts.map((part) => part.times * (part.way?.shear ?? Math.PI)));
    const astray = Math.max(...parts.map(({ way }) => way?.astray ?? 0));
    // Below locking no degree counts any more; past it nothing else does.
    const past = Math.max(0, shear - 0.9 * rules.locking);
    const wide = Math.max(0, width + timesAstray * astray - rules.rollWidth) / rules.rollWidth;
    const cost =
      10 * past + 5 * wide + rules.awkward(joint.from, joint.to) + FAULT * fault(ruler, joint, rules);
    if (!best || cost < best.cost - EVEN) best = { joint, cost };
  }
  return best?.joint ?? null;
}
