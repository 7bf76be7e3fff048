import type { GridOrder } from "./demand.ts";
import type { PieceSet } from "./order.ts";

/** Steps that a plan usually gets: by then it must be good. */
export const USUAL_STEPS = 200;
/** A set's own plan is so many steps ahead for one of the whole: it is there while half the usual steps are still to come. */
const AHEAD = 2;

/** The plan of a set by itself, which is laid so many times. */
export interface SetPlan<Plan> {
  readonly times: number;
  readonly plan: Plan;
}

/**
 * Plans each set of an order by itself, as it is planned when nothing else is wanted, beside the search for all of it: one `next` for a step of
 * that. Nothing to do when the order has none.
 */
export function* planSets<Plan>(
  order: GridOrder,
  search: (order: GridOrder) => Generator<Plan | null, never>,
): Generator<null, readonly SetPlan<Plan>[]> {
  const all = (order.sets ?? []).map(({ times, ...set }) => ({
    times,
    steps: search(orderOf(order, set)),
    best: null as Plan | null,
  }));
  for (let step = 0; step < USUAL_STEPS && all.length > 0; step++) {
    for (const each of all) each.best = each.steps.next().value ?? each.best;
    if (step % AHEAD === AHEAD - 1) yield null;
  }
  return all.flatMap(({ times, best }) => (best === null ? [] : [{ times, plan: best }]));
}

/** The order of one set: its demands have the numbers that they have in the whole, those that are not in it being wanted no times. */
function orderOf(order: GridOrder, { quantities, sets }: Omit<PieceSet, "times">): GridOrder {
  const demands = order.demands.map((demand, i) => ({
    ...demand,
    piece: { ...demand.piece, quantity: quantities[i] },
  }));
  return { ...order, demands, pieces: demands.map(({ piece }) => piece), sets };
}

/** Very many pieces in groups of at most `most`, each with its share of every demand; alike groups are one set. */
export function groupsOf({ demands }: GridOrder, most: number): PieceSet[] {
  const all = demands.flatMap(({ piece }, demand) => new Array<number>(piece.quantity).fill(demand));
  const number = Math.ceil(all.length / most);
  const groups = Array.from({ length: number }, () => demands.map(() => 0));
  for (const [i, demand] of all.entries()) groups[i % number][demand]++;
  const alike = new Map<string, PieceSet>();
  for (const quantities of groups) {
    const key = quantities.join();
    alike.set(key, { times: (alike.get(key)?.times ?? 0) + 1, quantities });
  }
  return [...alike.values()];
}
