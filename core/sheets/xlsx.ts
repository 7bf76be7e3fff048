import { strToU8, zipSync } from "fflate/browser";
import type { Cell } from "./csv.ts";
import { escaped } from "./paper/svg.ts";

/** One sheet of a workbook. */
export interface SheetOfCells {
  readonly name: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/** The first moment that a zip file can tell, by whatever clock: the bytes hang on no date. */
const NO_DATE = new Date(1980, 0, 1);

/**
 * Writes a workbook (Office Open XML, ECMA-376 part 1) with the heads of each sheet in bold and kept in sight. Numbers stay numbers, words
 * are words, never formulas. Same cells, same bytes. Throws a RangeError for a number that is not finite.
 */
export function printXlsx(sheets: readonly SheetOfCells[]): Uint8Array {
  const each = (text: (sheet: SheetOfCells, number: number) => string) =>
    sheets.map((sheet, i) => text(sheet, i + 1)).join("");
  const files: Record<string, string> = {
    "[Content_Types].xml": xml(
      "Types",
      `${OPC}/content-types`,
      '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
        `<Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/>` +
        `<Override PartName="/xl/styles.xml" ContentType="${TYPE}.styles+xml"/>` +
        each(
          (_, i) => `<Override PartName="/xl/worksheets/sheet${i}.xml" ContentType="${TYPE}.worksheet+xml"/>`,
        ),
    ),
    "_rels/.rels": relations([["officeDocument", "xl/workbook.xml"]]),
    "xl/workbook.xml": xml(
      "workbook",
      MAIN,
      `<sheets>${each(({ name }, i) => `<sheet name="${escaped(name)}" sheetId="${i}" r:id="rId${i}"/>`)}</sheets>`,
      ` xmlns:r="${REL}"`,
    ),
    "xl/_rels/workbook.xml.rels": relations([
      ...sheets.map((_, i): [string, string] => ["worksheet", `worksheets/sheet${i + 1}.xml`]),
      ["styles", "styles.xml"],
    ]),
    "xl/styles.xml": xml("styleSheet", MAIN, STYLES),
  };
  sheets.forEach((sheet, i) => {
    files[`xl/worksheets/sheet${i + 1}.xml`] = xml("worksheet", MAIN, cellsXml(sheet));
  });
  const parts = Object.entries(files).map(([name, text]) => [name, strToU8(text)] as const);
  return zipSync(Object.fromEntries(parts), { level: 9, mtime: NO_DATE });
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const REL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const OPC = "http://schemas.openxmlformats.org/package/2006";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/** Style 0 is plain, style 1 bold. */
const STYLES =
  '<fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts>' +
  '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
  '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
  '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>' +
  '<cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>' +
  '<xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1"/></cellXfs>' +
  '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>';

function xml(root: string, space: string, body: string, more = ""): string {
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<${root} xmlns="${space}"${more}>${body}</${root}>`;
}

function relations(targets: readonly (readonly [type: string, target: string])[]): string {
  const each = targets.map(
    ([type, target], i) => `<Relationship Id="rId${i + 1}" Type="${REL}/${type}" Target="${target}"/>`,
  );
  return xml("Relationships", `${OPC}/relationships`, each.join(""));
}

function cellsXml({ heads, rows }: SheetOfCells): string {
  const all = [heads, ...rows];
  const widths = heads.map((_, column) =>
    Math.min(60, 2 + Math.max(...all.map((row) => String(row[column] ?? "").length))),
  );
  const columns = widths.map(
    (width, i) => `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`,
  );
  const lines = all.map((row, i) => {
    const cells = row.map((cell, column) => cellXml(cell, `${columnName(column)}${i + 1}`, i === 0));
    return `<row r="${i + 1}">${cells.join("")}</row>`;
  });
  return (
    '<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>' +
    `</sheetView></sheetViews><cols>${columns.join("")}</cols><sheetData>${lines.join("")}</sheetData>`
  );
}

function cellXml(cell: Cell, place: string, isHead: boolean): string {
  const style = isHead ? ' s="1"' : "";
  if (cell === "") return "";
  if (typeof cell !== "number") {
    return `<c r="${place}"${style} t="inlineStr"><is><t xml:space="preserve">${escaped(cell)}</t></is></c>`;
  }
  if (!Number.isFinite(cell)) throw new RangeError(`${cell} cannot stand in a cut list`);
  return `<c r="${place}"${style}><v>${cell}</v></c>`;
}

/** A to Z, then AA and on. */
function columnName(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : columnName(Math.floor(column / 26) - 1) + last;
}
