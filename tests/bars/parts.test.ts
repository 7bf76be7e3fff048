import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { BarProblem } from "../../core/cutting/bars/bar-problem.ts";
import { complete } from "../../core/cutting/bars/complete.ts";
import { makeFiller } from "../../core/cutting/bars/fill-bar.ts";
import { possibleCosts } from "../../core/cutting/bars/possible-costs.ts";
import { provenPrices } from "../../core/cutting/bars/prove.ts";
import { solve, startRelaxation } from "../../core/cutting/bars/relax.ts";

const problems = fc
  .record({
    sizes: fc.uniqueArray(fc.integer({ min: 5, max: 60 }), { minLength: 1, maxLength: 6 }),
    demand: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 6, maxLength: 6 }),
    second: fc.integer({ min: 60, max: 90 }),
    supply: fc.integer({ min: 0, max: 2 }),
  })
  .map(({ sizes, demand, second, supply }): BarProblem => {
    const sorted = sizes.sort((a, b) => b - a);
    return {
      sizes: Float64Array.from(sorted),
      demand: Int32Array.from(demand.slice(0, sorted.length)),
      kinds: [
        { capacity: 100, cost: 5, supply: Infinity },
        { capacity: second, cost: 3, supply },
      ],
    };
  });

/** Every multiset of sizes within the demand that fits into a capacity. */
function fillings({ sizes, demand }: BarProblem, capacity: number): number[][] {
  const all: number[][] = [];
  const extend = (from: number, items: number[], room: number) => {
    all.push(items);
    for (let i = from; i < sizes.length; i++) {
      const more = items.filter((item) => item === i).length < demand[i];
      if (more && sizes[i] <= room) extend(i, [...items, i], room - sizes[i]);
    }
  };
  extend(0, [], capacity);
  return all;
}

const worthOf = (values: ArrayLike<number>, items: readonly number[]) =>
  items.reduce((sum, i) => sum + values[i], 0);

describe("filling a bar", () => {
  test("finds what is worth most, for each capacity, in one go", () => {
    const values = fc.array(fc.integer({ min: -3, max: 40 }), { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(problems, values, fc.integer({ min: 0, max: 60 }), (problem, worth, floor) => {
        const capacities = problem.kinds.map(({ capacity }) => capacity);
        const filler = makeFiller(problem.sizes, capacities);
        const found = filler.best(Float64Array.from(worth), problem.demand, [floor, floor], 0.5);
        found.forEach((filling, t) => {
          const best = Math.max(...fillings(problem, capacities[t]).map((items) => worthOf(worth, items)));
          expect(filling?.value).toBe(best > floor ? best : undefined);
          if (!filling) return;
          expect(worthOf(worth, filling.pattern.items)).toBe(best);
          expect(worthOf(problem.sizes, filling.pattern.items)).toBeLessThanOrEqual(capacities[t]);
        });
      }),
      { seed: 1, numRuns: 150 },
    );
  });
});

describe("prices that are proved", () => {
  test("whatever prices they are made of, no filling is worth more than its bar and rent", () => {
    const values = fc.array(fc.double({ min: -1, max: 8, noNaN: true }), { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(problems, values, (problem, worth) => {
        const { demand, kinds, sizes } = problem;
        const supply = kinds.map(({ supply: each }) => each);
        const filler = makeFiller(
          sizes,
          kinds.map(({ capacity }) => capacity),
        );
        const given = Float64Array.from(worth.slice(0, sizes.length));
        const prices = provenPrices(problem, demand, supply, filler, given, 100);
        kinds.forEach(({ capacity, cost }, t) => {
          if (supply[t] === 0) return;
          for (const items of fillings(problem, capacity)) {
            expect(worthOf(prices.values, items)).toBeLessThanOrEqual(cost * prices.scale + prices.rents[t]);
          }
        });
        expect(prices.values.every((value) => Number.isInteger(value) && value >= 0)).toBe(true);
      }),
      { seed: 2, numRuns: 80 },
    );
  });
});

test("the relaxation has one bound, with shortcuts and without, from whatever seed", () => {
  fc.assert(
    fc.property(problems, (problem) => {
      const capacities = problem.kinds.map(({ capacity }) => capacity);
      const filler = makeFiller(problem.sizes, capacities);
      const stop = () => false;
      const plain = solve(startRelaxation(problem, filler, 0), { stop });
      const short = solve(startRelaxation(problem, filler, 3), { stop, shortcuts: true });
      expect(short).toBeCloseTo(plain, 5);
    }),
    { seed: 3, numRuns: 80 },
  );
});

test("a search that ends without a solution has proved that there is none", () => {
  fc.assert(
    fc.property(problems, fc.integer({ min: 0, max: 20 }), (problem, cost) => {
      const { demand, kinds, sizes } = problem;
      const supply = kinds.map(({ supply: each }) => each);
      const filler = makeFiller(
        sizes,
        kinds.map(({ capacity }) => capacity),
      );
      const worth = sizes.map((size) => size / 20);
      const prices = provenPrices(problem, demand, supply, filler, worth, 100);
      const { uses, ended } = complete(problem, demand, supply, prices, cost, {
        steps: 1e6,
        stop: () => false,
      });
      expect(ended).toBe(true);
      const least = leastCost(problem);
      expect(uses !== undefined).toBe(least <= cost);
    }),
    { seed: 4, numRuns: 60 },
  );
});

/** The least cost, by trying every filling for the first piece that is left. */
function leastCost(problem: BarProblem): number {
  const known = new Map<string, number>();
  const best = (left: readonly number[], supply: readonly number[]): number => {
    const first = left.findIndex((number) => number > 0);
    if (first < 0) return 0;
    const key = `${left} ${supply}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let least = Infinity;
    problem.kinds.forEach(({ capacity, cost }, t) => {
      if (supply[t] <= 0) return;
      for (const items of fillings({ ...problem, demand: Int32Array.from(left) }, capacity)) {
        if (items[0] !== first) continue;
        const rest = left.map((number, i) => number - items.filter((item) => item === i).length);
        least = Math.min(least, cost + best(rest, supply.with(t, supply[t] - 1)));
      }
    });
    known.set(key, least);
    return least;
  };
  return best(
    [...problem.demand],
    problem.kinds.map(({ supply }) => supply),
  );
}

test("bars of two costs add up to some sums only", () => {
  const problem = { sizes: Float64Array.of(1), demand: Int32Array.of(1) };
  const kinds = [4, 7].map((cost) => ({ capacity: 1, cost, supply: Infinity }));
  const next = possibleCosts({ ...problem, kinds }, 20);
  expect([0, 1, 5, 9, 10, 13, 17, 18, 25].map(next)).toEqual([0, 4, 7, 11, 11, 14, 18, 18, 20]);
});
