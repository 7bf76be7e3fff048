import {
  type BarProblem,
  type BarSolution,
  costOf,
  type PatternUse,
  takeOut,
  timesIn,
} from "./bar-problem.ts";
import type { Filler, Filling } from "./fill-bar.ts";

/** How far a worth moves towards what a piece has just cost. */
const CORRECTION = 0.5;
/** Differences in worth below this part of the largest are rounding. */
const ROUNDING = 1e-9;

/**
 * Cuts bar after bar, each filled with what is worth most for its cost, then corrects what each size is worth by the
 * waste that it met, so that sizes that fill badly go first in the next pass [sequential value correction: E. A.
 * Mukhacheva, V. A. Zalgaller, "Linear programming for cutting problems", Int. J. of Software Engineering and
 * Knowledge Engineering 3 (1993) 463-476]. `worth` holds what a piece of each size is worth, above 0 and of the order
 * of its length; it is corrected in place. Meets the whole demand; once `stop` says so, with bars filled longest piece first.
 */
export function greedyPass(
  problem: BarProblem,
  demand: Int32Array,
  supply: readonly number[],
  filler: Filler,
  worth: Float64Array,
  stop: () => boolean,
): BarSolution {
  const { sizes, kinds } = problem;
  const left = demand.slice();
  const stock = [...supply];
  const uses: PatternUse[] = [];
  let pieces = left.reduce((sum, each) => sum + each, 0);
  while (pieces > 0) {
    const found = stop() ? longestFirst(problem, left, stock) : mostWorth(filler, left, stock, worth);
    let best: (typeof found)[number];
    let bestRate = 0;
    for (const filling of found) {
      if (!filling) continue;
      const rate = filling.value / (kinds[filling.pattern.kind].cost || 1e-9);
      if (rate > bestRate) {
        best = filling;
        bestRate = rate;
      }
    }
    if (!best) throw new RangeError("A piece fits no bar that is left.");
    const { pattern } = best;
    const times = timesIn(pattern, left, stock);
    takeOut(pattern, times, left, stock);
    pieces -= times * pattern.items.length;
    uses.push({ pattern, times });
    const filled = pattern.items.reduce((sum, i) => sum + sizes[i], 0);
    const stretch = kinds[pattern.kind].capacity / filled;
    for (const i of new Set(pattern.items)) {
      worth[i] += CORRECTION * (sizes[i] ** 1.02 * stretch - worth[i]);
    }
  }
  return { uses, cost: costOf(problem, uses) };
}

/** For each kind the filling that is worth most. */
function mostWorth(
  filler: Filler,
  left: Int32Array,
  stock: readonly number[],
  worth: Float64Array,
): readonly (Filling | undefined)[] {
  const floors = stock.map((number) => (number > 0 ? 0 : Number.POSITIVE_INFINITY));
  const dearest = worth.reduce((most, each, i) => (left[i] > 0 ? Math.max(most, each) : most), 0);
  return filler.best(worth, left, floors, ROUNDING * dearest);
}

/** For each kind the filling that takes the longest piece that still fits, and again; worth its length. */
function longestFirst(
  { sizes, kinds }: BarProblem,
  left: Int32Array,
  stock: readonly number[],
): readonly (Filling | undefined)[] {
  return kinds.map(({ capacity }, kind) => {
    if (stock[kind] <= 0) return undefined;
    const items: number[] = [];
    let room = capacity;
    for (let i = 0; i < sizes.length; i++) {
      for (let number = Math.min(left[i], Math.floor(room / sizes[i])); number > 0; number--) {
        items.push(i);
        room -= sizes[i];
      }
    }
    return items.length > 0 ? { value: capacity - room, pattern: { kind, items } } : undefined;
  });
}
