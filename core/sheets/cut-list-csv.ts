import type { Kit } from "../cutting/kit.ts";
import { printCsv } from "./csv.ts";
import { cutLists } from "./cut-lists.ts";

/** The cut lists of a kit, one text a file name. Same kit, same text. */
export function cutListFiles(kit: Kit): ReadonlyMap<string, string> {
  return new Map(cutLists(kit).map(({ file, heads, rows }) => [`${file}.csv`, printCsv(heads, rows)]));
}
