import { describe, expect, test } from "vitest";
import type { BarDemand, BarStock } from "../../core/cutting/bars/bar-plan.ts";
import { cutBars } from "../../core/cutting/bars/cut-bars.ts";
import { checkPlan } from "./check-plan.ts";
import { cutting5600 } from "./cutting-5600.ts";
import { checkLimitedStock, checkStopped, checkTwoLengths } from "./small-cases.ts";

const bare = { kerfMm: 0, endTrimMm: 0, keepFromMm: 500 };

describe("the 5600 problem", () => {
  const stock = [{ id: "master", lengthMm: 5600 }];

  test("takes 73 bars, and no plan takes fewer", () => {
    const plan = cutBars(cutting5600, stock, bare);
    checkPlan(plan, cutting5600, stock, bare);
    expect(plan).toMatchObject({ measure: "bars", cost: 73, bound: 73, missing: [], tooLong: [] });
    expect(plan.lengths.piecesMm).toBe(407160);
    expect(1 - 407160 / plan.lengths.barsMm).toBeCloseTo(0.00401, 5);
  });

  test("gives the same plan each time", () => {
    expect(cutBars(cutting5600, stock, bare)).toEqual(cutBars(cutting5600, stock, bare));
  });
});

describe("against an exhaustive search of small cases", () => {
  test("two lengths of bar with kerf and end trim", () => checkTwoLengths(5, 80));
  test("limited stock, prices and remnants", () => checkLimitedStock(6, 80));
  test("stopped before the end", () => checkStopped(7, 60));
});

