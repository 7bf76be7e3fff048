import { setsBehind } from "./behind.ts";
import { claimOf } from "./claim.ts";
import { type Cost, compareCosts, costOf } from "./cost.ts";
import { fitsAlone, type GridOrder, isRectangle } from "./demand.ts";
import { GRID, onGrid } from "./grid.ts";
import { handCut } from "./hand-cut.ts";
import { type Layout, makeLayout, placesOf, putAll, type Shapes, shapesOf } from "./layout.ts";
import type { Marker, MarkerPlan, Stock } from "./order.ts";
import { type Lying, markerOf, planOf } from "./plan.ts";
import { type Random, randomFrom } from "./random.ts";
import { rectangleCut } from "./rectangle-cut.ts";
import { groupsOf, innermostSets, planSets, USUAL_STEPS } from "./sets.ts";
import { type Loads, squeeze } from "./squeeze.ts";
import { fillStock } from "./table-fill.ts";
import type { Load } from "./table-load.ts";
import { tighten, usedLength } from "./tighten.ts";
import { type Variant, variantsOf } from "./variant.ts";

/**
 * Claims are kept this far apart, mm: more than two pieces come nearer when their places, and their outlines before, are
 * rounded by up to half a grid in x and y.
 */
const CLEARANCE = 3 * GRID;
/** Rounds of tightening the last marker between two tries to bring one of its pieces into another. */
const ROUNDS = 40;
/**
 * With more pieces than this they are laid in groups, the groups one behind the other: a search for all of them has too little time for each within
 * the usual steps, and a step of it takes as long as there are pieces.
 */
const MANY = 500;
/** Pieces of such a group at the most. */
const GROUP = 400;
/** Of each two pieces account is kept: with more than this, gigabytes of it, no time is enough for all of them at once. */
const MOST_PIECES = 4000;

/** The ways in which the pieces of an order may lie; sets of it share them, and what is found out about each two. */
interface Ways {
  readonly shapes: Shapes;
  /** For each variant the number of its turn in its demand. */
  readonly turnOf: readonly number[];
  /** For each demand its variants. */
  readonly allowed: readonly (readonly number[])[];
}

/** The pieces of an order one by one, and the ways in which each may lie. */
interface Table extends Ways {
  readonly order: GridOrder;
  /** For each piece its demand. */
  readonly demandOf: readonly number[];
}

/**
 * Lays the pieces of an order anywhere, better and better; rectangles have a search of their own.
 *
 * @param ways those of a larger order with the same demands
 */
export function freeCut(order: GridOrder, ways?: Ways): Generator<MarkerPlan | null, never> {
  return allRectangles(order) ? rectangleCut(order) : tableCut(order, ways);
}

const allRectangles = ({ demands }: GridOrder) =>
  demands.every((demand) => demand.piece.quantity === 0 || isRectangle(demand));

/** Whether an order has so many pieces that within the usual steps they are laid in groups. */
export function isLaidInGroups(order: GridOrder): boolean {
  const number = order.pieces.reduce((sum, { quantity }) => sum + quantity, 0);
  return order.way === "table" && number > MANY && !allRectangles(order);
}

/**
 * Lays the pieces of an order anywhere, by their true outlines. Each `next` is a bounded piece of work; it gives a plan when
 * it has a better one, the first at once, and goes on for ever. After any number of steps, up to those that a plan usually gets, it is no worse than by
 * straight cuts.
 *
 * The stock is filled in its order, large pieces first. Then pieces that found no room, or those of the last marker,
 * are squeezed into the others, and the last is made shorter. Beside that goes the search for straight cuts: they are there soonest, and
 * hard to beat where pieces are nearly rectangles. The order's sets are planned beside all of it. Very many pieces are filled in and improved in
 * groups; only when the usual steps are done is all of them improved together.
 */
function* tableCut(order: GridOrder, ways?: Ways): Generator<MarkerPlan | null, never> {
  const hand = handCut(order);
  const first = hand.next().value;
  if (first === null) throw new Error("a search for straight cuts begins with a plan");
  yield first;
  const table = tableOf(order, ways ?? waysOf(order));
  let best = byHand(table, first);
  let cost = tableCost(table, best);
  const isBest = (found: Loads): boolean => {
    const foundCost = tableCost(table, found);
    if (compareCosts(foundCost, cost) >= 0) return false;
    best = found;
    cost = foundCost;
    return true;
  };
  const plan = () =>
    planOf(
      order,
      best.loads.map((load) => tableMarker(table, load)),
    );
  const random = randomFrom(order.seed);
  const layoutFor = (stock: Stock, pieces: readonly number[]) => emptyLayout(table, stock, pieces);
  const number = table.demandOf.length;
  const isMany = number > MANY;
  const isTooMany = number > MOST_PIECES;
  let filling = isMany ? null : fillStock(table, layoutFor, first.markers.length, random);
  let improving: ReturnType<typeof improve> | null = null;
  let apart = (
    isMany ? [groupsOf(order.demands, GROUP), innermostSets(order, MANY)] : [order.sets ?? []]
  ).map((sets) => planSets<MarkerPlan>({ ...order, sets }, (set) => freeCut(set, table)));
  for (let step = 2; ; step++) {
    let isBetter = false;
    if (step <= USUAL_STEPS || isTooMany) {
      const straight = hand.next().value;
      isBetter = straight !== null && isBest(byHand(table, straight));
    }
    apart = apart.filter((each) => {
      const { done, value } = each.next();
      if (done) isBetter = isBest(byHand(table, setsBehind(order, value))) || isBetter;
      return !done;
    });
    if (isBetter) improving = null;
    if (filling) {
      const { done, value } = filling.next();
      if (done) {
        isBetter = isBest(value) || isBetter;
        filling = null;
      }
    } else if (!isMany || (step > USUAL_STEPS && !isTooMany)) {
      improving ??= improve(table, best, layoutFor, random);
      const { value } = improving.next();
      isBetter = (value !== null && isBest(value)) || isBetter;
    }
    yield isBetter ? plan() : null;
  }
}

