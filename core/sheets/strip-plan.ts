import type { BarCut, BarPlan } from "../cutting/bars/bar-plan.ts";
import type { LotPiece, MaterialDemand } from "../cutting/lots/demand.ts";
import { downToTenth } from "../cutting/lots/rest-length.ts";
import type { StripPlan } from "../cutting/lots/strips.ts";
import { barsCost } from "../cutting/lots/takes.ts";
import { counted } from "../units/counted.ts";
import { fixed } from "../units/print.ts";
import { harmless } from "./harmless.ts";
import { printTable } from "./table.ts";

/**
 * The plan for the saw: for each material which bars are cut how, where each piece begins on its bar, and what rest
 * is kept, and how the ends of each piece are cut. Lengths in mm, to the tenth.
 */
export function stripPlanText(
  lot: string,
  plans: readonly StripPlan[],
  demand: readonly MaterialDemand[],
): string {
  const saws = new Map(demand.flatMap(({ pieces }) => pieces.map(({ id, saw }) => [id, saw])));
  const texts = plans.map((plan) => materialText(plan, (id) => endWords(saws.get(id))));
  return [`${harmless(lot)}: strips from bars\n`, ...texts].join("\n");
}

/** `bevel 40°`: both ends; `bevel 40°, butt`: the end at which it begins on its bar first. */
function endWords(saw: LotPiece["saw"]): string {
  if (!saw) return "";
  const [first, last] = saw.ends.map((end) => (end === "bevel" ? `bevel ${fixed(saw.bevelDeg, 0)}°` : end));
  return first === last ? first : `${first}, ${last}`;
}

/** A sentence on how good a plan is, with what proves it; of one that saws nothing there is nothing to prove. */
export function verdict({ measure, cost, bound, bars, tooLong }: BarPlan): string {
  if (bars.length === 0 && tooLong.length > 0) return "no strip is sawn: all are too long for any bar";
  const number = (counts: (bar: BarCut) => boolean) =>
    bars.reduce((sum, bar) => sum + (counts(bar) ? bar.times : 0), 0);
  const lacking = number((bar) => bar.lacking);
  const remnants = number((bar) => bar.remnant && !bar.lacking);
  if (cost === 0 && remnants > 0)
    return `${counted(remnants, "remnant")} and no new bar, proved to be the least`;
  const beside = remnants > 0 ? ` and ${counted(remnants, "remnant")}` : "";
  const all = `${barsCost(measure, cost)}${lacking > 0 ? ` (with ${counted(lacking, "missing bar")})` : ""}${beside}`;
  if (cost - bound < 1e-6) return `${all}, proved to be the least`;
  const are = measure === "bars" && bound === 1 ? "is" : "are";
  return `${all}; at least ${barsCost(measure, bound)} ${are} needed (gap ${fixed((100 * (cost - bound)) / cost, 2)} %)`;
}

function materialText({ material, plan, kerfMm }: StripPlan, ends: (id: string) => string): string {
  const { barsMm, piecesMm, sawMm, keptMm, wasteMm } = plan.lengths;
  const metres = (mm: number) => `${fixed(mm / 1000, 2)} m`;
  return [
    `${material}: ${verdict(plan)}`,
    `  ${metres(barsMm)} of bars: pieces ${metres(piecesMm)}, saw ${metres(sawMm)} (kerf ${kerfMm} mm and end trim), ` +
      `kept ${metres(keptMm)}, waste ${metres(wasteMm)}`,
    cutTable(plan.bars, ends),
  ].join("\n");
}

function cutTable(bars: readonly BarCut[], ends: (id: string) => string): string {
  if (bars.length === 0) return "";
  let number = 0;
  const rows = bars.flatMap(({ stock, lengthMm, lacking, times, cuts, restMm, keep }) => {
    const first = number + 1;
    number += times;
    const which = times === 1 ? `${first}` : `${first}–${number}`;
    const head = [which, `${stock}, ${lengthMm} mm${lacking ? ", missing" : ""}`, "", "", ""];
    const left = downToTenth(restMm);
    const rest = ["", keep ? "rest, keep" : "rest", fixed(lengthMm - left, 1), fixed(left, 1), ""];
    return [
      head,
      ...cuts.map(({ id, fromMm, lengthMm: own }) => [
        "",
        harmless(id),
        fixed(fromMm, 1),
        fixed(own, 1),
        ends(id),
      ]),
      ...(left > 0 ? [rest] : []),
    ];
  });
  return printTable(
    [
      { head: "bars" },
      { head: "piece" },
      { head: "begins at", align: "right" },
      { head: "length", align: "right" },
      { head: "ends" },
    ],
    rows,
  );
}
