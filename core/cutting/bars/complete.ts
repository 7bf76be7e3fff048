import type { BarProblem, Pattern, PatternUse } from "./bar-problem.ts";
import type { Prices } from "./prove.ts";

export interface Completion {
  /** The bars of a solution that is cheap enough; undefined where none was found. */
  readonly uses: readonly PatternUse[] | undefined;
  /** Whether the search came to its end: then, with nothing found, there is no such solution. */
  readonly ended: boolean;
  readonly steps: number;
}

/** More pieces are not searched through, and would not fit the stack. */
const MOST_PIECES = 5000;
/** Steps between two questions whether to stop. */
const ASK_EVERY = 1024;

/**
 * Searches all ways to cut what is left for at most `cost`: the longest piece goes into a bar, with every filling
 * that leaves no room for a further piece, and so on [bin completion: S. Martello, P. Toth, Knapsack Problems (Wiley
 * 1990) ch. 8; R. E. Korf, "An improved algorithm for optimal bin packing", IJCAI 2003, 1252-1258]. By the prices
 * each bar loses what its filling is worth less than it costs; the sum of all losses is bounded, so that few fillings
 * come into question. Residues that failed once are remembered. Gives up after so many steps, or when told to stop.
 */
export function complete(
  problem: BarProblem,
  left: Int32Array,
  stock: readonly number[],
  prices: Prices,
  cost: number,
  { steps, stop }: { readonly steps: number; readonly stop: () => boolean },
): Completion {
  const { sizes, kinds } = problem;
  const { scale, values, rents } = prices;
  if (left.reduce((sum, each) => sum + each, 0) > MOST_PIECES)
    return { uses: undefined, ended: false, steps: 0 };
  const pieces = left.slice();
  const bars = [...stock];
  const m = sizes.length;
  const uses: PatternUse[] = [];
  /** The most loss with which a residue has failed. */
  const failed = new Map<string, number>();
  // The densest worth among a size and all that are shorter.
  const density = new Float64Array(m + 1);
  for (let i = m - 1; i >= 0; i--) density[i] = Math.max(density[i + 1], values[i] / sizes[i]);
  let spent = 0;
  let over = false;
  /** Counts a step; true once there are no more. */
  const tick = (): boolean => {
    if (++spent >= steps || (spent % ASK_EVERY === 0 && stop())) over = true;
    return over;
  };
  const same = (a: { capacity: number; cost: number }, b: { capacity: number; cost: number }) =>
    a.capacity === b.capacity && a.cost === b.cost;

  /** All fillings of a kind that hold size `first` and lose at most `loss`. */
  function fillings(kind: number, first: number, loss: number): { pattern: Pattern; loss: number }[] {
    const found: { pattern: Pattern; loss: number }[] = [];
    const items: number[] = [first];
    const start = kinds[kind].cost * scale + rents[kind] - values[first];
    let shortest = m - 1;
    pieces[first]--;
    while (shortest >= 0 && pieces[shortest] === 0) shortest--;
    const extend = (from: number, room: number, lost: number) => {
      if (tick()) return;
      // What is still to come cannot bring in more than the densest worth over all the room.
      if (lost - room * density[from] > loss + 0.5) return;
      let k = shortest;
      while (k >= 0 && pieces[k] === 0) k--;
      if (k < 0 || sizes[k] > room) {
        if (lost <= loss) found.push({ pattern: { kind, items: [...items] }, loss: lost });
        return;
      }
      for (let i = from; i <= k; i++) {
        if (pieces[i] === 0 || sizes[i] > room) continue;
        if (lost - room * density[i] > loss + 0.5) return;
        pieces[i]--;
        items.push(i);
        extend(i, room - sizes[i], lost - values[i]);
        items.pop();
        pieces[i]++;
        if (over) return;
      }
    };
    extend(first, kinds[kind].capacity - sizes[first], start);
    pieces[first]++;
    return found;
  }

  /** Rent was taken off for all bars of limited kinds: those that stay behind do not earn it. */
  function unusedRent(): number {
    return rents.reduce((sum, rent, t) => sum + (rent > 0 ? rent * bars[t] : 0), 0);
  }

  function search(first: number, loss: number): boolean {
    while (first < m && pieces[first] === 0) first++;
    if (first === m) return unusedRent() <= loss + 0.5;
    if (tick()) return false;
    const key = String.fromCharCode(...pieces.subarray(first), ...bars.filter(Number.isFinite));
    if ((failed.get(key) ?? -1) >= loss) return false;
    const choices: { pattern: Pattern; loss: number }[] = [];
    kinds.forEach(({ capacity }, kind) => {
      if (bars[kind] <= 0 || sizes[first] > capacity) return;
      // Kinds that are alike in all but their name are taken in their order.
      if (kinds.some((other, t) => t < kind && bars[t] > 0 && same(other, kinds[kind]))) return;
      choices.push(...fillings(kind, first, loss));
    });
    if (over) return false;
    choices.sort((a, b) => a.loss - b.loss);
    for (const { pattern, loss: own } of choices) {
      for (const i of pattern.items) pieces[i]--;
      bars[pattern.kind]--;
      uses.push({ pattern, times: 1 });
      if (search(first, loss - own)) return true;
      uses.pop();
      bars[pattern.kind]++;
      for (const i of pattern.items) pieces[i]++;
      if (over) return false;
    }
    failed.set(key, loss);
    return false;
  }

  let worth = 0;
  for (let i = 0; i < m; i++) worth += values[i] * left[i];
  kinds.forEach((_, t) => {
    if (Number.isFinite(stock[t]) && rents[t] > 0) worth -= rents[t] * stock[t];
  });
  const budget = cost * scale - worth;
  const found = budget >= 0 && search(0, budget);
  return { uses: found ? uses : undefined, ended: found || !over, steps: spent };
}
