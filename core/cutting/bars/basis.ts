import { invert } from "./inverse.ts";

/** A column of a linear programme: what it costs and, row by row, what it gives. */
export interface Column {
  readonly cost: number;
  readonly rows: readonly number[];
  readonly gives: readonly number[];
}

/**
 * The basis of a linear programme: least cost, such that each row is given at least `wanted`. Rows of the inverse lie
 * one after another. A place of the basis holds one column.
 */
export interface Basis {
  readonly columns: Column[];
  readonly wanted: Float64Array;
  readonly inverse: Float64Array;
  /** How much of each place's column is taken. */
  readonly level: Float64Array;
  /** What one more of each row would cost. */
  readonly dual: Float64Array;
  /** Steps taken so far, by this basis and those it shares the count with. */
  readonly count: { steps: number };
  /** False once rounding has made it useless. */
  sound: boolean;
}

/** Smaller figures are taken for rounding. */
export const ROUNDING = 1e-9;
const SMALLEST_PIVOT = 1e-6;
/** The inverse is worked out anew after so many steps, levels and duals from it more often. */
const RENEW = 400;
/** A larger one takes seconds to work out: it is left to its rounding, which costs solutions but no bound its truth. */
const MOST_RENEWED = 500;
const REFRESH = 64;

/** Makes a basis of one column a row, each giving to its own row only. */
export function startBasis(
  columns: readonly Column[],
  wanted: Float64Array,
  count: { steps: number },
): Basis {
  const n = columns.length;
  const basis: Basis = {
    columns: [...columns],
    wanted: wanted.slice(),
    inverse: new Float64Array(n * n),
    level: new Float64Array(n),
    dual: new Float64Array(n),
    count,
    sound: true,
  };
  columns.forEach(({ gives }, r) => {
    basis.inverse[r * n + r] = 1 / gives[0];
  });
  refresh(basis);
  return basis;
}

/** A basis that can be changed without changing the first. */
export function copyBasis(basis: Basis): Basis {
  return {
    columns: [...basis.columns],
    wanted: basis.wanted.slice(),
    inverse: basis.inverse.slice(),
    level: basis.level.slice(),
    dual: basis.dual.slice(),
    count: basis.count,
    sound: basis.sound,
  };
}

/** By how much a column is worth more than it costs. */
export function gainOf({ dual }: Basis, { cost, rows, gives }: Column): number {
  let gain = -cost;
  for (let k = 0; k < rows.length; k++) gain += gives[k] * dual[rows[k]];
  return gain;
}

/** Works out levels and duals from the inverse. */
export function refresh({ columns, wanted, inverse, level, dual }: Basis): void {
  const n = columns.length;
  dual.fill(0);
  for (let r = 0; r < n; r++) {
    const { cost } = columns[r];
    let sum = 0;
    for (let j = 0, at = r * n; j < n; j++, at++) {
      sum += inverse[at] * wanted[j];
      dual[j] += cost * inverse[at];
    }
    level[r] = sum;
  }
}

/** One primal step: brings a column in. False where nothing stops it from growing without end. */
export function bringIn(basis: Basis, column: Column): boolean {
  const { level } = basis;
  const change = expressed(basis, column);
  // Of the places that stop it within rounding the one is taken that changes most [P. M. J. Harris, "Pivot selection
  // methods of the Devex LP code", Mathematical Programming 5 (1973) 1-28].
  let most = Number.POSITIVE_INFINITY;
  for (let r = 0; r < change.length; r++) {
    if (change[r] > SMALLEST_PIVOT) most = Math.min(most, (Math.max(0, level[r]) + ROUNDING) / change[r]);
  }
  let leaves = -1;
  for (let r = 0; r < change.length; r++) {
    if (change[r] <= SMALLEST_PIVOT || Math.max(0, level[r]) / change[r] > most) continue;
    if (leaves < 0 || change[r] > change[leaves]) leaves = r;
  }
  if (leaves < 0) return false;
  exchange(basis, column, leaves, change);
  return true;
}

/**
 * Makes levels that have fallen below zero good again by dual steps, while the duals stay right for all columns
 * offered. False where the columns offered cannot, or `stop` ends it.
 */
export function makeGood(basis: Basis, offered: readonly Column[], stop: () => boolean): boolean {
  const { level, inverse } = basis;
  const n = level.length;
  refresh(basis);
  if (!basis.sound) return false;
  for (let step = 0; step < 10 * n && !stop(); step++) {
    let leaves = 0;
    for (let r = 1; r < n; r++) if (level[r] < level[leaves]) leaves = r;
    if (level[leaves] > -ROUNDING) return true;
    let enters: Column | undefined;
    let least = Number.POSITIVE_INFINITY;
    let steepest = 0;
    const row = leaves * n;
    for (const column of offered) {
      const { rows, gives } = column;
      let along = 0;
      for (let k = 0; k < rows.length; k++) along += gives[k] * inverse[row + rows[k]];
      if (along > -SMALLEST_PIVOT) continue;
      const ratio = Math.max(0, -gainOf(basis, column)) / -along;
      if (ratio < least - ROUNDING || (ratio < least + ROUNDING && along < steepest)) {
        least = Math.min(least, ratio);
        steepest = along;
        enters = column;
      }
    }
    if (!enters) return false;
    exchange(basis, enters, leaves, expressed(basis, enters));
  }
  return false;
}

/** What a column replaces of each column in the basis. */
function expressed({ inverse, level }: Basis, { rows, gives }: Column): Float64Array {
  const n = level.length;
  const change = new Float64Array(n);
  for (let k = 0; k < rows.length; k++) {
    const by = gives[k];
    for (let r = 0, at = rows[k]; r < n; r++, at += n) change[r] += by * inverse[at];
  }
  return change;
}

function exchange(basis: Basis, column: Column, leaves: number, change: Float64Array): void {
  const { columns, inverse, level, dual } = basis;
  const n = level.length;
  const gain = gainOf(basis, column);
  const pivot = change[leaves];
  const from = leaves * n;
  for (let j = from; j < from + n; j++) inverse[j] /= pivot;
  const amount = level[leaves] / pivot;
  for (let r = 0; r < n; r++) {
    const by = change[r];
    if (r === leaves || by === 0) continue;
    for (let j = 0, at = r * n; j < n; j++, at++) inverse[at] -= by * inverse[from + j];
    level[r] -= by * amount;
  }
  level[leaves] = amount;
  for (let j = 0; j < n; j++) dual[j] -= gain * inverse[from + j];
  columns[leaves] = column;
  basis.count.steps++;
  if (n <= MOST_RENEWED && basis.count.steps % RENEW === 0) {
    const renewed = invert(matrixOf(columns), n);
    if (renewed) inverse.set(renewed);
    else basis.sound = false;
  }
  if (basis.count.steps % REFRESH === 0) refresh(basis);
}

function matrixOf(columns: readonly Column[]): Float64Array {
  const n = columns.length;
  const matrix = new Float64Array(n * n);
  columns.forEach(({ rows, gives }, c) => {
    rows.forEach((row, k) => {
      matrix[row * n + c] += gives[k];
    });
  });
  return matrix;
}