describe("what a shop asks of it", () => {
  test("the kerf goes between pieces, the trim off both ends", () => {
    const options = { kerfMm: 3, endTrimMm: 10, keepFromMm: 100 };
    const demands = [{ id: "a", lengthMm: 789, quantity: 3 }];
    // 10 + 789 + 3 + 789 + 3 + 789 + 10 = 2393.
    const [bar, ...others] = cutBars(demands, [{ id: "strip", lengthMm: 2393 }], options).bars;
    expect(others).toEqual([]);
    expect(bar.cuts.map(({ fromMm }) => fromMm)).toEqual([10, 802, 1594]);
    expect(bar).toMatchObject({ times: 1, restMm: 0, keep: false });
    expect(cutBars(demands, [{ id: "strip", lengthMm: 2392.9 }], options).cost).toBe(2);
  });

  test("pieces that differ by a rounding error are cut as one length, exact fits fit", () => {
    const thirds = [
      { id: "a", lengthMm: 0.1 + 0.2, quantity: 1 },
      { id: "b", lengthMm: 0.3, quantity: 2 },
    ];
    expect(cutBars(thirds, [{ id: "bar", lengthMm: 0.9 }], bare).cost).toBe(1);
  });

  test("remnants come first, the shortest that will do, and long rests are listed for the next lot", () => {
    const stock: BarStock[] = [
      { id: "strip", lengthMm: 2400 },
      { id: "long rest", lengthMm: 1500, quantity: 1, remnant: true },
      { id: "short rest", lengthMm: 900, quantity: 1, remnant: true },
    ];
    const plan = cutBars([{ id: "a", lengthMm: 800, quantity: 1 }], stock, bare);
    expect(plan.use).toEqual([{ stock: "short rest", lengthMm: 900, bars: 1 }]);
    expect(plan.cost).toBe(0);
    const next = cutBars([{ id: "a", lengthMm: 1600, quantity: 2 }], stock, { ...bare, kerfMm: 5 });
    expect(next.remnants).toEqual([{ lengthMm: 795, quantity: 2 }]);
    // The next lot can cut from them.
    const rests = next.remnants.map(({ lengthMm, quantity }, k) => ({
      id: `rest ${k}`,
      lengthMm,
      quantity,
      remnant: true,
    }));
    expect(cutBars([{ id: "b", lengthMm: 795, quantity: 2 }], rests, bare)).toMatchObject({
      cost: 0,
      missing: [],
    });
  });

  test("a piece longer than any bar is told in a sentence, the others are cut", () => {
    const demands = [
      { id: "ribs/9", lengthMm: 2600, quantity: 2 },
      { id: "ribs/1", lengthMm: 1200, quantity: 2 },
    ];
    const plan = cutBars(demands, [{ id: "strip", lengthMm: 2400 }], { ...bare, endTrimMm: 10 });
    expect(plan.tooLong).toEqual([
      {
        id: "ribs/9",
        lengthMm: 2600,
        quantity: 2,
        says: "Piece ribs/9 is 2600 mm long; the longest bar, strip, gives 2380 mm.",
      },
    ]);
    expect(plan.cost).toBe(2);
    const nothing = cutBars(demands, [], bare);
    expect(nothing.bars).toEqual([]);
    expect(nothing.tooLong[0].says).toBe("Piece ribs/9 is 2600 mm long; no length of bar is given.");
  });

  test("what the stock lacks is named with the pieces that go without", () => {
    const plan = cutBars(
      [
        { id: "ribs/1", lengthMm: 1500, quantity: 3 },
        { id: "ribs/2", lengthMm: 900, quantity: 1 },
      ],
      [{ id: "strip", lengthMm: 2400, quantity: 2 }],
      bare,
    );
    expect(plan.missing).toEqual([
      {
        stock: "strip",
        lengthMm: 2400,
        bars: 1,
        pieces: [{ id: "ribs/1", quantity: 1 }],
        says: "1 bar of strip (2400 mm) is missing, for ribs/1.",
      },
    ]);
    expect(plan.use).toEqual([{ stock: "strip", lengthMm: 2400, bars: 2 }]);
  });

  test.each([1200, 4000])(
    "of %i lengths, all different, a plan is there soon after it is asked for",
    (number) => {
      const many = Array.from({ length: number }, (_, k) => {
        return { id: `rib ${k}`, lengthMm: 300 + ((k * 7919) % (2 * number)) / 2, quantity: 1 + (k % 3) };
      });
      const stock = [{ id: "strip", lengthMm: 2400 + number }];
      const began = process.cpuUsage().user;
      const spentMs = () => (process.cpuUsage().user - began) / 1000;
      const plan = cutBars(many, stock, { ...bare, effort: Infinity, stop: () => spentMs() > 300 });
      // With no heed to `stop` in a greedy pass and between steps of the simplex this took 3.5 s and more than a minute.
      expect(spentMs()).toBeLessThan(2000);
      checkPlan(plan, many, stock, bare);
      expect(plan.cost).toBeLessThan(1.05 * plan.bound);
    },
  );

  test("a figure that is no length, count or price is refused by name", () => {
    const demand = { id: "a", lengthMm: 100, quantity: 1 };
    const bar = { id: "bar", lengthMm: 1000 };
    const refuse =
      (demands: BarDemand[], stock: BarStock[], options = bare) =>
      () =>
        cutBars(demands, stock, options);
    expect(refuse([demand], [bar], { ...bare, kerfMm: -1 })).toThrow(
      "The kerf is -1; a length of 0 mm or more is wanted",
    );
    expect(refuse([demand], [bar], { ...bare, endTrimMm: Number.NaN })).toThrow("The end trim is NaN");
    expect(refuse([{ ...demand, lengthMm: 0 }], [bar])).toThrow("The length of piece a is 0");
    expect(refuse([{ ...demand, quantity: 1.5 }], [bar])).toThrow("The quantity of piece a is 1.5");
    expect(refuse([demand], [{ ...bar, lengthMm: Infinity }])).toThrow("The length of bar bar is Infinity");
    expect(refuse([demand], [{ ...bar, quantity: -2 }])).toThrow("The quantity of bar bar is -2");
    expect(refuse([demand], [bar, bar])).toThrow("Two bars are called bar");
    expect(
      refuse(
        [demand],
        [
          { ...bar, price: 3 },
          { id: "other", lengthMm: 2000 },
        ],
      ),
    ).toThrow("Bar other has no price");
  });
});
