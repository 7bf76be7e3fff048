import { type Block, layBehind } from "./behind.ts";
import { type Cost, compareCosts, costOf } from "./cost.ts";
import type { GridOrder } from "./demand.ts";
import { handMarker, type SectionLoad } from "./hand-marker.ts";
import type { MarkerPlan, Stock } from "./order.ts";
import { planOf } from "./plan.ts";
import { pick, type Random, randomFrom } from "./random.ts";
import { binsOf, kindsOf, roomOn, wantedOf } from "./rectangles.ts";
import { type Section, sectionsFrom, type TakeSection } from "./sections.ts";
import { planSets, type SetPlan } from "./sets.ts";

/** At most this many sections are taken apart at a time. */
const APART = 4;
/** Rounds in one step. */
const ROUNDS = 20;

/** The rectangles still wanted, by demand, and what is on the stock. */
interface State {
  readonly loads: readonly SectionLoad[];
  readonly wanted: Int32Array;
}

/**
 * Lays the rectangles round the pieces of an order so that straight cuts part them: across the whole width into sections, along
 * a section into lanes, across a lane into rectangles, and along those that are narrower than their lane. Each `next` is a
 * bounded piece of work and gives a plan when it has a better one, the first at once; it goes on for ever.
 *
 * The stock is filled in its order, section by section; then some sections at a time are taken apart and their pieces laid
 * anew, and the result is kept when it is no worse (large neighbourhood search: Shaw, CP 1998). When the order's sets are planned, the search goes on from
 * the sections of those, if they take less.
 */
export function* handCut(order: GridOrder): Generator<MarkerPlan | null, never> {
  const search = searchSections(order);
  for (;;) {
    const { value } = search.next();
    yield value &&
      planOf(
        order,
        value.map((load) => handMarker(order, load)),
      );
  }
}

/** The same, as the stock that holds sections. */
function* searchSections(order: GridOrder): Generator<readonly SectionLoad[] | null, never> {
  const random = randomFrom(order.seed);
  const take = sectionsFrom(kindsOf(order).flat());
  const wanted = wantedOf(order);
  const bins = binsOf(
    order,
    wanted.reduce((sum, count) => sum + count, 0),
  );
  let state: State = { loads: bins.map((stock) => ({ stock, sections: [] })), wanted };
  state = refill(order, take, state, random);
  let cost = costOfState(order, state);
  const used = () => state.loads.filter(({ sections }) => sections.length > 0);
  yield used();
  let apart: ReturnType<typeof planSets<readonly SectionLoad[]>> | null = planSets(order, searchSections);
  for (;;) {
    let better = false;
    const sets = apart?.next();
    if (sets?.done) {
      apart = null;
      const together = sets.value.length > 0 ? behindOneAnother(order, sets.value, state.loads) : [];
      for (const laid of together) {
        const whole = refill(order, take, { loads: laid, wanted: leftOf(wanted, laid) }, random);
        const wholeCost = costOfState(order, whole);
        if (compareCosts(wholeCost, cost) >= 0) continue;
        state = whole;
        cost = wholeCost;
        better = true;
      }
    }
    for (let i = 0; i < ROUNDS; i++) {
      const next = refill(order, take, takeApart(state, random), random);
      const nextCost = costOfState(order, next);
      const worse = compareCosts(nextCost, cost);
      if (worse > 0) continue;
      better ||= worse < 0;
      state = next;
      cost = nextCost;
    }
    yield better ? used() : null;
  }
}

/** The sections of sets on the stock, those of a marker together, and each where it fits. */
function behindOneAnother(
  order: GridOrder,
  plans: readonly SetPlan<readonly SectionLoad[]>[],
  bins: readonly SectionLoad[],
): SectionLoad[][] {
  const loads = plans.flatMap(({ times, plan }) => Array.from({ length: times }, () => plan).flat());
  // Each is taken apart for itself: none may stand twice.
  const together = loads.map(({ sections }) => sections.map((section) => ({ ...section })));
  const each = together.flat().map((section) => [section]);
  return [together, each].map((contents) => {
    const laid = layBehind(order, contents.map(blockOf));
    // Of each stock as many as there are; those that hold sections stand first.
    const next = new Map<Stock, readonly Section[][]>();
    for (const { stock, blocks } of laid)
      next.set(stock, [...(next.get(stock) ?? []), blocks.flatMap(({ content }) => content)]);
    return bins.map(({ stock }): SectionLoad => {
      const [sections = [], ...others] = next.get(stock) ?? [];
      next.set(stock, others);
      return { stock, sections };
    });
  });
}

function blockOf(sections: readonly Section[]): Block<readonly Section[]> {
  const widths = sections.map(({ lanes }) => lanes.reduce((sum, { width }) => sum + width, 0));
  const lengthMm = sections.reduce((sum, { length }) => sum + length, 0);
  return { lengthMm, widthMm: Math.max(0, ...widths), content: sections };
}

/** What is wanted and in no section. */
function leftOf(wanted: Int32Array, loads: readonly SectionLoad[]): Int32Array {
  const left = wanted.slice();
  for (const { sections } of loads)
    for (const { lanes } of sections)
      for (const { kinds } of lanes) for (const { demand } of kinds) left[demand]--;
  return left;
}

function refill(order: GridOrder, take: TakeSection, { loads, wanted }: State, random: Random): State {
  const left = wanted.slice();
  const filled = loads.map((load): SectionLoad => {
    if (left.every((count) => count === 0)) return load;
    const sections = [...load.sections];
    const { length, width } = roomOn(order, load.stock);
    let room = length - sections.reduce((sum, section) => sum + section.length, 0);
    for (;;) {
      const section = take(left, room, width, random);
      if (section === null) return { stock: load.stock, sections };
      sections.push(section);
      room -= section.length;
    }
  });
  return { loads: filled, wanted: left };
}

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

function costOfState({ demands }: GridOrder, { loads, wanted }: State): Cost {
  const missing = wanted.reduce((sum, count, demand) => sum + count * demands[demand].areaMm2, 0);
  const used = loads
    .filter(({ sections }) => sections.length > 0)
    .map(({ stock, sections }) => ({ stock, usedMm: sections.reduce((sum, { length }) => sum + length, 0) }));
  return costOf(missing, used);
}
