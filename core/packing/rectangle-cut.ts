import { type Cost, compareCosts, costOf } from "./cost.ts";
import type { GridOrder } from "./demand.ts";
import { GRID } from "./grid.ts";
import type { MarkerPlan, Stock } from "./order.ts";
import { type Lying, markerOf, planOf } from "./plan.ts";
import { pick, randomFrom } from "./random.ts";
import { binsOf, type Kind, kindsOf, roomOn, wantedOf } from "./rectangles.ts";
import { fillSkyline, type Laid } from "./skyline.ts";

/** A worse order of pieces is taken up when it is no worse than the one so many tries ago. */
const MEMORY = 100;
/** Work of one step: fillings times pieces. */
const WORK = 4000;

interface RectangleLoad {
  readonly stock: Stock;
  readonly laid: readonly Laid[];
  readonly end: number;
}

interface Layout {
  readonly loads: readonly RectangleLoad[];
  readonly missing: number;
}

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
  let { list, layout } = first;
  yield planOfLayout(order, layout);
  let best = costOfLayout(layout);
  let goal = goalBelow(layout);
  const fillTo = (pieces: readonly number[]) => fill(order, kinds, pieces, bins, goal);
  let missing = fillTo(list).missing;
  let past = new Array<number>(MEMORY).fill(missing);
  for (let count = 0; ; ) {
    let better = false;
    for (let work = 0; work < WORK; work += list.length + 1) {
      const next = swapped(list, pick(random, list.length), pick(random, list.length));
      const found = fillTo(next);
      const cost = costOfLayout(found);
      if (compareCosts(cost, best) < 0) {
        better = true;
        layout = found;
        best = cost;
        list = next;
        goal = goalBelow(layout);
        missing = fillTo(list).missing;
        past = new Array<number>(MEMORY).fill(missing);
        continue;
      }
      if (found.missing <= Math.max(missing, past[count % MEMORY])) {
        list = next;
        missing = found.missing;
      }
      past[count++ % MEMORY] = missing;
    }
    yield better ? planOfLayout(order, layout) : null;
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
): { readonly list: readonly number[]; readonly layout: Layout } {
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
): Layout {
  const loads: RectangleLoad[] = [];
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

function planOfLayout(order: GridOrder, { loads }: Layout): MarkerPlan {
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
