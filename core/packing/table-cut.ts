import { claimOf } from "./claim.ts";
import { type Cost, compareCosts, costOf } from "./cost.ts";
import { fitsAlone, type GridOrder } from "./demand.ts";
import { largestFirst, layFirst } from "./first-places.ts";
import { GRID, onGrid } from "./grid.ts";
import { handCut } from "./hand-cut.ts";
import { type Layout, makeLayout, placesOf, putAll, type Shapes, shapesOf } from "./layout.ts";
import type { Marker, MarkerPlan, Stock } from "./order.ts";
import { type Lying, markerOf, planOf } from "./plan.ts";
import { type Random, randomFrom } from "./random.ts";
import { type Loads, squeeze } from "./squeeze.ts";
import { type Load, without } from "./table-load.ts";
import { tighten, usedLength } from "./tighten.ts";
import { type Variant, variantsOf } from "./variant.ts";

/**
 * Claims are kept this far apart, mm: more than two pieces come nearer when their places, and their outlines before, are
 * rounded by up to half a grid in x and y.
 */
const CLEARANCE = 3 * GRID;
/** Rounds of tightening the last marker between two tries to bring one of its pieces into another. */
const ROUNDS = 40;
/** Steps of the search for straight cuts before free places are tried. */
const BY_HAND = 10;
/** Of each two pieces account is kept: with more than this, gigabytes of it, straight cuts are all that is searched for. */
const MOST_PIECES = 4000;

/** The pieces of an order one by one, and the ways in which each may lie. */
interface Table {
  readonly order: GridOrder;
  readonly shapes: Shapes;
  /** For each variant the number of its turn in its demand. */
  readonly turnOf: readonly number[];
  /** For each piece its demand. */
  readonly demandOf: readonly number[];
  /** For each demand its variants. */
  readonly allowed: readonly (readonly number[])[];
}

/**
 * Lays the pieces of an order anywhere, by their true outlines. Each `next` is a bounded piece of work; it gives a plan when
 * it has a better one, the first as soon as every piece has had its turn, and goes on for ever.
 *
 * First come a few plans for straight cuts, then the stock is filled in its order, large pieces first. Then pieces that found no room, or those of the last marker,
 * are squeezed into the others, and the last is made shorter.
 */
export function* tableCut(order: GridOrder): Generator<MarkerPlan | null, never> {
  const random = randomFrom(order.seed);
  const table = tableOf(order);
  // A marker for straight cuts is one for the table too, there soonest, and hard to beat where pieces are nearly rectangles.
  const byHand = yield* firstPlans(handCut(order), table.demandOf.length > MOST_PIECES ? Infinity : BY_HAND);
  const byHandLoads = loadsOf(table, byHand.markers);
  let { loads, left }: Loads = { loads: byHandLoads, left: leftOf(table, byHandLoads) };
  const plan = () => {
    const markers = loads.map((load) => tableMarker(table, load));
    return planOf(order, markers);
  };
  const filled = yield* fill(table, random);
  if (compareCosts(tableCost(table, filled), tableCost(table, { loads, left })) < 0) {
    ({ loads, left } = filled);
    yield plan();
  }
  let last: ReturnType<typeof tighten> | null = null;
  for (;;) {
    const moved = yield* squeeze(loads, left, (stock, pieces) => emptyLayout(table, stock, pieces), random);
    if (moved) {
      ({ loads, left } = moved);
      last = null;
      yield plan();
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
      yield places ? plan() : null;
    }
  }
}

function* firstPlans(
  plans: Generator<MarkerPlan | null, never>,
  steps: number,
): Generator<MarkerPlan | null, MarkerPlan> {
  let best: MarkerPlan | null = null;
  for (let i = 0; i < steps || best === null; i++) {
    const plan: MarkerPlan | null = plans.next().value;
    best = plan ?? best;
    yield plan;
  }
  return best;
}

function tableOf(order: GridOrder): Table {
  const variants: Variant[] = [];
  const turnOf: number[] = [];
  const demandOf: number[] = [];
  const allowed = order.demands.map((demand, number) => {
    const { outline, turns, piece } = demand;
    if (!fitsAlone(demand, order)) return [];
    const own = variantsOf(outline, claimOf(outline, order.gapMm), turns);
    const from = variants.length;
    variants.push(...own);
    turnOf.push(...own.map(({ turn }) => turns.indexOf(turn)));
    for (let i = 0; i < piece.quantity; i++) demandOf.push(number);
    return own.map((_, i) => from + i);
  });
  return { order, shapes: shapesOf(variants, CLEARANCE), turnOf, demandOf, allowed };
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

function* fill(table: Table, random: Random): Generator<null, Loads> {
  const loads: Load[] = [];
  let left: readonly number[] = table.demandOf.map((_, p) => p);
  for (const stock of table.order.stock) {
    for (let i = 0; i < stock.count && left.length > 0; i++) {
      const layout = emptyLayout(table, stock, left);
      const lying: number[] = [];
      // When one of a demand has found no room, the next will not either.
      const full = new Set<number>();
      for (const p of largestFirst(layout)) {
        const demand = table.demandOf[left[p]];
        if (full.has(demand)) continue;
        if (layFirst(layout, p, lying, random)) lying.push(p);
        else full.add(demand);
        yield null;
      }
      if (lying.length === 0) break;
      const all: Load = { stock, pieces: left, places: placesOf(layout) };
      const laid = new Set(lying);
      loads.push(without(all, (place) => !laid.has(place)));
      left = left.filter((_, p) => !laid.has(p));
    }
  }
  return { loads, left };
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
