import { describe, expect, test } from "vitest";
import { compareCosts, costOfPlan } from "../../core/packing/cost.ts";
import { putOnGrid } from "../../core/packing/demand.ts";
import type { MarkerOrder, MarkerPlan } from "../../core/packing/order.ts";
import { markerSteps, packMarker } from "../../core/packing/pack-marker.ts";
import { cutStages } from "./guillotine.ts";
import { shopOrder } from "./shop-order.ts";
import { boxes, validate } from "./validate.ts";

/** The plan after so many steps. */
function plan(order: MarkerOrder, steps: number): MarkerPlan {
  const packed = packMarker(order, { until: (count) => count >= steps });
  if (!packed.ok) throw new Error(packed.why);
  return packed.plan;
}

describe.each(["hand", "table"] as const)("%s cut", (way) => {
  test("every piece once, apart by the gap, within the margins, with the warp held", () => {
    const order = shopOrder(way, 3);
    const made = plan(order, 150);
    validate(order, made);
    expect(made.missing).toEqual([]);
  });

  test("the same seed and the same number of steps give the same plan; better plans only", () => {
    const order = shopOrder(way, 1);
    expect(plan(order, 120)).toEqual(plan(order, 120));
    const ends: number[] = [];
    packMarker(order, {
      until: (count) => count >= 300,
      onBest: ({ markers }) => ends.push(markers.reduce((sum, { usedMm }) => sum + usedMm, 0)),
    });
    expect(ends.length).toBeGreaterThan(1);
    expect(ends[ends.length - 1]).toBeLessThan(ends[0]);
  });

  test("stock runs out: as much as possible is laid, the rest listed with the reason", () => {
    const order = shopOrder(way, 2, {
      stock: [{ id: "rest", widthMm: 1270, lengthMm: 5000, count: 1 }],
    });
    const pieces = [
      ...order.pieces,
      {
        id: "pad",
        outline: [0, 0, 3000, 0, 3000, 1300, 0, 1300],
        quantity: 2,
        turns: [0 as const],
        mirror: false,
      },
    ];
    const made = plan({ ...order, pieces }, 150);
    validate({ ...order, pieces }, made);
    expect(made.markers.length).toBe(1);
    expect(made.missing).toContainEqual({ piece: "pad", quantity: 2, reason: "too big" });
    expect(made.missing.some(({ reason }) => reason === "no stock left")).toBe(true);
  });

  test("no stock, no pieces, and a roll without end", () => {
    const none = plan({ ...shopOrder(way, 1), stock: [] }, 20);
    expect(none.markers).toEqual([]);
    expect(none.missing.length).toBe(12);
    expect(plan({ ...shopOrder(way, 1), pieces: [] }, 20)).toEqual({ markers: [], missing: [] });
    const endless = shopOrder(way, 1, {
      stock: [{ id: "roll", widthMm: 1270, lengthMm: Infinity, count: Infinity }],
    });
    const made = plan(endless, 60);
    validate(endless, made);
    expect(made.markers.length).toBe(1);
  });

  test("sheets: four pads that fill a sheet exactly lie on one sheet", () => {
    const order: MarkerOrder = {
      pieces: [
        {
          id: "pad",
          outline: [0, 0, 1220, 0, 1220, 610, 0, 610],
          quantity: 8,
          turns: [0, 90],
          mirror: false,
        },
      ],
      stock: [{ id: "sheet", widthMm: 1220, lengthMm: 2440, count: 5 }],
      gapMm: 0,
      marginMm: 0,
      way,
      seed: 1,
    };
    const made = plan(order, 40);
    validate(order, made);
    expect(made.markers.map(({ placements }) => placements.length)).toEqual([4, 4]);
  });
});

test("hand cut: straight cuts alone part the rectangles, in four stages at most, by the cuts that are listed", () => {
  const order = shopOrder("hand", 3);
  const made = plan(order, 100);
  for (const marker of made.markers) {
    expect(cutStages(boxes(marker))).toBeLessThanOrEqual(4);
    for (const { fromMm, toMm, stage } of marker.cuts) {
      expect(stage % 2 === 1 ? fromMm[0] === toMm[0] : fromMm[1] === toMm[1]).toBe(true);
      for (const { left, right, low, high } of boxes(marker)) {
        const enters =
          Math.max(left, fromMm[0]) < Math.min(right, toMm[0]) - 1e-6 &&
          fromMm[1] > low + 1e-6 &&
          fromMm[1] < high - 1e-6;
        const crosses =
          Math.max(low, fromMm[1]) < Math.min(high, toMm[1]) - 1e-6 &&
          fromMm[0] > left + 1e-6 &&
          fromMm[0] < right - 1e-6;
        expect(enters || crosses).toBe(false);
      }
    }
  }
});

test("the proof of straight cuts fails where there are none: four rectangles round a fifth", () => {
  const wheel = [
    { left: 0, right: 2, low: 0, high: 1 },
    { left: 2, right: 3, low: 0, high: 2 },
    { left: 1, right: 3, low: 2, high: 3 },
    { left: 0, right: 1, low: 1, high: 3 },
    { left: 1, right: 2, low: 1, high: 2 },
  ];
  expect(cutStages(wheel)).toBe(Infinity);
  expect(cutStages(wheel.slice(0, 1))).toBe(0);
  expect(cutStages([wheel[0], { left: 0, right: 2, low: 1, high: 2 }])).toBe(2);
});

