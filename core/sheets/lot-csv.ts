import { alikeMarkers } from "../cutting/lots/alike-markers.ts";
import type { CutLot } from "../cutting/lots/cut-lot.ts";
import { shownCost } from "../cutting/lots/stock-use.ts";
import { type Cell, printCsv } from "./csv.ts";
import { cutListFiles } from "./cut-list-csv.ts";
import { fileNamesFor } from "./file-names.ts";
import { stripPlanText } from "./strip-plan.ts";
import { stripPlanCsv } from "./strip-plan-csv.ts";

/**
 * The lists of a lot, one text a file name: demand, use of stock, strip plan, where pieces lie, and the cut lists of
 * each model.
 */
export function lotFiles(lot: CutLot): ReadonlyMap<string, string> {
  const names = fileNamesFor(lot.models.map(({ label }) => label));
  return new Map([
    ["demand.csv", demandCsv(lot)],
    ["stock-use.csv", stockUseCsv(lot)],
    ["markers.csv", markersCsv(lot)],
    ["strip-plan.csv", stripPlanCsv(lot.strips, lot.demand)],
    ["strip-plan.txt", stripPlanText(lot.name, lot.strips, lot.demand)],
    ...lot.models.flatMap(({ kit }, i) =>
      [...cutListFiles(kit)].map(([file, text]) => [`${names[i]}-${file}`, text] as const),
    ),
  ]);
}

/** Every piece of the lot, for all shells of its model. */
function demandCsv({ demand }: CutLot): string {
  const heads = ["material", "project", "piece", "quantityForAll", "lengthMm", "widthMm", "areaM2", "massKg"];
  const rows = demand.flatMap(({ material, pieces }) =>
    pieces.map(({ model, name, quantity, lengthMm, widthMm, areaMm2, massKg }): Cell[] => [
      material.id,
      model,
      name,
      quantity,
      rounded(lengthMm, 1),
      rounded(widthMm, 1),
      rounded(areaMm2 / 1e6, 4),
      rounded(massKg, 3),
    ]),
  );
  return printCsv(heads, rows);
}

function stockUseCsv({ use }: CutLot): string {
  const heads = ["material", "stock", "kind", "remnant", "number", "lengthMm", "areaM2", "cost"];
  const rows = use.flatMap(({ uses }) =>
    uses.map((each): Cell[] => {
      const { material, stock, kind, remnant, number, lengthMm, areaMm2 } = each;
      const cost = shownCost(each);
      return [
        material,
        stock,
        kind,
        remnant ? "yes" : "no",
        number,
        rounded(lengthMm, 1),
        rounded(areaMm2 / 1e6, 4),
        cost === undefined ? "" : rounded(cost, 2),
      ];
    }),
  );
  return printCsv(heads, rows);
}

/** Where each piece of cloth and of sheet lies: mm from the corner of its roll or sheet, x along it; `number` rolls or sheets are cut alike. */
function markersCsv({ markers, demand }: CutLot): string {
  const heads = [
    "material",
    "marker",
    "number",
    "stock",
    "project",
    "piece",
    "turnDeg",
    "mirrored",
    "xMm",
    "yMm",
  ];
  const pieces = new Map(demand.flatMap((each) => each.pieces.map((piece) => [piece.id, piece])));
  const rows = markers.flatMap(({ material, plan }) =>
    alikeMarkers(plan.markers).flatMap(({ marker: { stock, placements }, first, times }) =>
      placements.map(({ piece, turnDeg, mirrored, xMm, yMm }): Cell[] => [
        material,
        first,
        times,
        stock,
        pieces.get(piece)?.model ?? "",
        pieces.get(piece)?.name ?? piece,
        turnDeg,
        mirrored ? "yes" : "no",
        rounded(xMm, 1),
        rounded(yMm, 1),
      ]),
    ),
  );
  return printCsv(heads, rows);
}

const rounded = (value: number, decimals: number) => Number(value.toFixed(decimals)) + 0;
