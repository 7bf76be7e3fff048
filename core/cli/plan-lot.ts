import { type CutLot, type LotToCut, lotOf, materialTasks } from "../cutting/lots/cut-lot.ts";
import type { LotModel } from "../cutting/lots/lot-model.ts";
import type { Crew } from "./crew.ts";

/** Cuts a lot of models, its materials shared out among the hands of a crew: each for `seconds`, or for the usual number of steps. */
export async function planLot(
  models: readonly LotModel[],
  lot: LotToCut,
  seconds: number | undefined,
  { hands }: Crew,
): Promise<CutLot> {
  const plans = materialTasks(models, lot).map((task, i) => hands[i % hands.length]("plan", task, seconds));
  return lotOf(models, lot, await Promise.all(plans));
}
