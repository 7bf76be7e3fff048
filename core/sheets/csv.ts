/** Comma-separated files that a spreadsheet opens as they are meant. */

export type Cell = string | number;

/** Beginnings that make a spreadsheet take a cell's words for a formula; the wide forms are read as the plain ones. */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;

/**
 * Writes rows as CSV after RFC 4180: commas, lines ended by CR LF, quotes where they are needed and doubled inside. Numbers
 * stand as they are and stay numbers. Words that a spreadsheet would run as a formula get an apostrophe in front, which
 * makes it show them as words. Texts are UTF-8, all files alike without a mark of it, which programs would read as part of
 * the first head. Throws a RangeError for a number that is not finite.
 */
export function printCsv(heads: readonly string[], rows: readonly (readonly Cell[])[]): string {
  return [heads, ...rows].map((row) => `${row.map(printCell).join(",")}\r\n`).join("");
}

function printCell(cell: Cell): string {
  if (typeof cell === "number") {
    if (!Number.isFinite(cell)) throw new RangeError(`${cell} cannot stand in a cut list`);
    return String(cell);
  }
  const safe = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
