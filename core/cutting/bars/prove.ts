import type { BarProblem } from "./bar-problem.ts";
import type { Filler } from "./fill-bar.ts";

/**
 * What pieces are worth and what limited kinds earn in rent, in whole numbers of `scale` to a unit of cost, such that
 * no filling of any bar is worth more than the bar's cost and rent. Then every solution of `demand` and `supply`
 * costs at least `bound`, which is a whole number: nothing of it hangs on rounding.
 */
export interface Prices {
  readonly scale: number;
  readonly values: Float64Array;
  readonly rents: readonly number[];
  /** Worth of all that is wanted less the rent of all that there is, in scaled units. */
  readonly worth: number;
  /** The least whole cost. */
  readonly bound: number;
}

/** Sums of prices stay below this, so that they are exact and half a unit is more than any rounding. */
const EXACT = 2 ** 49;

/**
 * Turns prices that are right but for rounding (a linear programme's duals, in units of cost) into prices that are
 * right: rounds them down to whole numbers, fills a bar of each kind by them exactly, and takes off what is too much
 * [the idea is weak duality, with rounded duals as in G. Belov, G. Scheithauer, "A branch-and-cut-and-price algorithm
 * for one-dimensional stock cutting and two-dimensional two-stage cutting", European J. of Operational Research 171
 * (2006) 85-106]. `most` is a cost that the bound does not exceed.
 */
export function provenPrices(
  problem: BarProblem,
  demand: Int32Array,
  supply: readonly number[],
  filler: Filler,
  values: Float64Array,
  most: number,
): Prices {
  const { kinds } = problem;
  const dearest = Math.max(most, ...kinds.map(({ cost }) => cost));
  const scale = 2 ** Math.max(0, Math.floor(Math.log2(EXACT / (dearest + 1))));
  const whole = values.map((value) => Math.floor(Math.max(0, value) * scale));
  for (;;) {
    const floors = kinds.map(({ cost }, t) => (supply[t] > 0 ? cost * scale : Number.POSITIVE_INFINITY));
    const found = filler.best(whole, demand, floors, 0.5);
    let over = 1;
    const rents = kinds.map(({ cost }, t) => {
      const filling = found[t];
      if (!filling) return 0;
      if (Number.isFinite(supply[t])) return filling.value - cost * scale;
      over = Math.max(over, filling.value / (cost * scale));
      return 0;
    });
    if (over === 1) {
      const paid = rents.reduce((sum, rent, t) => sum + (rent > 0 ? rent * supply[t] : 0), 0);
      const worth = whole.reduce((sum, value, i) => sum + value * demand[i], 0) - paid;
      return { scale, values: whole, rents, worth, bound: Math.max(0, Math.ceil(worth / scale)) };
    }
    for (let i = 0; i < whole.length; i++) whole[i] = Math.floor(whole[i] / (over * (1 + 1e-12)));
  }
}
