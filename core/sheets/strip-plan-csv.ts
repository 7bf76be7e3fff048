import type { LotPiece, MaterialDemand } from "../cutting/lots/demand.ts";
import { downToTenth } from "../cutting/lots/rest-length.ts";
import type { StripPlan } from "../cutting/lots/strips.ts";
import { type Cell, printCsv } from "./csv.ts";

const heads = [
  "material",
  "bars",
  "stock",
  "stockLengthMm",
  "missing",
  "place",
  "fromMm",
  "lengthMm",
  "project",
  "piece",
  "restMm",
  "keepRest",
  "firstEnd",
  "lastEnd",
  "bevelDeg",
];

/**
 * The plan for the saw, a row a piece: `bars` is how many bars are cut in this way, `place` counts the pieces of a
 * bar from its beginning; the rest is that of the bar.
 */
export function stripPlanCsv(plans: readonly StripPlan[], demand: readonly MaterialDemand[]): string {
  const pieces = new Map(demand.flatMap((each) => each.pieces.map((piece) => [piece.id, piece])));
  const rows = plans.flatMap(({ material, plan }) =>
    plan.bars.flatMap(({ stock, lengthMm, lacking, times, cuts, restMm, keep }) =>
      cuts.map(({ id, lengthMm: own, fromMm }, k): Cell[] => [
        material,
        times,
        stock,
        lengthMm,
        lacking ? "yes" : "no",
        k + 1,
        tenths(fromMm),
        tenths(own),
        pieces.get(id)?.model ?? "",
        pieces.get(id)?.name ?? id,
        downToTenth(restMm),
        keep ? "yes" : "no",
        ...sawCells(pieces.get(id)?.saw),
      ]),
    ),
  );
  return printCsv(heads, rows);
}

const sawCells = (saw: LotPiece["saw"]): Cell[] => (saw ? [...saw.ends, saw.bevelDeg] : ["", "", ""]);

const tenths = (mm: number) => Number(mm.toFixed(1)) + 0;
