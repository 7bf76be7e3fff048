import { type LotCutting, type LotStock, leastStock } from "../../project/lot-schema.ts";
import type { BarPlan, BarStock } from "../bars/bar-plan.ts";
import { cutBars } from "../bars/cut-bars.ts";
import type { MaterialDemand } from "./demand.ts";
import { barsCost } from "./takes.ts";
import type { Watch } from "./watch.ts";

/** How the strips of one material are cut from bars. */
export interface StripPlan {
  readonly material: string;
  readonly plan: BarPlan;
  /**
   * Whether the lot's stock lists no bar of the material: then the plan is for bars of the project's own length, all
   * missing.
   */
  readonly noStock: boolean;
  /** What the saw takes between two pieces, mm. */
  readonly kerfMm: number;
}

/** Costs are compared as areas, of which a mm² is none. */
const MM2 = 1000;

/** Plans the strips of a material, without end where `steps` are; `kerf`: the saw's where the lot does not tell it, mm. */
export function planStrips(
  { material, pieces }: MaterialDemand,
  bars: LotStock["bars"],
  cutting: LotCutting,
  kerf: number,
  steps: number,
  watch: Watch,
): StripPlan {
  const own = bars.filter((bar) => bar.material === material.id);
  const stock = own.map(
    ({ id, length, count, price, remnant }): BarStock => ({
      id,
      lengthMm: length,
      ...(count !== undefined && { quantity: count }),
      ...(price !== undefined && { price }),
      ...(remnant && { remnant }),
    }),
  );
  const stockLength = material.kind === "strip" ? material.stockLength : 0;
  const assumed: BarStock = { id: material.id, lengthMm: stockLength, quantity: 0 };
  const kerfMm = cutting.kerf ?? kerf;
  const options = {
    kerfMm,
    endTrimMm: cutting.endTrim,
    keepFromMm: Math.max(cutting.keepFrom, leastStock.bar),
  };
  const demands = pieces.map(({ id, lengthMm, quantity }) => ({ id, lengthMm, quantity }));
  const doing = `cutting strips of ${material.id}`;
  watch.onStage(doing);
  const plan = cutBars(demands, own.length > 0 ? stock : [assumed], {
    ...options,
    // By the clock there is no other end than its own, or that the plan is proved.
    ...(steps === Number.POSITIVE_INFINITY && { effort: steps }),
    stop: () => {
      watch.onPart(doing);
      return watch.stop();
    },
    onBetter: (cost, bound, measure) =>
      watch.onBetter({
        material: material.id,
        takes: `${barsCost(measure, cost)}${cost > bound ? `, ${barsCost(measure, bound)} at the least` : ""}`,
        cost: [0, MM2 * cost, -MM2 * bound],
      }),
  });
  return { material: material.id, plan, noStock: own.length === 0, kerfMm };
}
