import { cuttingOf, type Lot, type LotCutting } from "../../project/lot-schema.ts";
import { demandOf, type MaterialDemand } from "./demand.ts";
import { markerDoubts, markerFindings, strayStock, stripFindings } from "./findings.ts";
import type { LotModel } from "./lot-model.ts";
import type { MarkerSet } from "./markers.ts";
import {
  type MaterialPlan,
  type MaterialTask,
  type PlanCourse,
  planMaterial,
  type Unplanned,
} from "./plan-material.ts";
import { barUse, keptRests, type MaterialUse, markerUse } from "./stock-use.ts";
import type { StripPlan } from "./strips.ts";

/** A lot as it is cut: what is wanted, from what it is cut and how, and what is left or missing. */
export interface CutLot {
  readonly name: string;
  readonly models: readonly LotModel[];
  readonly cutting: LotCutting;
  readonly demand: readonly MaterialDemand[];
  readonly strips: readonly StripPlan[];
  readonly markers: readonly MarkerSet[];
  readonly use: readonly MaterialUse[];
  /** Rests that are kept, in the words of a lot file, for the next lot's stock. */
  readonly rests: {
    readonly rolls: readonly Rest[];
    readonly sheets: readonly Rest[];
    readonly bars: readonly Rest[];
  };
  /** What is missing or does not fit, a sentence each. */
  readonly findings: readonly string[];
  /** What to look at before cutting, a sentence each. */
  readonly doubts: readonly string[];
}

export type Rest = ReturnType<typeof keptRests>[number];

/** What of a lot file says how and from what it is cut. */
export type LotToCut = Pick<Lot, "name" | "stock" | "cutting">;

/**
 * Cuts a lot: pieces of all models together, material by material, on the lot's stock. Nothing is lost: what does not
 * fit, or for which stock is missing, is told in `findings`. The same lot and steps give the same result, unless the
 * watch ends the work.
 */
export function cutLot(models: readonly LotModel[], lot: LotToCut, course: PlanCourse): CutLot {
  return lotOf(
    models,
    lot,
    materialTasks(models, lot).map((task) => planMaterial(task, course)),
  );
}

/** What there is to plan for a lot, a task for each material; no task hangs on another. */
export function materialTasks(models: readonly LotModel[], lot: LotToCut): MaterialTask[] {
  const cutting = cuttingOf(lot.cutting);
  const kerf = Math.max(0, ...models.map(({ project }) => project.shop.kerf));
  return demandOf(models).map((demand) => ({ demand, stock: lot.stock, cutting, kerf }));
}

/** The lot of which all materials are planned, their plans in the order of `materialTasks`. */
export function lotOf(
  models: readonly LotModel[],
  lot: LotToCut,
  plans: readonly (MaterialPlan | Unplanned)[],
): CutLot {
  const cutting = cuttingOf(lot.cutting);
  const { stock } = lot;
  const demand = demandOf(models);
  const strips: StripPlan[] = [];
  const markers: MarkerSet[] = [];
  const use: MaterialUse[] = [];
  const rests = { rolls: [] as Rest[], sheets: [] as Rest[], bars: [] as Rest[] };
  const findings = strayStock(stock, models);
  const doubts: string[] = [];
  for (const [i, each] of demand.entries()) {
    const plan = plans[i];
    if (plan.kind === "unplanned") {
      findings.push(`${each.material.id} is not laid out. ${plan.says}`);
    } else if (plan.kind === "strips") {
      strips.push(plan);
      use.push(barUse(each, plan, stock.bars));
      rests.bars.push(...keptRests(each, { strips: plan }, cutting));
      findings.push(...stripFindings(plan));
    } else {
      const list = each.material.kind === "sheet" ? "sheets" : "rolls";
      markers.push(plan);
      use.push(markerUse(each, plan, stock[list], cutting));
      rests[list].push(...keptRests(each, { markers: plan }, cutting));
      findings.push(...markerFindings(each, plan, stock[list], cutting));
      doubts.push(...markerDoubts(plan));
    }
  }
  return { name: lot.name, models, cutting, demand, strips, markers, use, rests, findings, doubts };
}
