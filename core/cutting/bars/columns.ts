import type { BarProblem, Pattern } from "./bar-problem.ts";
import type { Column } from "./basis.ts";

/** The column of a pattern in the relaxation. */
export interface PatternColumn extends Column {
  readonly pattern: Pattern;
}

/** The kinds that have rows of their own, in their order. */
export function limitedKinds({ kinds }: BarProblem): number[] {
  return kinds.flatMap(({ supply }, t) => (Number.isFinite(supply) ? [t] : []));
}

/** The cheapest way to cut one size alone from a kind of unlimited supply. */
export function oneSize({ sizes, kinds }: BarProblem, demand: Int32Array, size: number): Pattern {
  let best: Pattern | undefined;
  let most = 0;
  kinds.forEach(({ capacity, cost, supply }, kind) => {
    const times = Math.min(demand[size], Math.floor(capacity / sizes[size]));
    if (Number.isFinite(supply) || times === 0 || times / cost <= most) return;
    most = times / cost;
    best = { kind, items: new Array<number>(times).fill(size) };
  });
  if (!best) throw new RangeError(`A piece that takes ${sizes[size]} fits no bar of unlimited supply.`);
  return best;
}

/** A pattern as a column: rows are the sizes, then the kinds of limited supply; costs are counted in `unit`. */
export function columnOf(problem: BarProblem, unit: number, pattern: Pattern): PatternColumn {
  const { items, kind } = pattern;
  const rows = [...new Set(items)];
  const gives = rows.map((row) => items.filter((item) => item === row).length);
  const rent = limitedKinds(problem).indexOf(kind);
  if (rent >= 0) {
    rows.push(problem.sizes.length + rent);
    gives.push(-1);
  }
  return { cost: problem.kinds[kind].cost / unit, rows, gives, pattern };
}

/** Whether a pattern can be cut at least once from what is left. */
export function fits(left: Int32Array, stock: readonly number[], column: PatternColumn): boolean {
  const { rows, gives, pattern } = column;
  if (stock[pattern.kind] <= 0) return false;
  for (let k = 0; k < rows.length; k++) if (rows[k] < left.length && gives[k] > left[rows[k]]) return false;
  return true;
}

/** One for each row: what is given beyond what is wanted. */
export function surplusColumns(rows: number): Column[] {
  return Array.from({ length: rows }, (_, row) => ({ cost: 0, rows: [row], gives: [-1] }));
}

/** A longer piece stands for the next shorter one. */
export function shortcutColumns(sizes: number): Column[] {
  return Array.from({ length: sizes - 1 }, (_, i) => ({ cost: 0, rows: [i, i + 1], gives: [-1, 1] }));
}
