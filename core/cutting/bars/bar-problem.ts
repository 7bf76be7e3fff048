/**
 * The cutting of bars as pure numbers. A piece takes its length and one kerf, a bar offers its usable length and one
 * kerf (n pieces need n - 1 cuts between them), so that filling a bar is filling a knapsack. All figures are whole
 * numbers.
 */
export interface BarProblem {
  /** What each size takes of a bar, longest first, no two alike. */
  readonly sizes: Float64Array;
  /** How many pieces of each size are wanted, 1 or more. */
  readonly demand: Int32Array;
  readonly kinds: readonly BarKind[];
}

export interface BarKind {
  readonly capacity: number;
  /** Whole number, 0 or more; 0 only where the supply is limited. */
  readonly cost: number;
  /**
   * How many there are; Infinity where there are as many as one likes. Every size fits a kind of which that is true.
   */
  readonly supply: number;
}

/** What is cut from one bar: its kind and the size of each piece as an index into `sizes`, longest first. */
export interface Pattern {
  readonly kind: number;
  readonly items: readonly number[];
}

/** A pattern and how often it is cut. */
export interface PatternUse {
  readonly pattern: Pattern;
  readonly times: number;
}

/** A whole solution: every piece is cut exactly once, no kind is used beyond its supply. */
export interface BarSolution {
  readonly uses: readonly PatternUse[];
  readonly cost: number;
}

/** Cost of a list of uses. */
export function costOf(problem: BarProblem, uses: readonly PatternUse[]): number {
  return uses.reduce((sum, { pattern, times }) => sum + times * problem.kinds[pattern.kind].cost, 0);
}

/** How often a pattern can be cut from what is left of demand and supply. */
export function timesIn(pattern: Pattern, demand: Int32Array, supply: readonly number[]): number {
  let times = supply[pattern.kind];
  const { items } = pattern;
  for (let k = 0; k < items.length; ) {
    let end = k + 1;
    while (end < items.length && items[end] === items[k]) end++;
    times = Math.min(times, Math.floor(demand[items[k]] / (end - k)));
    k = end;
  }
  return times;
}

/** Takes a pattern `times` times out of demand and supply (puts it back for a negative number), in place. */
export function takeOut(pattern: Pattern, times: number, demand: Int32Array, supply: number[]): void {
  supply[pattern.kind] -= times;
  for (const item of pattern.items) demand[item] -= times;
}
