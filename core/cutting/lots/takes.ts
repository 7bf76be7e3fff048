import type { MarkerPlan } from "../../packing/order.ts";
import type { Material } from "../../project/schema.ts";
import { counted } from "../../units/counted.ts";
import { fixed } from "../../units/print.ts";
import type { BarMeasure, BarPlan } from "../bars/bar-plan.ts";

/** What a plan takes of a material's rolls or sheets, in words: `43.1 m of roll`, `3 sheets`. */
export function markersTake({ kind }: Material, { markers }: MarkerPlan): string {
  if (kind === "sheet") return counted(markers.length, "sheet");
  return `${fixed(markers.reduce((sum, { usedMm }) => sum + usedMm, 0) / 1000, 1)} m of roll`;
}

/** What bars come to in the measure of their plan, in words: `12 bars`, `29.28 m of bars`. */
export function barsCost(measure: BarMeasure, cost: number): string {
  if (measure === "bars") return counted(cost, "bar");
  return measure === "mm" ? `${fixed(cost / 1000, 2)} m of bars` : `${fixed(cost, 2)} for bars`;
}

/** What a plan takes of a material's bars, in words: `12 bars`. */
export function barsTake({ bars }: BarPlan): string {
  return counted(
    bars.reduce((sum, { times }) => sum + times, 0),
    "bar",
  );
}
