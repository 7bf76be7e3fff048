import { randomFrom } from "../../packing/random.ts";
import type { BarProblem, BarSolution } from "./bar-problem.ts";
import { complete } from "./complete.ts";
import { dive, type Waypoint } from "./dive.ts";
import { makeFiller } from "./fill-bar.ts";
import { greedyPass } from "./greedy.ts";
import { possibleCosts } from "./possible-costs.ts";
import { provenPrices } from "./prove.ts";
import { know, prices, type Relaxation, solve, startRelaxation } from "./relax.ts";

export interface SolveOptions {
  /** How much work is done at most, in steps of which a present-day machine does some thirty million a second. */
  readonly effort: number;
  /** Asked often: whether to end with the best so far. */
  readonly stop: () => boolean;
  /** Hears of every better solution or bound. */
  readonly onBetter: (cost: number, bound: number) => void;
}

export interface SolvedBars extends BarSolution {
  /** No solution costs less: proved. The solution is the best there is where it costs just that. */
  readonly bound: number;
}

const GREEDY_PASSES = 4;
/** With more sizes than this a step of the relaxation alone takes too long. */
const MOST_SIZES = 2000;
/** Makes long sizes worth a little more than their length. */
const LONG_FIRST = 1.02;
/** Steps of the first exhaustive search; each further one may take this many times as many. */
const FIRST_SEARCH = 10_000;
const GROWTH = 2;
/** A step of it takes as long as so many states of the filler. */
const SEARCH_STEP = 10;
/** Figures of the inverse that the places on a way may hold in all. */
const REMEMBERED = 8e6;
/** Dives between two exhaustive searches. */
const DIVES = 6;
/** Of so many dives one begins at the top, the others on the way that the last one took. */
const FROM_TOP = 4;

/**
 * Cuts bars at the least cost: greedy passes, then the linear relaxation, whose bound is proved in whole numbers,
 * then by turns roundings of the relaxation, from its top or from a place on the last way down, and an exhaustive
 * search for a solution at the bound itself; a search that ends without one raises the bound. Ends when cost and
 * bound meet, or effort or patience is spent. The same input and effort give the same answer, unless `stop` ends it.
 */
export function solveBars(problem: BarProblem, options: SolveOptions): SolvedBars {
  const { demand, kinds, sizes } = problem;
  const { stop, onBetter } = options;
  const supply = kinds.map(({ supply: each }) => each);
  const filler = makeFiller(
    sizes,
    kinds.map(({ capacity }) => capacity),
  );
  let root: Relaxation | undefined;
  let searched = 0;
  // A step of the simplex touches the whole inverse, some sixteen of its figures in the time of a state of the filler.
  const work = () =>
    filler.states() + searched + (root ? (root.work.steps * root.basis.level.length ** 2) / 16 : 0);
  const spent = () => work() > options.effort || stop();

  const worth = sizes.map((size) => size ** LONG_FIRST);
  let best = greedyPass(problem, demand, supply, filler, worth, spent);
  const nextCost = possibleCosts(problem, best.cost);
  // To begin with a piece is worth its length at the price of the cheapest bar.
  const perLength = Math.min(
    ...kinds.flatMap(({ cost, capacity, supply: each }) => (each < Infinity ? [] : [cost / capacity])),
  );
  let proven = provenPrices(
    problem,
    demand,
    supply,
    filler,
    sizes.map((size) => size * perLength),
    best.cost,
  );
  let bound = nextCost(proven.bound);
  const found = (solution: BarSolution | undefined): void => {
    if (!solution || solution.cost >= best.cost) return;
    best = solution;
    onBetter(best.cost, bound);
  };
  const raise = (to: number): void => {
    const raised = nextCost(Math.min(to, best.cost));
    if (raised <= bound) return;
    bound = raised;
    onBetter(best.cost, bound);
  };
  onBetter(best.cost, bound);
  const known = [...best.uses];
  for (let pass = 1; pass < GREEDY_PASSES && best.cost > bound && !spent(); pass++) {
    const solution = greedyPass(problem, demand, supply, filler, worth, spent);
    known.push(...solution.uses);
    found(solution);
  }
  if (best.cost === bound || spent() || sizes.length > MOST_SIZES) return { ...best, bound };

  root = startRelaxation(problem, filler, 0);
  for (const { pattern } of known) know(root, pattern);
  solve(root, { stop: spent, shortcuts: true });
  const values = prices(root).map((value) => value * root.unit);
  const sharper = provenPrices(problem, demand, supply, filler, values, best.cost);
  if (sharper.worth / sharper.scale > proven.worth / proven.scale) proven = sharper;
  raise(proven.bound);
  let steps = FIRST_SEARCH;
  let way: Waypoint[] = [];
  const onWay = (place: Waypoint) => {
    if ((way.length + 1) * place.relaxation.basis.inverse.length <= REMEMBERED) way.push(place);
  };
  for (let seed = 0; best.cost > bound && !spent(); seed++) {
    const turn = seed % FROM_TOP === 0 ? 0 : Math.floor(randomFrom(seed)() * way.length);
    way = seed % FROM_TOP === 0 ? [{ relaxation: root, uses: [] }] : way.slice(0, turn + 1);
    found(dive(way[turn], { seed, stop: spent, cheaperThan: best.cost, onWay }));
    if (seed % DIVES !== 0) continue;
    while (best.cost > bound && !spent()) {
      const search = complete(problem, demand, supply, proven, bound, { steps, stop: spent });
      searched += SEARCH_STEP * search.steps;
      if (search.uses) found({ uses: search.uses, cost: bound });
      if (!search.ended) break;
      raise(bound + 1);
    }
    steps *= GROWTH;
  }
  return { ...best, bound };
}
