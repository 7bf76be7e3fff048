import fc from "fast-check";
import { expect } from "vitest";
import type { BarDemand, BarOptions, BarPlan, BarStock } from "../../core/cutting/bars/bar-plan.ts";
import { cutBars } from "../../core/cutting/bars/cut-bars.ts";
import { barsBySubsets } from "../oracle/bars-by-subsets.ts";
import { checkPlan } from "./check-plan.ts";

/** Up to eight pieces. */
const demands = fc
  .array(
    fc.record({ lengthMm: fc.integer({ min: 40, max: 900 }), quantity: fc.integer({ min: 1, max: 3 }) }),
    {
      minLength: 1,
      maxLength: 6,
    },
  )
  .map((list) => list.map((each, k): BarDemand => ({ id: `p${k}`, ...each })))
  .filter((list) => list.reduce((sum, { quantity }) => sum + quantity, 0) <= 8);

const saw = fc.record({
  kerfMm: fc.constantFrom(0, 1.5, 3.2, 10),
  endTrimMm: fc.constantFrom(0, 5, 12.5),
  keepFromMm: fc.constant(200),
});

const twoLengths = fc
  .record({ short: fc.integer({ min: 930, max: 1200 }), long: fc.integer({ min: 1210, max: 2400 }) })
  .map(({ short, long }): BarStock[] => [
    { id: "short", lengthMm: short },
    { id: "long", lengthMm: long },
  ]);

const number = fc.integer({ min: 0, max: 3 });
const limited = fc
  .record({ short: number, long: number, rest: number, prices: fc.boolean(), open: fc.boolean() })
  .map(({ short, long, rest, prices, open }): BarStock[] => [
    { id: "short", lengthMm: 950, quantity: short, ...(prices && { price: 7.4 }) },
    { id: "long", lengthMm: 1700, ...(!open && { quantity: long }), ...(prices && { price: 12.9 }) },
    { id: "rest", lengthMm: 640, quantity: rest, remnant: true },
  ]);

/** Two lengths of bar with kerf and end trim: the least length of bars, and the plan's bound proves it. */
export function checkTwoLengths(seed: number, numRuns: number): void {
  fc.assert(
    fc.property(demands, saw, twoLengths, (list, options, stock) => {
      const plan = cutBars(list, stock, options);
      const best = checkAgainst(plan, list, stock, options);
      expect(plan.cost).toBeCloseTo(best.cost, 6);
      expect(plan.bound).toBeCloseTo(plan.cost, 6);
    }),
    { seed, numRuns },
  );
}

/** Limited stock, prices and remnants: the fewest missing bars, then the least cost. */
export function checkLimitedStock(seed: number, numRuns: number): void {
  fc.assert(
    fc.property(demands, saw, limited, (list, options, stock) => {
      const plan = cutBars(list, stock, options);
      const best = checkAgainst(plan, list, stock, options);
      const missing = plan.missing.reduce((sum, { bars }) => sum + bars, 0);
      expect(missing).toBe(best.missing);
      expect(plan.cost).toBeCloseTo(best.cost, 6);
      if (missing === 0) expect(plan.bound).toBeCloseTo(plan.cost, 6);
    }),
    { seed, numRuns },
  );
}

/** Stopped at once, a plan is whole all the same, and its bound is one. */
export function checkStopped(seed: number, numRuns: number): void {
  fc.assert(
    fc.property(
      demands,
      saw,
      twoLengths,
      fc.integer({ min: 0, max: 30 }),
      (list, options, stock, questions) => {
        let asked = 0;
        const plan = cutBars(list, stock, { ...options, stop: () => ++asked > questions });
        const best = checkAgainst(plan, list, stock, options);
        expect(plan.cost).toBeGreaterThan(best.cost - 1e-6);
        expect(plan.bound).toBeLessThan(best.cost + 1e-6);
      },
    ),
    { seed, numRuns },
  );
}

function checkAgainst(
  plan: BarPlan,
  list: readonly BarDemand[],
  stock: readonly BarStock[],
  options: BarOptions,
): { missing: number; cost: number } {
  checkPlan(plan, list, stock, options);
  const fitting = list.filter(({ id }) => !plan.tooLong.some((each) => each.id === id));
  const best = barsBySubsets(fitting, stock, options);
  if (!best) throw new Error("No bar holds what the plan says it cuts.");
  return best;
}
