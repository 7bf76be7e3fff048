import { counted } from "../../units/counted.ts";
import { grouped } from "../grouped.ts";
import type {
  BarCut,
  BarDemand,
  BarLengths,
  BarOptions,
  BarPlan,
  BarRemnant,
  BarStock,
  BarUse,
  MissingBars,
  TooLong,
} from "./bar-plan.ts";
import { checkFigures } from "./check-figures.ts";
import { handOut } from "./hand-out.ts";
import { poseBars } from "./pose-bars.ts";
import { shortestBars } from "./shortest-bars.ts";
import { solveBars } from "./solve-bars.ts";

const DEFAULT_EFFORT = 150e6;

/**
 * Cuts strips from bars so that the bars cost the least: their number where there is one length, else their length,
 * or their price where they have one; remnants come first, since they cost nothing. The plan's bound says what no
 * plan can do better. Deterministic: the same input and effort give the same plan, unless `stop` ends it. Pieces
 * longer than any bar are left out and told; bars that a limited stock lacks are planned as missing, as few as can
 * be. Throws a RangeError that names the figure for one that is no length or count.
 */
export function cutBars(
  demands: readonly BarDemand[],
  stock: readonly BarStock[],
  options: BarOptions,
): BarPlan {
  checkFigures(demands, stock, options);
  const { effort = DEFAULT_EFFORT, stop = () => false, onBetter = () => {} } = options;
  const posed = poseBars(demands, stock, options);
  const { problem, measure, perCost, penalty } = posed;
  const limits = {
    effort,
    stop,
    onBetter: (cost: number, bound: number) => {
      // A penalty is more than all else in a cost.
      const penalties = Math.floor(cost / penalty) * penalty;
      onBetter((cost - penalties) * perCost, Math.max(0, bound - penalties) * perCost, measure);
    },
  };
  const solved = problem.sizes.length > 0 ? solveBars(problem, limits) : { uses: [], cost: 0, bound: 0 };
  const bars = handOut(posed, shortestBars(problem, solved.uses), options);
  const penalties = solved.uses.reduce(
    (sum, { pattern, times }) => sum + (posed.sources[pattern.kind].lacking ? times * penalty : 0),
    0,
  );
  return {
    bars,
    use: usesOf(bars),
    missing: missingBars(bars),
    tooLong: posed.tooLong.map((demand) => tooLong(demand, stock, options)),
    measure,
    cost: (solved.cost - penalties) * perCost,
    bound: Math.max(0, solved.bound - penalties) * perCost,
    remnants: remnantsOf(bars),
    lengths: lengthsOf(bars),
  };
}

/** Number of bars taken from each stock, in the order of the plan; lacking ones are not there to be taken. */
function usesOf(bars: readonly BarCut[]): BarUse[] {
  const own = bars.filter(({ lacking }) => !lacking);
  return [...grouped(own, ({ stock }) => stock)].map(([stock, cuts]) => ({
    stock,
    lengthMm: cuts[0].lengthMm,
    bars: countOf(cuts),
  }));
}

function missingBars(bars: readonly BarCut[]): MissingBars[] {
  const lacking = bars.filter((bar) => bar.lacking);
  return [...grouped(lacking, ({ stock }) => stock)].map(([stock, cuts]) => {
    const pieces = new Map<string, number>();
    for (const { cuts: own, times } of cuts) {
      for (const { id } of own) pieces.set(id, (pieces.get(id) ?? 0) + times);
    }
    const number = countOf(cuts);
    const { lengthMm } = cuts[0];
    return {
      stock,
      lengthMm,
      bars: number,
      pieces: [...pieces].map(([id, quantity]) => ({ id, quantity })),
      says:
        `${counted(number, "bar")} of ${stock} (${lengthMm} mm) ` +
        `${number === 1 ? "is" : "are"} missing, for ${listed([...pieces.keys()])}.`,
    };
  });
}

/** Names of pieces for a sentence, the first few of many. */
function listed(names: readonly string[]): string {
  const most = 6;
  const shown = names.slice(0, most).join(", ");
  return names.length > most ? `${shown} and ${names.length - most} more` : shown;
}

function tooLong(
  { id, lengthMm, quantity }: BarDemand,
  stock: readonly BarStock[],
  options: BarOptions,
): TooLong {
  const there = stock.filter((bar) => !(bar.remnant && bar.quantity === 0));
  const room = ({ lengthMm: own, remnant }: BarStock) => own - (remnant ? 0 : 2 * options.endTrimMm);
  const longest = there.reduce<BarStock | undefined>((a, b) => (a && room(a) >= room(b) ? a : b), undefined);
  const against = longest
    ? `the longest bar, ${longest.id}, gives ${Math.max(0, room(longest))} mm`
    : "no length of bar is given";
  // To the tenth above, so that a piece too long by less does not read as one that fits.
  return {
    id,
    lengthMm,
    quantity,
    says: `Piece ${id} is ${Math.ceil(10 * lengthMm) / 10} mm long; ${against}.`,
  };
}

function remnantsOf(bars: readonly BarCut[]): BarRemnant[] {
  const kept = bars.filter(({ keep }) => keep);
  return [...grouped(kept, ({ restMm }) => restMm)]
    .map(([lengthMm, cuts]) => ({ lengthMm, quantity: countOf(cuts) }))
    .sort((a, b) => b.lengthMm - a.lengthMm);
}

function lengthsOf(bars: readonly BarCut[]): BarLengths {
  const sum = (figure: (bar: BarCut) => number) =>
    bars.reduce((total, bar) => total + bar.times * figure(bar), 0);
  const barsMm = sum(({ lengthMm }) => lengthMm);
  const piecesMm = sum(({ cuts }) => cuts.reduce((total, { lengthMm }) => total + lengthMm, 0));
  const keptMm = sum(({ keep, restMm }) => (keep ? restMm : 0));
  const wasteMm = sum(({ keep, restMm }) => (keep ? 0 : restMm));
  return { barsMm, piecesMm, keptMm, wasteMm, sawMm: barsMm - piecesMm - keptMm - wasteMm };
}

function countOf(cuts: readonly BarCut[]): number {
  return cuts.reduce((sum, { times }) => sum + times, 0);
}
