import type { LotCutting, LotStock } from "../../project/lot-schema.ts";
import type { MaterialDemand } from "./demand.ts";
import { type MarkerSet, planMarkers } from "./markers.ts";
import { planStrips, type StripPlan } from "./strips.ts";
import type { Watch } from "./watch.ts";

/** What there is to plan of one material: plain data, and all that its plan hangs on. */
export interface MaterialTask {
  readonly demand: MaterialDemand;
  readonly stock: LotStock;
  readonly cutting: LotCutting;
  /** The saw's where the lot does not tell it, mm. */
  readonly kerf: number;
}

/** How a material's pieces are cut from bars, or lie on rolls or sheets. */
export type MaterialPlan =
  | (StripPlan & { readonly kind: "strips" })
  | (MarkerSet & { readonly kind: "markers" });

/** A material of which no plan could be made, and why: a sentence. */
export interface Unplanned {
  readonly kind: "unplanned";
  readonly says: string;
}

/** How long a plan is improved. */
export interface PlanCourse {
  /** Steps of improvement of each marker. */
  readonly steps: number;
  readonly watch: Watch;
}

/** Plans one material of a lot; the same task and steps give the same plan, unless the watch ends the work. */
export function planMaterial(
  { demand, stock, cutting, kerf }: MaterialTask,
  { steps, watch }: PlanCourse,
): MaterialPlan {
  const { kind } = demand.material;
  if (kind === "strip")
    return { kind: "strips", ...planStrips(demand, stock.bars, cutting, kerf, steps, watch) };
  const list = kind === "sheet" ? stock.sheets : stock.rolls;
  return { kind: "markers", ...planMarkers(demand, list, cutting, steps, watch) };
}
