/**
 * What the links of chains cost that lead from place to place, by where they end and begin: of those that end at a place `to` that from the place
 * `from` is `costs[rows[to] + to − 1 − from]`, below `rows[to + 1]`; Infinity where there may be none.
 */
export interface ChainCosts {
  readonly rows: Int32Array;
  readonly costs: Float64Array;
}

export interface Chain {
  /** The places between its two ends, rising. */
  readonly between: readonly number[];
  readonly cost: number;
}

/** What chains are compared with: one that with the least `rest` from a place on would cost more than `enough` is followed no further. */
export interface ChainBound {
  readonly enough: number;
  readonly rest: Float64Array;
}

/**
 * The cheapest chain from place `first` to place `last`, or null where the costs, or the bound, allow none. Of chains that cost the same it has the
 * shortest last links. Dynamic programming over the places, within the bound (branch and bound).
 */
export function cheapestChain(
  { rows, costs }: ChainCosts,
  first: number,
  last: number,
  bound?: ChainBound,
): Chain | null {
  const best = new Float64Array(last + 1).fill(Infinity);
  const before = new Int32Array(last + 1);
  /** Places from which chains are followed, rising. */
  const followed = new Int32Array(last + 1);
  let count = 1;
  followed[0] = first;
  best[first] = 0;
  for (let to = first + 1; to <= last; to++) {
    const row = rows[to] + to - 1;
    const furthest = to - (rows[to + 1] - rows[to]);
    let least = Infinity;
    for (let k = count - 1; k >= 0 && followed[k] >= furthest; k--) {
      const from = followed[k];
      const total = best[from] + costs[row - from];
      if (total < least) {
        least = total;
        before[to] = from;
      }
    }
    best[to] = least;
    if (least < Infinity && !(bound && least + bound.rest[to] > bound.enough)) followed[count++] = to;
  }
  if (best[last] === Infinity) return null;
  const between: number[] = [];
  for (let place = before[last]; place > first; place = before[place]) between.push(place);
  return { between: between.reverse(), cost: best[last] };
}

/** The least that a chain costs from each place on to any of the places from…to. */
export function leastRest({ rows, costs }: ChainCosts, from: number, to: number): Float64Array {
  const rest = new Float64Array(rows.length - 1).fill(Infinity);
  rest.fill(0, from, to + 1);
  for (let end = to; end > 0; end--) {
    if (rest[end] === Infinity) continue;
    for (let at = rows[end], begin = end - 1; at < rows[end + 1]; at++, begin--)
      rest[begin] = Math.min(rest[begin], rest[end] + costs[at]);
  }
  return rest;
}
