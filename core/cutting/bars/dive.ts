import { randomFrom } from "../../packing/random.ts";
import { type BarSolution, costOf, type Pattern, type PatternUse, timesIn } from "./bar-problem.ts";
import { complete } from "./complete.ts";
import { greedyPass } from "./greedy.ts";
import { provenPrices } from "./prove.ts";
import { copyRelaxation, cut, partsOf, prices, type Relaxation, solve } from "./relax.ts";

/** A place on the way down: what is left, and what has been cut. */
export interface Waypoint {
  readonly relaxation: Relaxation;
  readonly uses: readonly PatternUse[];
}

export interface DiveOptions {
  /** Hears of each place on the way. */
  readonly onWay?: (place: Waypoint) => void;
  /** 0 always goes for the largest part; other numbers choose among large parts. */
  readonly seed: number;
  readonly stop: () => boolean;
  /** Only what is cheaper than this is looked for. */
  readonly cheaperThan: number;
}

/** A part this near to a whole number is taken for it. */
const NEARLY = 1e-4;
/** Parts at least this much of the largest may be rounded up in its stead. */
const LARGE = 0.7;
/** So few pieces are finished by trying all ways, for so many steps. */
const FEW_PIECES = 40;
const STEPS = 20_000;

/**
 * Rounds a solved relaxation: cuts each pattern as often as its whole part says, or once where there are none one of
 * the largest part, and relaxes what is left again until nothing is [residual rounding: G. Wäscher, T. Gau,
 * "Heuristics for the integer one-dimensional cutting stock problem", OR Spektrum 18 (1996) 131-144]. What is left in
 * the end is finished exactly or greedily. Gives the best solution on the way, undefined where none is cheap enough;
 * the place where it begins stays as it is.
 */
export function dive(
  from: Waypoint,
  { seed, stop, cheaperThan, onWay }: DiveOptions,
): BarSolution | undefined {
  const relaxation = copyRelaxation(from.relaxation);
  const { problem, filler, unit } = relaxation;
  const { left, stock } = relaxation;
  const random = randomFrom(seed);
  const uses: PatternUse[] = [...from.uses];
  let best: BarSolution | undefined;
  let limit = cheaperThan;
  const take = (pattern: Pattern, most: number): boolean => {
    const times = Math.min(most, timesIn(pattern, left, stock));
    if (times <= 0) return false;
    cut(relaxation, pattern, times);
    uses.push({ pattern, times });
    return true;
  };
  const finish = (rest: readonly PatternUse[]): void => {
    const all = [...uses, ...rest];
    const cost = costOf(problem, all);
    if (cost >= limit) return;
    best = { uses: all, cost };
    limit = cost;
  };
  for (;;) {
    const parts = partsOf(relaxation);
    let taken = false;
    for (const { pattern, amount } of parts) {
      const whole = Math.floor(amount + NEARLY);
      if (whole > 0 && take(pattern, whole)) taken = true;
    }
    if (!taken) {
      const large = parts.filter(({ amount }) => amount >= (seed === 0 ? 1 : LARGE) * parts[0].amount);
      const pick = large[Math.floor(random() * large.length)];
      // A pattern of the basis may hold more of a size than is left.
      taken = [pick, ...parts].some(({ pattern }) => take(pattern, 1));
    }
    const used = costOf(problem, uses);
    const pieces = left.reduce((sum, each) => sum + each, 0);
    if (pieces === 0) {
      finish([]);
      return best;
    }
    const bound = solve(relaxation, { stop, enough: limit - 1 - used + 1e-6 });
    if (used + Math.ceil(bound - 1e-6) >= limit) return best;
    onWay?.({ relaxation: copyRelaxation(relaxation), uses: [...uses] });
    const worth = prices(relaxation).map((value) => value * unit);
    if (pieces <= FEW_PIECES) {
      const proven = provenPrices(problem, left, stock, filler, worth, limit);
      if (used + proven.bound >= limit) return best;
      const { uses: rest, ended } = complete(problem, left, stock, proven, limit - 1 - used, {
        steps: STEPS,
        stop,
      });
      if (rest) finish(rest);
      else if (ended) return best;
    }
    if (pieces <= FEW_PIECES || !taken || stop()) {
      // In lengths, as a greedy pass wants it, with a little for its length, so that what is worth nothing is cut all
      // the same.
      const perWorth = problem.sizes[0] / (Math.max(...worth) || 1);
      const values = worth.map((value, i) => value * perWorth + problem.sizes[i] / 1000);
      finish(greedyPass(problem, left, stock, filler, values, stop).uses);
    }
    if (!taken || stop()) return best;
  }
}
