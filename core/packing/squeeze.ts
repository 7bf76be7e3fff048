import { findPlace } from "./find-place.ts";
import { fits, type Layout, placesOf, put, reach } from "./layout.ts";
import type { Stock } from "./order.ts";
import { pick, type Random } from "./random.ts";
import { separate } from "./separate.ts";
import { type Load, without } from "./table-load.ts";
import { EFFORT } from "./tighten.ts";

/** How long the others are made to give way. */
const PATIENCE = { rounds: 30, strikes: 1 };
/** Places that are tried at first. */
const SEARCH = { ...EFFORT, anywhere: 8 * EFFORT.anywhere };

/** Loads, and the numbers of the pieces that are on none. */
export interface Loads {
  readonly loads: readonly Load[];
  readonly left: readonly number[];
}

/**
 * Tries to bring one piece that is left, or one of the last load when none is, into another load, whose pieces give way
 * within the stock as it is. Each `next` is a round; returns null when it failed. Stock that is left empty is put back.
 *
 * @param layoutFor an empty layout of some pieces on some stock
 */
export function* squeeze(
  loads: readonly Load[],
  left: readonly number[],
  layoutFor: (stock: Stock, pieces: readonly number[]) => Layout,
  random: Random,
): Generator<null, Loads | null> {
  const from = left.length > 0 ? left : (loads.at(-1)?.pieces ?? []);
  // A roll without end is never full: what would lie on it lies on it already.
  const into = (left.length > 0 ? loads : loads.slice(0, -1)).filter(({ stock }) =>
    Number.isFinite(stock.lengthMm),
  );
  if (from.length === 0 || into.length === 0) return null;
  const piece = from[pick(random, from.length)];
  const load = into[pick(random, into.length)];
  const layout = layoutFor(load.stock, [...load.pieces, piece]);
  const { variant, x, y } = load.places;
  load.pieces.forEach((_, p) => {
    put(layout, p, variant[p], x[p], y[p]);
  });
  const p = load.pieces.length;
  const fitting = layout.allowed[p].find((v) => fits(layout, v));
  if (fitting === undefined) return null;
  put(layout, p, fitting, reach(layout, fitting, 0)[0], reach(layout, fitting, 1)[0]);
  const found = findPlace(layout, p, SEARCH, random);
  put(layout, p, found.variant, found.x, found.y);
  const work = separate(layout, PATIENCE, EFFORT, random);
  let step = work.next();
  for (; !step.done; step = work.next()) yield null;
  if (!step.value) return null;
  const grown: Load = { stock: load.stock, pieces: [...load.pieces, piece], places: placesOf(layout) };
  return {
    loads: loads
      .map((other) => (other === load ? grown : without(other, (place) => other.pieces[place] === piece)))
      .filter(({ pieces }) => pieces.length > 0),
    left: left.filter((other) => other !== piece),
  };
}
