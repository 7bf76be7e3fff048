import { setsBehind } from "./behind.ts";
import { type Cost, compareCosts, costOf } from "./cost.ts";
import type { GridOrder } from "./demand.ts";
import { GRID } from "./grid.ts";
import type { MarkerPlan, Stock } from "./order.ts";
import { type Lying, markerOf, planOf } from "./plan.ts";
import { pick, randomFrom } from "./random.ts";
import { binsOf, type Kind, kindsOf, roomOn, wantedOf } from "./rectangles.ts";
import { planSets } from "./sets.ts";
import { fillSkyline, type Laid } from "./skyline.ts";

/** A worse order of pieces is taken up when it is no worse than the one so many tries ago. */
const MEMORY = 100;
/** Work of one step: fillings times pieces. */
const WORK = 4000;

interface RectangleLoad {
  readonly stock: Pick<Stock, "lengthMm" | "widthMm">;
  readonly end: number;
}

/** How much of the stock is used, and the area of what finds no room. */
interface Layout<Load = RectangleLoad> {
  readonly loads: readonly Load[];
  readonly missing: number;
}

type Filled = Layout<RectangleLoad & { readonly stock: Stock; readonly laid: readonly Laid[] }>;

/**
 * Lays the pieces of an order, rectangles all, anywhere on their stock. The stock is filled along its skyline from a list of the
 * pieces, and the list is changed, two pieces at a time, until it fills it better: as soon as all pieces lie, the last of
 * the stock is made a little shorter, and the area of those that then find no room is what is to become less (late
 * acceptance: Burke and Bykov, EJOR 258 (2017)). Each `next` is a bounded piece of work and gives a plan when it has a
 * better one, the first at once; it goes on for ever.
 */
export function* rectangleCut(order: GridOrder): Generator<MarkerPlan | null, never> {
  const random = randomFrom(order.seed);
  const kinds = kindsOf(order);
  const wanted = [...wantedOf(order)].flatMap((count, demand) => new Array<number>(count).fill(demand));
  const bins = binsOf(order, wanted.length);
  const first = firstLayout(order, kinds, wanted, bins);
  let { list } = first;
  yield planOfLayout(order, first.layout);
  let best = costOfLayout(first.layout);
  let goal = goalBelow(first.layout);
  let missing = 0;
  let past: number[] = [];
  const fillTo = (pieces: readonly number[]) => fill(order, kinds, pieces, bins, goal);
  /** From here on the list is to fill less than this layout uses. */
  const goBelow = (layout: Layout) => {
    best = costOfLayout(layout);
    goal = goalBelow(layout);
    missing = fillTo(list).missing;
    past = new Array<number>(MEMORY).fill(missing);
  };
  goBelow(first.layout);
  let apart: ReturnType<typeof planSets<MarkerPlan>> | null = planSets(order, rectangleCut);
  for (let count = 0; ; ) {
    let better: MarkerPlan | null = null;
    const sets = apart?.next();
    if (sets?.done) {
      apart = null;
      const together = setsBehind(order, sets.value);
      const layout = layoutOf(order, together);
      if (compareCosts(costOfLayout(layout), best) < 0) {
        better = together;
        goBelow(layout);
      }
    }
    for (let work = 0; work < WORK; work += list.length + 1) {
      const next = swapped(list, pick(random, list.length), pick(random, list.length));
      const found = fillTo(next);
      const cost = costOfLayout(found);
      if (compareCosts(cost, best) < 0) {
        better = planOfLayout(order, found);
        list = next;
        goBelow(found);
        continue;
      }
      if (found.missing <= Math.max(missing, past[count % MEMORY])) {
        list = next;
        missing = found.missing;
      }
      past[count++ % MEMORY] = missing;
    }
    yield better;
  }
}

/** How much of the stock may be used: so many of it, and so much of the last. */
interface Goal {
  readonly count: number;
  readonly lastEnd: number;
}

/** A little less than a layout uses; all there is while pieces are missing. */
function goalBelow({ loads, missing }: Layout): Goal {
  if (missing > 0 || loads.length === 0) return { count: Infinity, lastEnd: Infinity };
  return { count: loads.length, lastEnd: loads[loads.length - 1].end - GRID };
}

/** The best of the lists that begin with what is large in one sense or other. */
function firstLayout(
  order: GridOrder,
  kinds: readonly (readonly Kind[])[],
  wanted: readonly number[],
  bins: readonly Stock[],
): { readonly list: readonly number[]; readonly layout: Filled } {
  const sizes: ((kind: Kind) => number)[] = [
    ({ length, width }) => length * width,
    ({ length, width }) => length + width,
    ({ length, width }) => Math.max(length, width),
    ({ width }) => width,
  ];
  const tries = sizes.map((size) => {
    const list = wanted.toSorted((a, b) => size(kinds[b][0]) - size(kinds[a][0]) || a - b);
    return { list, layout: fill(order, kinds, list, bins, { count: Infinity, lastEnd: Infinity }) };
  });
  return tries.reduce((best, each) =>
    compareCosts(costOfLayout(each.layout), costOfLayout(best.layout)) < 0 ? each : best,
  );
}

function fill(
  order: GridOrder,
  kinds: readonly (readonly Kind[])[],
  list: readonly number[],
  bins: readonly Stock[],
  { count, lastEnd }: Goal,
): Filled {
  const loads: Filled["loads"][number][] = [];
  let left = list;
  for (let i = 0; i < bins.length && loads.length < count && left.length > 0; i++) {
    const { length, width } = roomOn(order, bins[i]);
    const most = loads.length + 1 === count ? Math.min(length, lastEnd) : length;
    const filled = fillSkyline(left, kinds, most, width);
    left = filled.left;
    if (filled.laid.length === 0) continue;
    const end = filled.laid.reduce((far, { x, kind }) => Math.max(far, x + kind.length), 0);
    loads.push({ stock: bins[i], laid: filled.laid, end });
  }
  return { loads, missing: left.reduce((sum, demand) => sum + order.demands[demand].areaMm2, 0) };
}

function costOfLayout({ loads, missing }: Layout): Cost {
  return costOf(
    missing,
    loads.map(({ stock, end }) => ({ stock, usedMm: end })),
  );
}

/** What a plan uses of the stock, counted as for a list. */
function layoutOf(order: GridOrder, { markers, missing }: MarkerPlan): Layout {
  const areas = new Map(order.demands.map(({ piece, areaMm2 }) => [piece.id, areaMm2]));
  return {
    loads: markers.map((stock) => ({ stock, end: stock.usedMm - roomOn(order, stock).start })),
    missing: missing.reduce((sum, { piece, quantity, reason }) => {
      return reason === "too big" ? sum : sum + quantity * (areas.get(piece) ?? 0);
    }, 0),
  };
}

function planOfLayout(order: GridOrder, { loads }: Filled): MarkerPlan {
  const { demands, gapMm } = order;
  const markers = loads.map(({ stock, laid, end }) => {
    const { start } = roomOn(order, stock);
    const lying = laid.map(({ kind, x, y }): Lying => {
      const { left, low } = demands[kind.demand].boxes[kind.turn];
      return { ...kind, xMm: start + x + gapMm / 2 - left, yMm: start + y + gapMm / 2 - low };
    });
    return markerOf(demands, stock, Math.min(start + end, stock.lengthMm), lying);
  });
  return planOf(order, markers);
}

function swapped(list: readonly number[], a: number, b: number): number[] {
  if (list.length < 2) return [...list];
  const other = [...list];
  [other[a], other[b]] = [other[b], other[a]];
  return other;
}
