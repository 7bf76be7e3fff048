import type { CutLot } from "../cutting/lots/cut-lot.ts";
import { shownCost } from "../cutting/lots/stock-use.ts";
import { counted } from "../units/counted.ts";
import { fixed } from "../units/print.ts";
import { CLOTH_NOTE } from "./cloth-note.ts";
import { harmless } from "./harmless.ts";
import { verdict } from "./strip-plan.ts";
import { findings, printTable, section } from "./table.ts";

/** What a model of a lot wants looked at, what of it cannot be cut, or why it is left out. */
export interface ModelWords {
  readonly model: string;
  readonly says: string;
}

/**
 * The lot for people: its models, the demand by material, what stock is used how well, the strips, and what to look
 * at first.
 */
export function lotTables(
  lot: CutLot,
  { leftOut, uncut, doubts }: { readonly [list in "leftOut" | "uncut" | "doubts"]: readonly ModelWords[] },
): string {
  const told = ({ model, says }: ModelWords) => `${harmless(model)}: ${says}`;
  const parts = [
    `${harmless(lot.name)}: lot of ${counted(
      lot.models.reduce((sum, { kit }) => sum + kit.shells, 0),
      "shell",
    )}\n`,
    section("Models", modelTable(lot)),
    section(`Demand for the whole lot${unsawn(lot)}`, demandTable(lot)),
    section("Stock used", stockTable(lot)),
    section("Strips", stripLines(lot)),
    section("Rests to keep (mm)", restTable(lot)),
    findings("Left out of the lot", leftOut.map(told)),
    findings("Missing, or not as the lot has it", lot.findings.map(harmless)),
    findings("Cannot be cut as it is listed", uncut.map(told)),
    findings("To look at", [...lot.doubts.map(harmless), ...doubts.map(told)]),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function modelTable({ models }: CutLot): string {
  if (models.length === 0) return "";
  return printTable(
    [
      { head: "model" },
      { head: "shells", align: "right" },
      { head: "cloth", align: "right" },
      { head: "strips", align: "right" },
      { head: "sheets", align: "right" },
    ],
    models.map(({ label, kit }) => {
      const count = (list: readonly { readonly quantity: number }[]) =>
        `${kit.shells * list.reduce((sum, { quantity }) => sum + quantity, 0)}`;
      return [harmless(label), `${kit.shells}`, count(kit.pieces), count(kit.strips), count(kit.sheets)];
    }),
  );
}

/** What the lengths of strips are without: the totals of a kit have it in them. */
function unsawn({ demand }: CutLot): string {
  return demand.some(({ material }) => material.kind === "strip")
    ? " (length of strips without saw kerfs)"
    : "";
}

function demandTable({ demand }: CutLot): string {
  if (demand.length === 0) return "";
  const table = printTable(
    [
      { head: "material" },
      { head: "pieces", align: "right" },
      { head: "area m²", align: "right" },
      { head: "length m", align: "right" },
      { head: "mass kg", align: "right" },
    ],
    demand.map(({ material, totals }) => [
      material.name,
      `${totals.pieces}`,
      fixed(totals.areaMm2 / 1e6, 3),
      totals.lengthMm > 0 ? fixed(totals.lengthMm / 1000, 2) : "",
      fixed(totals.massKg, 2),
    ]),
  );
  return demand.some(({ material }) => material.kind === "woven") ? table + CLOTH_NOTE : table;
}

/** Under the stock used: its parts in the hundred are of other figures than those above them. */
const USED_NOTE =
  "  Used %: m² of the pieces as in the demand, cloth as it lies on the shell;\n" +
  "  of the m² cut into, less rests that are kept.\n";

function stockTable({ use }: CutLot): string {
  const rows = use.flatMap(({ uses, piecesMm2, usedMm2 }) =>
    uses.map((each, i) => {
      const { material, stock, kind, remnant, number, lengthMm, areaMm2 } = each;
      const cost = shownCost(each);
      return [
        i === 0 ? material : "",
        `${stock}${remnant ? " (remnant)" : ""}`,
        counted(number, kind),
        // Nobody lays sheets end to end.
        kind === "sheet" ? "" : fixed(lengthMm / 1000, 2),
        fixed(areaMm2 / 1e6, 2),
        i === 0 ? fixed((100 * piecesMm2) / usedMm2, 1) : "",
        cost === undefined ? "" : fixed(cost, 2),
      ];
    }),
  );
  if (rows.length === 0) return "";
  const table = printTable(
    [
      { head: "material" },
      { head: "stock" },
      { head: "number", align: "right" },
      { head: "length m", align: "right" },
      { head: "m²", align: "right" },
      { head: "used %", align: "right" },
      { head: "cost", align: "right" },
    ],
    rows,
  );
  return table + USED_NOTE;
}

function stripLines({ strips }: CutLot): string {
  return strips.map(({ material, plan }) => `  ${material}: ${verdict(plan)}\n`).join("");
}

function restTable({ rests }: CutLot): string {
  const all = [...rests.rolls, ...rests.sheets, ...rests.bars];
  if (all.length === 0) return "";
  return printTable(
    [
      { head: "material" },
      { head: "length", align: "right" },
      { head: "width", align: "right" },
      { head: "number", align: "right" },
    ],
    all.map(({ material, length, width, count }) => [
      material,
      fixed(length, 1),
      width === undefined ? "" : fixed(width, 0),
      `${count}`,
    ]),
  );
}
