import { fc, test } from "@fast-check/vitest";
import { describe, expect } from "vitest";
import { type ChainCosts, cheapestChain, leastRest } from "../../core/cutting/chains.ts";

/** Links of up to so many places each, with costs in whole numbers, so that many chains cost the same. */
const links = fc
  .array(fc.array(fc.oneof(fc.integer({ min: 0, max: 6 }), fc.constant(Infinity)), { maxLength: 5 }), {
    minLength: 2,
    maxLength: 12,
  })
  .map((rows): ChainCosts => {
    const kept = rows.map((row, to) => row.slice(0, to));
    const starts = new Int32Array(kept.length + 1);
    for (const [to, row] of kept.entries()) starts[to + 1] = starts[to] + row.length;
    return { rows: starts, costs: Float64Array.from(kept.flat()) };
  });

const linkCost = ({ rows, costs }: ChainCosts, from: number, to: number): number =>
  to - from <= rows[to + 1] - rows[to] ? costs[rows[to] + to - 1 - from] : Infinity;

/** Every chain from one place to another, by trying all. */
function* chainsFrom(
  costs: ChainCosts,
  from: number,
  to: number,
): Generator<{ places: number[]; cost: number }> {
  if (from === to) yield { places: [], cost: 0 };
  for (let next = from + 1; next <= to; next++) {
    const cost = linkCost(costs, from, next);
    if (cost === Infinity) continue;
    for (const rest of chainsFrom(costs, next, to))
      yield { places: [next, ...rest.places], cost: cost + rest.cost };
  }
}

const leastOf = (costs: ChainCosts, from: number, to: number): number =>
  Math.min(Infinity, ...[...chainsFrom(costs, from, to)].map(({ cost }) => cost));

describe("the cheapest chain", () => {
  test.prop([links])("costs as little as any of all chains, and is one of them", (costs) => {
    const last = costs.rows.length - 2;
    const chain = cheapestChain(costs, 0, last);
    const least = leastOf(costs, 0, last);
    expect(chain?.cost ?? Infinity).toBe(least);
    if (!chain) return;
    const stops = [0, ...chain.between, last];
    const sum = stops.slice(1).reduce((total, to, i) => total + linkCost(costs, stops[i], to), 0);
    expect(sum).toBe(chain.cost);
  });

  test.prop([links, fc.nat(11)])("what is left costs as little as the cheapest way on", (costs, at) => {
    const last = costs.rows.length - 2;
    const from = Math.min(at, last);
    const rest = leastRest(costs, from, last);
    for (let place = 0; place <= last; place++) {
      const ways = Array.from({ length: last - from + 1 }, (_, i) => from + i)
        .filter((target) => target >= place)
        .map((target) => leastOf(costs, place, target));
      expect(rest[place]).toBe(Math.min(...ways));
    }
  });

  test.prop([links, fc.integer({ min: 0, max: 20 })])(
    "a bound leaves the chain as it is, or there is none within it",
    (costs, enough) => {
      const last = costs.rows.length - 2;
      const free = cheapestChain(costs, 0, last);
      const bound = { enough, rest: leastRest(costs, last, last) };
      const within = cheapestChain(costs, 0, last, bound);
      if (free && free.cost <= enough) expect(within).toEqual(free);
      else if (within) expect(within.cost).toBeGreaterThan(enough);
    },
  );
});
