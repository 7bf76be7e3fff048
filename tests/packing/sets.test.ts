import { expect, test, vi } from "vitest";
import type { MarkerOrder, MarkerPlan, PieceSet } from "../../core/packing/order.ts";
import { packMarker } from "../../core/packing/pack-marker.ts";
import { pick, randomFrom } from "../../core/packing/random.ts";
import { groupsOf, innermostSets } from "../../core/packing/sets.ts";
import { seedCount } from "../house/seeds.ts";
import { randomOrder } from "./random-orders.ts";
import { shopOrder } from "./shop-order.ts";
import { validate } from "./validate.ts";

// Many plans each: more than a machine at work does within the usual time.
vi.setConfig({ testTimeout: 120_000 });

const STEPS = 200;

function plan(order: MarkerOrder, steps = STEPS): MarkerPlan {
  const packed = packMarker(order, { until: (count) => count >= steps });
  if (!packed.ok) throw new Error(packed.why);
  return packed.plan;
}

const used = ({ markers }: MarkerPlan) => markers.reduce((sum, { usedMm }) => sum + usedMm, 0);
const endless = [{ id: "roll", widthMm: 1650, lengthMm: Number.POSITIVE_INFINITY, count: 1 }];

/** Two projects, each of some shells, of the pieces of an order. */
function inProjects({ pieces }: MarkerOrder, seed: number): readonly PieceSet[] {
  const random = randomFrom(seed);
  return [0, 1].map((project) => {
    const shell = pieces.map((_, i) => (i % 2 === project ? 1 + pick(random, 2) : 0));
    const times = 1 + pick(random, 4);
    return {
      times: 1,
      quantities: shell.map((quantity) => times * quantity),
      sets: [{ times, quantities: shell }],
    };
  });
}

/** An order of sets, and what each set takes by itself. */
function ofSets(order: MarkerOrder, sets: readonly PieceSet[]): MarkerOrder {
  const pieces = order.pieces.map((piece, i) => ({
    ...piece,
    quantity: sets.reduce((sum, { times, quantities }) => sum + times * quantities[i], 0),
  }));
  return { ...order, pieces, sets };
}

const byItself = (order: MarkerOrder, { quantities, sets }: PieceSet): MarkerOrder => ({
  ...order,
  pieces: order.pieces
    .map((piece, i) => ({ ...piece, quantity: quantities[i] }))
    .filter(({ quantity }) => quantity > 0),
  sets: sets?.map((set) => ({ ...set, quantities: set.quantities.filter((_, i) => quantities[i] > 0) })),
});

const sum = (sets: readonly PieceSet[], figure: (set: PieceSet) => number) =>
  sets.reduce((all, set) => all + set.times * figure(set), 0);

test.each(["hand", "table"] as const)(
  "%s cut: all together take no more of a roll than project by project, nor those than shell by shell",
  (way) => {
    for (let seed = 1; seed <= (way === "hand" ? seedCount(2) : seedCount(1)); seed++) {
      const some = { ...randomOrder(seed, way), stock: endless };
      const sets = inProjects(some, seed);
      const order = ofSets(some, sets);
      const made = plan(order);
      validate(order, made);
      expect(made.missing).toEqual([]);
      const takes = (set: PieceSet) => used(plan(byItself(order, set)));
      const apart = sum(sets, takes);
      const dust = 1e-6;
      expect(used(made), `seed ${seed}`).toBeLessThanOrEqual(apart + dust);
      const shells = sum(sets, (set) => sum(set.sets ?? [], takes));
      expect(apart, `seed ${seed}`).toBeLessThanOrEqual(shells + dust);
    }
  },
);

test.each(["hand", "table"] as const)("%s cut: nor more sheets", (way) => {
  for (let seed = 1; seed <= seedCount(1); seed++) {
    const some = {
      ...randomOrder(seed, way),
      stock: [{ id: "sheet", widthMm: 1650, lengthMm: 1700, count: 500 }],
    };
    const sets = inProjects(some, seed);
    const order = ofSets(some, sets);
    const made = plan(order);
    validate(order, made);
    const sheets = (set: PieceSet) => plan(byItself(order, set)).markers.length;
    expect(made.markers.length, `seed ${seed}`).toBeLessThanOrEqual(sum(sets, sheets));
  }
});

