import type { GridOrder } from "./demand.ts";
import type { MarkerPiece, PieceSet } from "./order.ts";

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

/**
 * Very many pieces in groups of at most `most`, each with its share of every demand. As many as can be are alike and so one set, however many
 * pieces there are; what does not go into them by the same number is grouped in its turn.
 */
export function groupsOf(
  demands: readonly { readonly piece: Pick<MarkerPiece, "quantity"> }[],
  most: number,
): PieceSet[] {
  const grouped = (left: readonly number[]): PieceSet[] => {
    const times = Math.ceil(sum(left) / most);
    const quantities = left.map((count) => Math.floor(count / times));
    // Fewer of each than there are groups: they are dealt out.
    if (sum(quantities) === 0) return dealtOut(left, times);
    const rest = left.map((count, i) => count - times * quantities[i]);
    return [{ times, quantities }, ...(sum(rest) > 0 ? grouped(rest) : [])];
  };
  const all = demands.map(({ piece }) => piece.quantity);
  return sum(all) > 0 ? grouped(all) : [];
}

function dealtOut(quantities: readonly number[], number: number): PieceSet[] {
  const groups = Array.from({ length: number }, () => quantities.map(() => 0));
  const all = quantities.flatMap((count, demand) => new Array<number>(count).fill(demand));
  for (const [i, demand] of all.entries()) groups[i % number][demand]++;
  return groups.map((group) => ({ times: 1, quantities: group }));
}

/** The sets within an order's sets that hold no others, such as its shells; none when they hold more than `most` pieces in all. */
export function innermostSets({ sets = [] }: Pick<GridOrder, "sets">, most: number): PieceSet[] {
  const within = ({ times, quantities, sets }: PieceSet): PieceSet[] =>
    sets
      ? sets.flatMap(within).map((set) => ({ ...set, times: times * set.times }))
      : [{ times, quantities }];
  const innermost = sets.flatMap(within);
  return sum(innermost.map(({ quantities }) => sum(quantities))) > most ? [] : innermost;
}

const sum = (counts: readonly number[]) => counts.reduce((all, count) => all + count, 0);
