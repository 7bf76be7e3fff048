import type { GridOrder } from "./demand.ts";
import { largestFirst, layFirst } from "./first-places.ts";
import { type Layout, placesOf } from "./layout.ts";
import type { Stock } from "./order.ts";
import type { Random } from "./random.ts";
import type { Loads } from "./squeeze.ts";
import { type Load, without } from "./table-load.ts";

/** The stock is filled in about so many steps, however many pieces there are: a plan is there within the usual number. */
const STEPS = 100;
/** On one roll so many pieces at most are laid down largest first, and then the next so many behind them. */
const PORTION = 120;

/** What is laid down. */
interface ToFill {
  readonly order: GridOrder;
  /** For each piece its demand. */
  readonly demandOf: readonly number[];
}

/**
 * Fills the stock in its order, large pieces before small ones, each where it ends soonest. A roll on which very many lie is filled portion by
 * portion, each with its share of large and small ones, and pieces are laid beside those of their own portion and the end of the one before.
 *
 * @param layoutFor an empty layout of some pieces on some stock
 * @param markers about how many of the stock will hold pieces
 */
export function* fillStock(
  { order: { stock: list, demands }, demandOf }: ToFill,
  layoutFor: (stock: Stock, pieces: readonly number[]) => Layout,
  markers: number,
  random: Random,
): Generator<null, Loads> {
  const loads: Load[] = [];
  let left: readonly number[] = demandOf.map((_, p) => p);
  const triesAStep = Math.ceil((left.length + markers * new Set(demandOf).size) / STEPS);
  let tries = 0;
  for (const stock of list) {
    for (let i = 0; i < stock.count && left.length > 0; i++) {
      const layout = layoutFor(stock, left);
      const lying: number[] = [];
      // When one of a demand has found no room, the next will not either.
      const full = new Set<number>();
      const area = left.reduce((sum, p) => sum + demands[demandOf[p]].areaMm2, 0);
      const most = (left.length * layout.width * layout.length) / area;
      const portions = Math.ceil(Math.min(left.length, most) / PORTION);
      const inOrder = largestFirst(layout);
      for (let portion = 0; portion < portions; portion++) {
        const from = portion === 0 ? -Infinity : raggedFrom(layout, lying);
        const beside = lying.filter((p) => layout.claims[4 * p + 1] > from);
        for (const p of inOrder) {
          const demand = demandOf[left[p]];
          // Dealt out in turn, so that each portion has its share of every demand.
          if (p % portions !== portion || full.has(demand)) continue;
          if (layFirst(layout, p, beside, from, random)) {
            lying.push(p);
            beside.push(p);
          } else full.add(demand);
          if (++tries % triesAStep === 0) yield null;
        }
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

/** Where the ragged end of what lies on a roll begins: so far back as its longest piece is long. */
function raggedFrom({ claims }: Layout, lying: readonly number[]): number {
  let end = 0;
  let longest = 0;
  for (const p of lying) {
    end = Math.max(end, claims[4 * p + 1]);
    longest = Math.max(longest, claims[4 * p + 1] - claims[4 * p]);
  }
  return end - longest;
}
