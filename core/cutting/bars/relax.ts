import { randomFrom } from "../../packing/random.ts";
import type { BarProblem, Pattern } from "./bar-problem.ts";
import {
  type Basis,
  bringIn,
  type Column,
  copyBasis,
  gainOf,
  makeGood,
  ROUNDING,
  refresh,
  startBasis,
} from "./basis.ts";
import {
  columnOf,
  fits,
  limitedKinds,
  oneSize,
  type PatternColumn,
  shortcutColumns,
  surplusColumns,
} from "./columns.ts";
import type { Filler } from "./fill-bar.ts";

/**
 * The cutting of bars with parts of bars allowed, and the pieces that are left to cut. Its columns are patterns; its
 * rows are the sizes, then the kinds of limited supply.
 */
export interface Relaxation {
  readonly problem: BarProblem;
  readonly filler: Filler;
  /** Pieces and bars that are left. */
  readonly left: Int32Array;
  readonly stock: number[];
  /** All patterns found so far; shared by copies. */
  readonly pool: PatternColumn[];
  basis: Basis;
  /** One for each row: what is given beyond what is wanted. */
  readonly surplus: readonly Column[];
  /** Steps of the simplex so far; shared by copies. */
  readonly work: { steps: number };
  /** Costs are counted in this, so that a bar costs about 1. */
  readonly unit: number;
}

export interface RelaxOptions {
  /** Asked at every step: whether to stop with the bound that has been reached. */
  readonly stop: () => boolean;
  /** No more is asked than whether the bound goes beyond this. */
  readonly enough?: number;
  /** Also lets a piece stand for the next shorter one, until the bound is reached: fewer steps. */
  readonly shortcuts?: boolean;
}

/** Small extras on the demand, so that no step stands still. */
const EXTRA = 1e-6;
/** A pattern that is known is taken before a new one is made if it gains this part of what the last new one did. */
const GOOD_PART = 0.2;
/** Steps between two fillings of a bar, at the most. */
const ASK_EVERY = 64;

/** Begins with one size a pattern. `seed`: another number leads to another of several equally good solutions. */
export function startRelaxation(problem: BarProblem, filler: Filler, seed: number): Relaxation {
  const { sizes, demand, kinds } = problem;
  const m = sizes.length;
  const random = randomFrom(seed);
  const limited = limitedKinds(problem);
  const wanted = new Float64Array(m + limited.length);
  for (let i = 0; i < m; i++) wanted[i] = demand[i] + EXTRA * (1 + random());
  limited.forEach((t, k) => {
    wanted[m + k] = -kinds[t].supply - EXTRA * (1 + random());
  });
  const unit = Math.min(...kinds.flatMap(({ cost }) => (cost > 0 ? [cost] : [])));
  const work = { steps: 0 };
  const surplus = surplusColumns(wanted.length);
  return {
    problem,
    filler,
    work,
    surplus,
    left: demand.slice(),
    stock: kinds.map(({ supply }) => supply),
    pool: [],
    basis: plainBasis(problem, demand, unit, wanted, work),
    unit,
  };
}

/** A relaxation that goes on from the same point; the pool is shared. */
export function copyRelaxation(relaxation: Relaxation): Relaxation {
  const { left, stock, basis } = relaxation;
  return { ...relaxation, left: left.slice(), stock: [...stock], basis: copyBasis(basis) };
}

/** Makes a pattern known. */
export function know({ problem, unit, pool }: Relaxation, pattern: Pattern): void {
  pool.push(columnOf(problem, unit, pattern));
}

/** Cuts a pattern: takes it out of what is left. The relaxation must be solved again. */
export function cut(relaxation: Relaxation, pattern: Pattern, times: number): void {
  const { left, stock, basis, problem } = relaxation;
  for (const i of pattern.items) {
    left[i] -= times;
    basis.wanted[i] -= times;
    // What is cut out is no longer wanted, not even a small extra of it.
    if (left[i] === 0) basis.wanted[i] = -EXTRA;
  }
  stock[pattern.kind] -= times;
  const rent = limitedKinds(problem).indexOf(pattern.kind);
  if (rent >= 0) basis.wanted[left.length + rent] += times;
}

/**
 * Solves the linear relaxation over all patterns of what is left and gives a lower bound of its cost (but for
 * rounding). Columns are made as they are needed by filling a bar with what pieces are worth [P. C. Gilmore, R. E.
 * Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9 (1961) 849-859 and 11
 * (1963) 863-888]. The bound of an unfinished run is Farley's [A. A. Farley, "A note on bounding a class of linear
 * programming problems, including cutting stock problems", Operations Research 38 (1990) 922-923], with limited kinds
 * paying rent. Shortcuts are dual cuts [J. M. Valério de Carvalho, "Using extra dual cuts to accelerate column
 * generation", INFORMS J. on Computing 17 (2005) 175-182].
 */