test("what is wrong with an order is said in a sentence that names it", () => {
  const why = (more: Partial<MarkerOrder>) => {
    const packed = packMarker(shopOrder("table", 1, more), { until: () => true });
    return packed.ok ? null : packed.why;
  };
  const piece = shopOrder("table", 1).pieces[0];
  const roll = { id: "roll", widthMm: 1270, lengthMm: 1e4, count: 1 };
  expect(why({})).toBe(null);
  expect(why({ gapMm: -1 })).toBe("The gap is -1 mm: 0 or more is wanted.");
  expect(why({ gapMm: Number.NaN })).toContain("gap");
  expect(why({ marginMm: 700 })).toContain("leaves nothing of stock rest");
  expect(why({ marginMm: -2 })).toContain("margin");
  expect(why({ seed: 0.5 })).toContain("seed");
  expect(why({ stock: [roll, roll] })).toContain("twice");
  expect(why({ stock: [{ ...roll, widthMm: 0 }] })).toContain("roll is 0 mm wide");
  expect(why({ stock: [{ ...roll, lengthMm: Number.NaN }] })).toContain("long");
  expect(why({ stock: [{ ...roll, count: -1 }] })).toContain("counts -1");
  expect(why({ pieces: [piece, piece] })).toContain("twice");
  expect(why({ pieces: [{ ...piece, quantity: 1.5 }] })).toContain("1.5 times");
  expect(why({ pieces: [{ ...piece, turns: [] }] })).toContain("direction");
  expect(why({ pieces: [{ ...piece, outline: [0, 0, 1, 1] }] })).toContain("three corners");
  expect(why({ pieces: [{ ...piece, outline: [0, 0, 1, 0, Number.NaN, 1] }] })).toContain("NaN");
  expect(why({ pieces: [{ ...piece, outline: [0, 0, 9, 9, 9, 0, 0, 5] }] })).toContain(`Piece ${piece.id}`);
  expect(why({ pieces: [{ ...piece, outline: [0, 0, 1, 0, 2, 0] }] })).toContain(`Piece ${piece.id}`);
});

test("many pieces lie freely within the usual steps: no longer than by hand, nor than one set of them after the other", () => {
  const sets = 20;
  const stock = [{ id: "roll", widthMm: 1270, lengthMm: Number.POSITIVE_INFINITY, count: 1 }];
  const used = (made: MarkerPlan) => made.markers.reduce((sum, { usedMm }) => sum + usedMm, 0);
  const order = shopOrder("table", sets, { stock });
  const made = plan(order, 200);
  validate(order, made);
  expect(made.missing).toEqual([]);
  expect(used(made)).toBeLessThanOrEqual(used(plan({ ...order, way: "hand" }, 200)));
  expect(used(made)).toBeLessThanOrEqual(sets * used(plan(shopOrder("table", 1, { stock }), 200)));
});

test.each([2, 20, 60, 150])(
  "after %i steps a table needs no more than straight cuts, and no plan is worse than one before",
  (steps) => {
    const order = shopOrder("table", 8, {
      stock: [{ id: "roll", widthMm: 1270, lengthMm: 30_000, count: 9 }],
    });
    const areas = new Map(putOnGrid(order).demands.map(({ piece, areaMm2 }) => [piece.id, areaMm2]));
    const cost = (made: MarkerPlan) => costOfPlan(made, (piece) => areas.get(piece) ?? 0);
    const told: MarkerPlan[] = [];
    packMarker(order, { until: (count) => count >= steps, onBest: (made) => told.push(made) });
    for (let i = 1; i < told.length; i++)
      expect(compareCosts(cost(told[i]), cost(told[i - 1]))).toBeLessThan(0);
    const byHand = plan({ ...order, way: "hand" }, steps);
    expect(compareCosts(cost(told[told.length - 1]), cost(byHand))).toBeLessThanOrEqual(0);
  },
);

test("a step is short, so that a press of stop is answered", () => {
  // By work, not by the clock: the first plan of 36 pieces is there within some hundred steps.
  let steps = 0;
  for (const found of markerSteps(shopOrder("table", 3))) {
    steps++;
    if (found) break;
  }
  expect(steps).toBeLessThan(100);
});

test("of thousands of pieces on a table there is a plan that holds them all, without gigabytes to find it", () => {
  const order = shopOrder("table", 3);
  const quantity = Math.ceil(4500 / order.pieces.length);
  const many = {
    ...order,
    pieces: order.pieces.map((piece) => ({ ...piece, quantity })),
    stock: [{ ...order.stock[0], count: 9999 }],
  };
  const before = process.memoryUsage().arrayBuffers;
  let most = 0;
  const packed = packMarker(many, {
    until: (steps) => {
      most = Math.max(most, process.memoryUsage().arrayBuffers - before);
      return steps >= 12;
    },
  });
  if (!packed.ok) throw new Error(packed.why);
  const { markers, missing } = packed.plan;
  expect(missing).toEqual([]);
  expect(markers.flatMap(({ placements }) => placements)).toHaveLength(quantity * order.pieces.length);
  expect(most).toBeLessThan(200e6);
});
