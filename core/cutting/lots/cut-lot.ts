import { cuttingOf, type Lot, type LotCutting } from "../../project/lot-schema.ts";
import { demandOf, type MaterialDemand } from "./demand.ts";
import { markerDoubts, markerFindings, strayStock, stripFindings } from "./findings.ts";
import type { LotModel } from "./lot-model.ts";
import { type MarkerSet, planMarkers } from "./markers.ts";
import { barUse, keptRests, type MaterialUse, markerUse } from "./stock-use.ts";
import { planStrips, type StripPlan } from "./strips.ts";
import type { Watch } from "./watch.ts";

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

export interface CutLotOptions {
  /** Steps of improvement of each marker. */
  readonly steps: number;
  readonly watch: Watch;
}

/**
 * Cuts a lot: pieces of all models together, material by material, on the lot's stock. Nothing is lost: what does not
 * fit, or for which stock is missing, is told in `findings`. The same lot and steps give the same result, unless the
 * watch ends the work.
 */
export function cutLot(
  models: readonly LotModel[],
  lot: Pick<Lot, "name" | "stock" | "cutting">,
  { steps, watch }: CutLotOptions,
): CutLot {
  const cutting = cuttingOf(lot.cutting);
  const kerf = Math.max(0, ...models.map(({ project }) => project.shop.kerf));
  const demand = demandOf(models);
  const strips: StripPlan[] = [];
  const markers: MarkerSet[] = [];
  const use: MaterialUse[] = [];
  const rests = { rolls: [] as Rest[], sheets: [] as Rest[], bars: [] as Rest[] };
  const findings = strayStock(lot.stock, models);
  const doubts: string[] = [];
  for (const each of demand) {
    if (each.material.kind === "strip") {
      const plan = planStrips(each, lot.stock.bars, cutting, kerf, watch);
      strips.push(plan);
      use.push(barUse(each, plan, lot.stock.bars));
      rests.bars.push(...keptRests(each, { strips: plan }, cutting));
      findings.push(...stripFindings(plan));
    } else {
      const list = each.material.kind === "sheet" ? "sheets" : "rolls";
      const plan = planMarkers(each, lot.stock[list], cutting, steps, watch);
      markers.push(plan);
      use.push(markerUse(each, plan, lot.stock[list], cutting));
      rests[list].push(...keptRests(each, { markers: plan }, cutting));
      findings.push(...markerFindings(each, plan, lot.stock[list]));
      doubts.push(...markerDoubts(plan));
    }
  }
  return { name: lot.name, models, cutting, demand, strips, markers, use, rests, findings, doubts };
}