export function solve(relaxation: Relaxation, options: RelaxOptions): number {
  const { filler, left, pool, stock, surplus, unit, problem } = relaxation;
  const { stop, enough = Number.POSITIVE_INFINITY } = options;
  const shortcuts = options.shortcuts ? shortcutColumns(left.length) : [];
  const usable = pool.filter((column) => fits(left, stock, column));
  const known = [...surplus, ...usable];
  if (!makeGood(relaxation.basis, known, stop)) {
    relaxation.basis = plainBasis(problem, left, unit, relaxation.basis.wanted, relaxation.work);
  }
  const { basis } = relaxation;
  let offered: readonly Column[] = [...surplus, ...shortcuts];
  let bound = 0;
  let good = 0;
  for (let step = 1; ; step++) {
    let gain = ROUNDING;
    let enters: Column | undefined;
    for (const list of [offered, usable]) {
      for (const column of list) {
        const own = gainOf(basis, column);
        if (own > gain) {
          gain = own;
          enters = column;
        }
      }
    }
    if (!enters || gain < good || step % ASK_EVERY === 0 || stop()) {
      if (!enters) refresh(basis);
      const values = prices(relaxation);
      const rents = rentsOf(relaxation);
      const floors = problem.kinds.map(({ cost }, t) =>
        stock[t] > 0 ? cost / unit + rents[t] : Number.POSITIVE_INFINITY,
      );
      const found = filler.best(values, left, floors, ROUNDING);
      if (!enters || stop()) bound = Math.max(bound, farley(relaxation, values, rents, found));
      for (const filling of found) {
        if (!filling || filling.value - floors[filling.pattern.kind] <= gain) continue;
        const column = columnOf(problem, unit, filling.pattern);
        pool.push(column);
        usable.push(column);
        gain = filling.value - floors[filling.pattern.kind];
        enters = column;
      }
      good = GOOD_PART * gain;
      if (bound > enough || stop()) return bound;
      if (!enters) {
        if (offered === surplus || !options.shortcuts) return bound;
        offered = surplus;
        // A shortcut now costs a whole bar, so that it goes.
        basis.columns.forEach((column, place) => {
          if (shortcuts.includes(column)) basis.columns[place] = { ...column, cost: 1 };
        });
        refresh(basis);
        continue;
      }
    }
    if (!enters || !bringIn(basis, enters)) return bound;
  }
}

/** The patterns of the solution and how much of each is cut, the most first. */
export function partsOf({ basis }: Relaxation): { readonly pattern: Pattern; readonly amount: number }[] {
  return basis.columns
    .flatMap((column, place) =>
      "pattern" in column && basis.level[place] > 1e-5
        ? [{ pattern: (column as PatternColumn).pattern, amount: basis.level[place] }]
        : [],
    )
    .sort((a, b) => b.amount - a.amount);
}

/** What a piece of each size is worth, in the relaxation's unit of cost. */
export function prices({ basis, problem }: Relaxation): Float64Array {
  return basis.dual.slice(0, problem.sizes.length).map((worth) => Math.max(0, worth));
}

/** What one more bar of each kind would save. */
function rentsOf({ basis, problem }: Relaxation): Float64Array {
  const rents = new Float64Array(problem.kinds.length);
  limitedKinds(problem).forEach((t, k) => {
    rents[t] = Math.max(0, basis.dual[problem.sizes.length + k]);
  });
  return rents;
}

/** A bound from any prices, by scaling them down until no filling is worth more than its bar and rent. */
function farley(
  { problem, left, stock, unit }: Relaxation,
  values: Float64Array,
  rents: Float64Array,
  found: readonly ({ readonly value: number } | undefined)[],
): number {
  let scale = 1;
  problem.kinds.forEach(({ cost, supply }, t) => {
    const filling = found[t];
    if (filling && !Number.isFinite(supply)) scale = Math.min(scale, cost / unit / filling.value);
  });
  let bound = 0;
  for (let i = 0; i < values.length; i++) bound += scale * values[i] * left[i];
  problem.kinds.forEach(({ cost, supply }, t) => {
    if (!Number.isFinite(supply) || stock[t] <= 0) return;
    const worth = found[t]?.value ?? cost / unit + rents[t];
    bound -= Math.max(0, scale * worth - cost / unit) * stock[t];
  });
  return bound * unit;
}

/** The basis that cuts one size a pattern and has bars of limited kinds left over. */
function plainBasis(
  problem: BarProblem,
  left: Int32Array,
  unit: number,
  wanted: Float64Array,
  work: { steps: number },
): Basis {
  const surplus = surplusColumns(wanted.length);
  const columns = surplus.map((column, row) =>
    row < left.length && left[row] > 0 ? columnOf(problem, unit, oneSize(problem, left, row)) : column,
  );
  return startBasis(columns, wanted, work);
}
