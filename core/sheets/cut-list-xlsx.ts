import type { Kit } from "../cutting/kit.ts";
import { type CutList, cutLists } from "./cut-lists.ts";
import { printXlsx, type SheetOfCells } from "./xlsx.ts";

/**
 * The cut lists of a kit as one workbook, a sheet each: the cells of the CSV files under heads in words, without the corners of outlines,
 * which nobody reads in a cell. Same kit, same bytes.
 */
export function cutListWorkbook(kit: Kit): Uint8Array {
  return printXlsx(cutLists(kit).map(forPeople));
}

function forPeople({ name, words, rows }: CutList): SheetOfCells {
  return {
    name,
    heads: words.filter((word) => word !== null),
    rows: rows.map((cells) => cells.filter((_, column) => words[column] !== null)),
  };
}