/**
 * Squeezes pieces that are left, or those of the last load, into the others, and shortens the last, in turn and for ever; gives
 * what has changed.
 */
function* improve(
  table: Table,
  start: Loads,
  layoutFor: (stock: Stock, pieces: readonly number[]) => Layout,
  random: Random,
): Generator<Loads | null, never> {
  let { loads, left } = start;
  let last: ReturnType<typeof tighten> | null = null;
  for (;;) {
    const moved = yield* squeeze(loads, left, layoutFor, random);
    if (moved) {
      ({ loads, left } = moved);
      last = null;
      yield moved;
    }
    const load = loads.at(-1);
    if (!load) {
      yield null;
      continue;
    }
    last ??= tightenLoad(table, load, random);
    for (let i = 0; i < ROUNDS; i++) {
      const places = last.next().value;
      if (places) loads = [...loads.slice(0, -1), { ...load, places }];
      yield places ? { loads, left } : null;
    }
  }
}

function tableOf(order: GridOrder, { shapes, turnOf, allowed }: Ways): Table {
  const demandOf = order.demands.flatMap(({ piece }, demand) =>
    new Array<number>(allowed[demand].length > 0 ? piece.quantity : 0).fill(demand),
  );
  return { order, shapes, turnOf, allowed, demandOf };
}

function waysOf(order: GridOrder): Ways {
  const variants: Variant[] = [];
  const turnOf: number[] = [];
  const allowed = order.demands.map((demand) => {
    const { outline, turns } = demand;
    if (!fitsAlone(demand, order)) return [];
    const own = variantsOf(outline, claimOf(outline, order.gapMm), turns);
    const from = variants.length;
    variants.push(...own);
    turnOf.push(...own.map(({ turn }) => turns.indexOf(turn)));
    return own.map((_, i) => from + i);
  });
  return { shapes: shapesOf(variants, CLEARANCE), turnOf, allowed };
}

/** A layout of some pieces on a strip of this stock; places are counted from the corner within the margins. */
function emptyLayout(table: Table, { lengthMm, widthMm }: Stock, pieces: readonly number[]): Layout {
  const { order, shapes, allowed, demandOf } = table;
  const border = 2 * order.marginMm;
  const ways = pieces.map((p) => allowed[demandOf[p]]);
  return makeLayout(shapes, ways, widthMm - border, lengthMm - border);
}

function tightenLoad(
  table: Table,
  { stock, pieces, places }: Load,
  random: Random,
): ReturnType<typeof tighten> {
  const layout = emptyLayout(table, stock, pieces);
  putAll(layout, places);
  layout.length = usedLength(layout);
  return tighten(layout, placesOf(layout), random);
}

/** Markers as loads: the first pieces of a demand first. */
function loadsOf(table: Table, markers: readonly Marker[]): Load[] {
  const { order, demandOf, allowed, turnOf } = table;
  const { demands } = order;
  const next = demands.map((_, demand) => demandOf.indexOf(demand));
  return markers.map(({ stock, placements }) => {
    const lying = placements.map(({ piece, turnDeg, mirrored, xMm, yMm }) => {
      const demand = demands.findIndex((each) => each.piece.id === piece);
      const { turns } = demands[demand];
      const variant = allowed[demand].find((v) => {
        const turn = turns[turnOf[v]];
        return turn.quarters * 90 === turnDeg && turn.mirrored === mirrored;
      });
      if (variant === undefined) throw new Error(`piece ${piece} does not lie at ${turnDeg}°`);
      return { p: next[demand]++, variant, x: xMm - order.marginMm, y: yMm - order.marginMm };
    });
    return {
      stock: order.stock.find(({ id }) => id === stock) as Stock,
      pieces: lying.map(({ p }) => p),
      places: {
        length: 0,
        variant: Int32Array.from(lying, ({ variant }) => variant),
        x: Float64Array.from(lying, ({ x }) => x),
        y: Float64Array.from(lying, ({ y }) => y),
      },
    };
  });
}

function byHand(table: Table, { markers }: MarkerPlan): Loads {
  const loads = loadsOf(table, markers);
  return { loads, left: leftOf(table, loads) };
}

function leftOf({ demandOf }: Table, loads: readonly Load[]): number[] {
  const laid = new Set(loads.flatMap(({ pieces }) => pieces));
  return demandOf.map((_, p) => p).filter((p) => !laid.has(p));
}

function tableCost({ order: { demands }, demandOf, shapes }: Table, { loads, left }: Loads): Cost {
  const missing = left.reduce((sum, p) => sum + demands[demandOf[p]].areaMm2, 0);
  const used = loads.map(({ stock, places: { variant, x } }) => ({
    stock,
    usedMm: x.reduce((most, at, i) => Math.max(most, at + shapes.variants[variant[i]].box.right), 0),
  }));
  return costOf(missing, used);
}

function tableMarker({ order, shapes, turnOf, demandOf }: Table, { stock, pieces, places }: Load): Marker {
  const { demands, gapMm, marginMm } = order;
  let end = 0;
  const lying = pieces.map((p, i): Lying => {
    const { box } = shapes.variants[places.variant[i]];
    const xMm = onGrid(places.x[i]) + marginMm;
    end = Math.max(end, xMm + box.right);
    return { demand: demandOf[p], turn: turnOf[places.variant[i]], xMm, yMm: onGrid(places.y[i]) + marginMm };
  });
  return markerOf(demands, stock, Math.min(stock.lengthMm, end + gapMm / 2), lying);
}
