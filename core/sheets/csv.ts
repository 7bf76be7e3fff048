/** Comma-separated files that a spreadsheet opens as they are meant. */

export type Cell = string | number;

/** Beginnings that make a spreadsheet take a cell's words for a formula; the wide forms are read as the plain ones. */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;
/** Marks a file as UTF-8 for spreadsheets that would otherwise take it for an older code. */
const UTF8_MARK = "\ufeff";

/**
 * Writes rows as CSV after RFC 4180: commas, lines ended by CR LF, quotes where they are needed and doubled inside. Numbers
 * stand as they are and stay numbers. Words that a spreadsheet would run as a formula get an apostrophe in front, which
 * makes it show them as words. Text beyond ASCII is marked as UTF-8; plain files carry no mark, so that programs read
 * them without ado. Throws a RangeError for a number that is not finite.
 */
export function printCsv(heads: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const text = [heads, ...rows].map((row) => `${row.map(printCell).join(",")}\r\n`).join("");
  return isAscii(text) ? text : UTF8_MARK + text;
}

function printCell(cell: Cell): string {
  if (typeof cell === "number") {
    if (!Number.isFinite(cell)) throw new RangeError(`${cell} cannot stand in a cut list`);
    return String(cell);
  }
  const safe = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

function isAscii(text: string): boolean {
  for (let i = 0; i < text.length; i++) if (text.charCodeAt(i) > 126) return false;
  return true;
}
