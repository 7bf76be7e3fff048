import type { Kit } from "../cutting/kit.ts";
import { cutLists } from "./cut-lists.ts";
import { printXlsx } from "./xlsx.ts";

/** The cut lists of a kit as one workbook, a sheet each, with the same heads and cells as the CSV files. Same kit, same bytes. */
export function cutListWorkbook(kit: Kit): Uint8Array {
  return printXlsx(cutLists(kit));
}
