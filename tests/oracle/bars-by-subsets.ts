import type { BarDemand, BarOptions, BarStock } from "../../core/cutting/bars/bar-plan.ts";

/**
 * The best way to cut bars, slow and obvious: every set of pieces may go onto every bar that holds it. For at most a
 * dozen pieces, each of which fits some bar. Gives the fewest missing bars, then the least cost (mm of new bars, or
 * their price); remnants without a price cost nothing.
 */
export function barsBySubsets(
  demands: readonly BarDemand[],
  stock: readonly BarStock[],
  options: BarOptions,
) {
  const { kerfMm, endTrimMm } = options;
  const pieces = demands.flatMap(({ lengthMm, quantity }) => new Array<number>(quantity).fill(lengthMm));
  const all = 2 ** pieces.length - 1;
  const taken = Array.from({ length: all + 1 }, (_, set) => {
    const own = pieces.filter((_, k) => (set >> k) & 1);
    return own.reduce((sum, length) => sum + length, 0) + kerfMm * Math.max(0, own.length - 1);
  });
  const priced = stock.some(({ price }) => price !== undefined);
  const costOf = ({ lengthMm, price, remnant }: BarStock) => (priced ? (price ?? 0) : remnant ? 0 : lengthMm);
  const known = new Map<string, { missing: number; cost: number } | undefined>();

  function best(set: number, used: readonly number[]): { missing: number; cost: number } | undefined {
    if (set === 0) return { missing: 0, cost: 0 };
    const key = `${set} ${used}`;
    if (known.has(key)) return known.get(key);
    let found: { missing: number; cost: number } | undefined;
    const first = set & -set;
    const others = set ^ first;
    for (let more = others; ; more = (more - 1) & others) {
      stock.forEach((bar, k) => {
        const room = bar.lengthMm - (bar.remnant ? 0 : 2 * endTrimMm);
        if (taken[more | first] > room + 1e-9) return;
        const lacking = used[k] >= (bar.quantity ?? Infinity);
        if (lacking && bar.remnant) return;
        const rest = best(set ^ (more | first), used.with(k, Math.min(used[k] + 1, bar.quantity ?? 0)));
        if (!rest) return;
        const missing = rest.missing + (lacking ? 1 : 0);
        const cost = rest.cost + costOf(bar);
        if (!found || missing < found.missing || (missing === found.missing && cost < found.cost - 1e-9)) {
          found = { missing, cost };
        }
      });
      if (more === 0) break;
    }
    known.set(key, found);
    return found;
  }
  return best(
    all,
    stock.map(() => 0),
  );
}
