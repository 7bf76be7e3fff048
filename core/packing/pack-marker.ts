import { type GridOrder, putOnGrid } from "./demand.ts";
import { handCut } from "./hand-cut.ts";
import { faultOf, type MarkerOrder, type MarkerPlan } from "./order.ts";
import { USUAL_STEPS } from "./sets.ts";
import { freeCut, isLaidInGroups } from "./table-cut.ts";

/**
 * Whether a plan was wanted, and what is wrong with the order otherwise. `inGroups`: its pieces are so many that they were laid in groups, and not yet
 * improved all together.
 */
export type Packed =
  | { readonly ok: true; readonly plan: MarkerPlan; readonly inGroups: boolean }
  | { readonly ok: false; readonly why: string };

/** When to stop, and who wants to hear of better plans. */
export interface Course {
  /** Asked after every step; the first plan is always finished. */
  readonly until: (steps: number) => boolean;
  /** Told of every better plan, with the number of steps that it took. */
  readonly onBest?: (plan: MarkerPlan, steps: number) => void;
}

/**
 * Lays out the pieces of an order on its stock, better and better until `until` says stop. The order's seed and the number of
 * steps alone decide the plan; a clock may only decide when to stop. A caller that must do other things in between, such as
 * answering a press of "stop", takes `markerSteps` and calls `next` when it likes.
 */
export function packMarker(order: MarkerOrder, { until, onBest }: Course): Packed {
  const why = faultOf(order);
  if (why !== null) return { ok: false, why };
  const onGrid = putOnGrid(order);
  let best: MarkerPlan | null = null;
  let count = 0;
  for (const plan of stepsOn(onGrid)) {
    count++;
    if (plan) {
      best = plan;
      onBest?.(plan, count);
    }
    if (best && until(count))
      return { ok: true, plan: best, inGroups: count <= USUAL_STEPS && isLaidInGroups(onGrid) };
  }
  throw new Error("the steps of a marker never end");
}

/**
 * The same as steps, for an order without fault (`faultOf`): each `next` is a bounded piece of work, of some milliseconds,
 * and gives a plan when it has found a better one.
 */
export function markerSteps(order: MarkerOrder): Generator<MarkerPlan | null, never> {
  return stepsOn(putOnGrid(order));
}

const stepsOn = (order: GridOrder) => (order.way === "hand" ? handCut(order) : freeCut(order));
