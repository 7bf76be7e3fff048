import type { Kit } from "../cutting/kit.ts";
import type { Cell } from "./csv.ts";

/** A cut list as a table: what its file is called, and its sheet in a workbook. */
export interface CutList {
  readonly file: string;
  readonly name: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/** The cut lists of a kit: cloth, strips, sheets, totals. */
export function cutLists(kit: Kit): CutList[] {
  return [
    { file: "cut-list", name: "Cloth", ...pieceList(kit) },
    { file: "strips", name: "Strips", ...stripList(kit) },
    { file: "sheets", name: "Sheets", ...sheetList(kit) },
    { file: "totals", name: "Totals", ...totalList(kit) },
  ];
}

type Rows = Pick<CutList, "heads" | "rows">;

/** Pieces of cloth: `quantity` is for one shell, `quantityForAll` for all shells of the lot. */
function pieceList({ pieces, shells }: Kit): Rows {
  return rowsOf(pieces, {
    name: (piece) => piece.name,
    zone: (piece) => piece.zone,
    ply: (piece) => piece.ply,
    material: (piece) => piece.material,
    quantity: (piece) => piece.quantity,
    quantityForAll: (piece) => piece.quantity * shells,
    lengthMm: (piece) => tenths(piece.lengthMm),
    widthMm: (piece) => tenths(piece.widthMm),
    leftEdgeMm: (piece) => tenths(piece.leftEdgeMm),
    midMm: (piece) => tenths(piece.midMm),
    rightEdgeMm: (piece) => tenths(piece.rightEdgeMm),
    corner: (piece) => (piece.corner ? "yes" : "no"),
    /** On the shell; as it is cut, laid flat, which is what is weighed. */
    areaM2: (piece) => squareMetres(piece.areaMm2),
    flatAreaM2: (piece) => squareMetres(piece.flatAreaMm2),
    massKg: (piece) => grams(piece.glassKg),
    fromMm: (piece) => tenths(piece.fromMm),
    toMm: (piece) => tenths(piece.toMm),
  });
}

/**
 * Strips of core, with where each end lies: along the rim from a mark (counter-clockwise positive) and down the surface, as a tape
 * reads it on the plug; empty where that does not help.
 */
function stripList({ strips, shells }: Kit): Rows {
  return rowsOf(strips, {
    name: (strip) => strip.name,
    zone: (strip) => strip.zone,
    material: (strip) => strip.material,
    quantity: (strip) => strip.quantity,
    quantityForAll: (strip) => strip.quantity * shells,
    lengthMm: (strip) => tenths(strip.lengthMm),
    firstEnd: (strip) => strip.ends[0],
    lastEnd: (strip) => strip.ends[1],
    bevelDeg: (strip) => strip.bevelDeg,
    massKg: (strip) => grams(strip.massKg),
    firstFrom: ({ tape: [first] }) => first.from,
    firstAlongMm: ({ tape: [first] }) => tenthsOrNone(first.alongMm),
    firstDownMm: ({ tape: [first] }) => tenthsOrNone(first.downMm),
    lastFrom: ({ tape: [, last] }) => last.from,
    lastAlongMm: ({ tape: [, last] }) => tenthsOrNone(last.alongMm),
    lastDownMm: ({ tape: [, last] }) => tenthsOrNone(last.downMm),
  });
}

function sheetList({ sheets, shells }: Kit): Rows {
  return rowsOf(sheets, {
    name: (sheet) => sheet.name,
    zone: (sheet) => sheet.zone,
    kind: (sheet) => sheet.kind,
    material: (sheet) => sheet.material,
    quantity: (sheet) => sheet.quantity,
    quantityForAll: (sheet) => sheet.quantity * shells,
    lengthMm: (sheet) => tenths(sheet.lengthMm),
    widthMm: (sheet) => tenths(sheet.widthMm),
    areaM2: (sheet) => squareMetres(sheet.areaMm2),
    massKg: (sheet) => grams(sheet.massKg),
    /** Corners of the outline, `x y` in mm from the lower left of its box. */
    outlineMm: (sheet) => outlineWords(sheet.outline),
  });
}

/** All figures are for all shells. */
function totalList({ totals, shells }: Kit): Rows {
  return rowsOf(totals, {
    material: (total) => total.material,
    name: (total) => total.name,
    kind: (total) => total.kind,
    shells: () => shells,
    pieces: (total) => total.pieces,
    areaM2: (total) => squareMetres(total.areaMm2),
    /** Of strips with the kerfs. */
    lengthMm: (total) => tenths(total.lengthMm),
    kerfMm: (total) => tenths(total.kerfMm),
    massKg: (total) => grams(total.massKg),
  });
}

function rowsOf<T>(list: readonly T[], columns: Readonly<Record<string, (each: T) => Cell>>): Rows {
  const cells = Object.values(columns);
  return { heads: Object.keys(columns), rows: list.map((each) => cells.map((cell) => cell(each))) };
}

function outlineWords(outline: Float64Array): string {
  const corners: string[] = [];
  for (let i = 0; i < outline.length; i += 2) corners.push(`${tenths(outline[i])} ${tenths(outline[i + 1])}`);
  return corners.join("; ");
}

const rounded = (value: number, decimals: number) => Number(value.toFixed(decimals)) + 0;
/** Cut lists are for the bench: tenths of a mm, cm², grams. The JSON has the figures unrounded. */
const tenths = (mm: number) => rounded(mm, 1);
const tenthsOrNone = (mm: number | null) => (mm === null ? "" : tenths(mm));
const squareMetres = (mm2: number) => rounded(mm2 / 1e6, 4);
const grams = (kg: number) => rounded(kg, 3);