test("without its sets a search for all of an order at once can take more than one set behind the other", () => {
  const shell = shopOrder("table", 1, { stock: [{ ...endless[0], widthMm: 1000 }] });
  const times = 5;
  const order = ofSets(shell, [{ times, quantities: shell.pieces.map(() => 1) }]);
  const apart = times * used(plan(shell));
  expect(used(plan({ ...order, sets: undefined }))).toBeGreaterThan(apart);
  const made = plan(order);
  validate(order, made);
  expect(used(made)).toBeLessThanOrEqual(apart);
});

test("sets are planned beside the whole: there is a plan at the first step, and it gets better only", () => {
  const shell = shopOrder("table", 1);
  const order = ofSets(shell, [{ times: 3, quantities: shell.pieces.map(() => 1) }]);
  expect(plan(order, 1)).toEqual(plan({ ...order, sets: undefined }, 1));
  expect(plan(order, 130)).toEqual(plan(order, 130));
});

test.each([
  [60, 94, 400],
  [170, 25, 400],
  [3, 1000, 7],
  [500, 3, 200],
])("%i lines of %i pieces in groups of %i: all of them, in few that differ", (lines, quantity, most) => {
  const demands = Array.from({ length: lines }, () => ({ piece: { quantity } }));
  const groups = groupsOf(demands, most);
  for (let line = 0; line < lines; line++)
    expect(groups.reduce((all, { times, quantities }) => all + times * quantities[line], 0)).toBe(quantity);
  const sizes = groups.map(({ quantities }) => quantities.reduce((all, count) => all + count, 0));
  expect(Math.max(...sizes)).toBeLessThanOrEqual(most);
  // Of pieces wanted fewer times than there are groups, none are alike.
  const share = quantity * lines > most * quantity ? quantity * lines : 4 * most;
  expect(sizes.reduce((all, size) => all + size, 0)).toBeLessThanOrEqual(share);
});

test("the innermost sets are shells, so often as all their projects want them, and none where they are too many", () => {
  const shell = (times: number, quantities: readonly number[]): PieceSet => ({ times, quantities });
  const sets = [
    { times: 2, quantities: [6, 0], sets: [shell(3, [2, 0])] },
    { times: 1, quantities: [0, 5] },
  ];
  expect(innermostSets({ sets }, 7)).toEqual([shell(6, [2, 0]), shell(1, [0, 5])]);
  expect(innermostSets({ sets }, 6)).toEqual([]);
  expect(innermostSets({}, 6)).toEqual([]);
});

test("more pieces than are laid freely together are laid so in groups", () => {
  const order: MarkerOrder = {
    pieces: [300, 420].map((side) => ({
      id: `gusset ${side}`,
      outline: [0, 0, side, 0, 0, side],
      quantity: 260,
      turns: [0, 180],
      mirror: false,
    })),
    stock: [{ id: "roll", widthMm: 1300, lengthMm: 40_000, count: 99 }],
    gapMm: 0,
    marginMm: 0,
    way: "table",
    seed: 1,
  };
  const few = { ...order, pieces: order.pieces.map((piece) => ({ ...piece, quantity: 250 })) };
  const inGroups = (some: MarkerOrder) => packMarker(some, { until: () => true });
  expect(inGroups(order)).toMatchObject({ inGroups: true });
  expect(inGroups(few)).toMatchObject({ inGroups: false });
  expect(inGroups({ ...order, way: "hand" })).toMatchObject({ inGroups: false });
  const made = plan(order, 104);
  expect(made.missing).toEqual([]);
  const laid = made.markers.flatMap(({ placements }) => placements);
  expect(laid).toHaveLength(520);
  // Two triangles make a square: straight cuts round each alone take twice the cloth.
  const area = 260 * (300 ** 2 / 2 + 420 ** 2 / 2);
  const byHand = used(plan({ ...order, way: "hand" }, 20)) * 1300;
  expect(byHand).toBeGreaterThan(2 * area);
  expect(used(made) * 1300).toBeLessThan(1.4 * area);
  validate(order, { ...made, markers: made.markers.slice(0, 1), missing: rest(order, made) });
});

/** What the first marker of a plan does not hold. */
function rest({ pieces }: MarkerOrder, { markers: [first] }: MarkerPlan): MarkerPlan["missing"] {
  return pieces.map(({ id, quantity }) => ({
    piece: id,
    quantity: quantity - first.placements.filter(({ piece }) => piece === id).length,
    reason: "no stock left",
  }));
}
