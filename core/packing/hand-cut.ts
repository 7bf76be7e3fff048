import { type Cost, compareCosts, costOf } from "./cost.ts";
import { type Demand, demandsOf, fitsAlone } from "./demand.ts";
import { type Load, markerOf } from "./hand-marker.ts";
import type { MarkerOrder, MarkerPlan, Stock } from "./order.ts";
import { planOf } from "./plan.ts";
import { pick, type Random, randomFrom } from "./random.ts";
import { type Kind, type Section, takeSection } from "./sections.ts";

/** At most this many sections are taken apart at a time. */
const APART = 4;
/** Rounds in one step. */
const ROUNDS = 20;

/** The rectangles still wanted, by demand, and what is on the stock. */
interface State {
  readonly loads: readonly Load[];
  readonly wanted: Int32Array;
}

/**
 * Lays the rectangles round the pieces of an order so that straight cuts part them: across the whole width into sections, along
 * a section into lanes, across a lane into rectangles, and along those that are narrower than their lane. Each `next` is a
 * bounded piece of work and gives a plan when it has a better one, the first at once; it goes on for ever.
 *
 * The stock is filled in its order, section by section; then some sections at a time are taken apart and their pieces laid
 * anew, and the result is kept when it is no worse (large neighbourhood search: Shaw, CP 1998).
 */
export function* handCut(order: MarkerOrder): Generator<MarkerPlan | null, never> {
  const random = randomFrom(order.seed);
  const demands = demandsOf(order);
  const kinds = kindsOf(demands, order);
  const wanted = Int32Array.from(demands, (demand) =>
    fitsAlone(demand, order.stock, order.marginMm) ? demand.piece.quantity : 0,
  );
  const total = wanted.reduce((sum, count) => sum + count, 0);
  // No more of a kind of stock is ever opened than there are pieces.
  const bins = order.stock.flatMap((stock) => new Array<Stock>(Math.min(stock.count, total)).fill(stock));
  let state: State = { loads: bins.map((stock) => ({ stock, sections: [] })), wanted };
  state = refill(order, kinds, state, random);
  let cost = stateCost(demands, state);
  const plan = () => {
    const markers = state.loads.filter(({ sections }) => sections.length > 0);
    return planOf(
      order,
      demands,
      markers.map((load) => markerOf(order, demands, load)),
    );
  };
  yield plan();
  for (;;) {
    let better = false;
    for (let i = 0; i < ROUNDS; i++) {
      const next = refill(order, kinds, takeApart(state, random), random);
      const nextCost = stateCost(demands, next);
      const worse = compareCosts(nextCost, cost);
      if (worse > 0) continue;
      better ||= worse < 0;
      state = next;
      cost = nextCost;
    }
    yield better ? plan() : null;
  }
}

/** The sizes in which a demand may lie; turns that give the same rectangle count once. */
function kindsOf(demands: readonly Demand[], { gapMm }: MarkerOrder): Kind[] {
  return demands.flatMap(({ boxes }, demand) => {
    const kinds: Kind[] = [];
    boxes.forEach(({ left, right, low, high }, turn) => {
      const length = right - left + gapMm;
      const width = high - low + gapMm;
      if (!kinds.some((kind) => kind.length === length && kind.width === width))
        kinds.push({ demand, turn, length, width });
    });
    return kinds;
  });
}

function refill(order: MarkerOrder, kinds: readonly Kind[], { loads, wanted }: State, random: Random): State {
  const left = wanted.slice();
  let most = left.reduce((sum, count) => sum + count, 0);
  const filled = loads.map((load): Load => {
    if (most === 0) return load;
    const border = 2 * order.marginMm - order.gapMm;
    const sections = [...load.sections];
    let room = load.stock.lengthMm - border - sections.reduce((sum, { length }) => sum + length, 0);
    for (;;) {
      const section = takeSection(kinds, left, room + HAIR, load.stock.widthMm - border + HAIR, random);
      if (section === null) break;
      sections.push(section);
      room -= section.length;
    }
    most = left.reduce((sum, count) => sum + count, 0);
    return { stock: load.stock, sections };
  });
  return { loads: filled, wanted: left };
}

/** Sums of lengths are rounded by less than this, mm. */
const HAIR = 1e-7;

/** Takes some sections apart, those that stand last more often than others. */
function takeApart({ loads, wanted }: State, random: Random): State {
  const left = wanted.slice();
  const places = loads.flatMap(({ sections }, load) => sections.map((_, section) => ({ load, section })));
  const gone = new Set<Section>();
  const count = Math.min(1 + pick(random, APART), places.length);
  for (let i = 0; i < count; i++) {
    const fromLast = Math.floor(random() * (random() < 0.5 ? 1 : random() ** 2) * places.length);
    const { load, section } = places[places.length - 1 - fromLast];
    gone.add(loads[load].sections[section]);
  }
  for (const { lanes } of gone) for (const { kinds } of lanes) for (const { demand } of kinds) left[demand]++;
  return {
    loads: loads.map(({ stock, sections }) => ({
      stock,
      sections: sections.filter((each) => !gone.has(each)),
    })),
    wanted: left,
  };
}

/** What the state costs; the length of a load is taken without its border. */
function stateCost(demands: readonly Demand[], { loads, wanted }: State): Cost {
  const missing = wanted.reduce((sum, count, demand) => sum + count * demands[demand].areaMm2, 0);
  const used = loads
    .filter(({ sections }) => sections.length > 0)
    .map(({ stock, sections }) => ({ stock, usedMm: sections.reduce((sum, { length }) => sum + length, 0) }));
  return costOf(missing, used);
}
