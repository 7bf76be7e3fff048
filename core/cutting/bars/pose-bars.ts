import { grouped } from "../grouped.ts";
import type { BarDemand, BarMeasure, BarOptions, BarStock } from "./bar-plan.ts";
import type { BarKind, BarProblem } from "./bar-problem.ts";

/** Lengths are counted in thousandths of a mm, pieces rounded up and bars down; less than this of one is rounding. */
const PER_MM = 1000;
const SAME = 1e-3;
/** Prices are counted in ten-thousandths. */
const PER_PRICE = 10_000;

/** A cutting problem and what its numbers stand for. */
export interface PosedBars {
  readonly problem: BarProblem;
  /** The pieces of each size. */
  readonly demands: readonly (readonly BarDemand[])[];
  /** What each kind is: a bar of the stock, or one that the stock lacks. */
  readonly sources: readonly { readonly stock: BarStock; readonly lacking: boolean }[];
  readonly tooLong: readonly BarDemand[];
  readonly measure: BarMeasure;
  /** What one unit of cost is in the measure. */
  readonly perCost: number;
  /** What a bar that the stock lacks costs above its own cost: more than any plan without it. */
  readonly penalty: number;
}

/**
 * Puts demands and stock into whole numbers. Where new bars come in one length, their number is counted, else their
 * length, or their price where they have one; the supply of a single length is left open, what it lacks shows in the
 * plan. With several lengths each limited one has a twin of unlimited supply that costs more than any plan without
 * it.
 */
export function poseBars(
  demands: readonly BarDemand[],
  stock: readonly BarStock[],
  { kerfMm, endTrimMm }: BarOptions,
): PosedBars {
  const kerf = up(kerfMm);
  const capacity = ({ lengthMm, remnant }: BarStock) =>
    Math.floor(lengthMm * PER_MM + SAME) - (remnant ? 0 : 2 * up(endTrimMm)) + kerf;
  // A length of which there is none can still be got; a remnant cannot.
  const usable = stock.filter((bar) => capacity(bar) > kerf && !(bar.remnant && bar.quantity === 0));
  const longest = Math.max(0, ...usable.map(capacity));
  const size = ({ lengthMm }: BarDemand) => up(lengthMm) + kerf;
  const wanted = demands.filter(({ quantity }) => quantity > 0);
  const fitting = wanted.filter((demand) => size(demand) <= longest);

  const groups = grouped(fitting, size);
  const sizes = [...groups.keys()].sort((a, b) => b - a);
  const pieces = fitting.reduce((sum, { quantity }) => sum + quantity, 0);
  const { measure, costs, perCost } = measured(usable);
  const fresh = usable.filter(({ remnant }) => !remnant);
  const oneLength = fresh.length === 1;
  const kinds = usable.map((bar, k): BarKind => {
    const number = Math.min(bar.quantity ?? pieces, pieces);
    // As many bars as pieces are as good as any number; what costs nothing stays counted.
    const supply = !bar.remnant && (oneLength || number === pieces) ? Infinity : number;
    return { capacity: capacity(bar), cost: costs[k], supply };
  });
  const sources = usable.map((bar) => ({ stock: bar, lacking: false }));
  const open = kinds.filter(({ supply }) => supply === Infinity);
  const penalty =
    1 +
    pieces * Math.max(0, ...open.map(({ cost }) => cost)) +
    kinds.reduce((sum, { cost, supply }) => sum + (supply < Infinity ? cost * supply : 0), 0);
  const addTwin = (k: number): void => {
    kinds.push({ capacity: kinds[k].capacity, cost: kinds[k].cost + penalty, supply: Infinity });
    sources.push({ stock: usable[k], lacking: true });
  };
  usable.forEach(({ remnant }, k) => {
    if (!remnant && kinds[k].supply < Infinity) addTwin(k);
  });
  // A piece that only a remnant can hold.
  const longestOpen = Math.max(0, ...kinds.map((kind) => (kind.supply === Infinity ? kind.capacity : 0)));
  if (sizes.length > 0 && sizes[0] > longestOpen)
    addTwin(usable.findIndex((bar) => capacity(bar) === longest));

  return {
    problem: {
      sizes: Float64Array.from(sizes),
      demand: Int32Array.from(sizes, (each) => total(groups.get(each) ?? [])),
      kinds,
    },
    demands: sizes.map((each) => groups.get(each) ?? []),
    sources,
    tooLong: wanted.filter((demand) => size(demand) > longest),
    measure,
    perCost,
    penalty,
  };
}

/** Thousandths of a mm, rounded up. */
function up(lengthMm: number): number {
  return Math.ceil(lengthMm * PER_MM - SAME);
}

function total(demands: readonly BarDemand[]): number {
  return demands.reduce((sum, { quantity }) => sum + quantity, 0);
}

/** What each bar costs in whole numbers without a common divisor; remnants without a price cost nothing. */
function measured(stock: readonly BarStock[]) {
  const fresh = stock.filter(({ remnant }) => !remnant);
  const priced = fresh.some(({ price }) => price !== undefined);
  const measure: BarMeasure = priced
    ? "price"
    : new Set(fresh.map(({ lengthMm }) => lengthMm)).size > 1
      ? "mm"
      : "bars";
  const cost = ({ lengthMm, price, remnant }: BarStock): number => {
    if (measure === "price") return Math.round((price ?? 0) * PER_PRICE);
    if (remnant) return 0;
    return measure === "bars" ? 1 : Math.round(lengthMm * PER_MM);
  };
  const all = stock.map(cost);
  const divisor = all.reduce(commonDivisor, 0) || 1;
  const unit = { bars: 1, mm: PER_MM, price: PER_PRICE }[measure];
  return { measure, costs: all.map((each) => each / divisor), perCost: divisor / unit };
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
