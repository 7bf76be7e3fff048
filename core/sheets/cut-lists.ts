import type { Kit, PiecePlace, StripMark } from "../cutting/kit.ts";
import type { Cell } from "./csv.ts";

/** A cut list as a table: what its file is called, and its sheet in a workbook. */
export interface CutList {
  readonly file: string;
  readonly name: string;
  /** For programs: the keys of the JSON, the unit in them. */
  readonly heads: readonly string[];
  /** The same for people, in words with units; null over what only programs read. */
  readonly words: readonly (string | null)[];
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

type Rows = Pick<CutList, "heads" | "words" | "rows">;

/** Pieces of cloth: `quantity` is for one shell, `quantityForAll` for all shells of the lot. */
function pieceList({ pieces, shells }: Kit): Rows {
  return rowsOf(pieces, {
    name: ["name", (piece) => piece.name],
    zone: ["zone", (piece) => piece.zone],
    ply: ["ply", (piece) => piece.ply],
    material: ["material", (piece) => piece.material],
    quantity: ["for one shell", (piece) => piece.quantity],
    quantityForAll: ["for all shells", (piece) => piece.quantity * shells],
    lengthMm: ["length mm", (piece) => tenths(piece.lengthMm)],
    widthMm: ["width mm", (piece) => tenths(piece.widthMm)],
    leftEdgeMm: ["left edge mm", (piece) => tenths(piece.leftEdgeMm)],
    midMm: ["middle mm", (piece) => tenths(piece.midMm)],
    rightEdgeMm: ["right edge mm", (piece) => tenths(piece.rightEdgeMm)],
    corner: ["corner", (piece) => (piece.corner ? "yes" : "no")],
    /** On the shell; as it is cut, laid flat, which is what is weighed. */
    areaM2: ["area on the shell m²", (piece) => squareMetres(piece.areaMm2)],
    flatAreaM2: ["flat area m²", (piece) => squareMetres(piece.flatAreaMm2)],
    massKg: ["mass kg", (piece) => grams(piece.glassKg)],
    fromMm: ["from mm", (piece) => tenths(piece.fromMm)],
    toMm: ["to mm", (piece) => tenths(piece.toMm)],
    /** Every place that it is laid in; stations count along the band's line from where the band begins. */
    places: ["places along the band, mm", (piece) => piece.places.map(stretchWords).join("; ")],
    bandBegins: ["where the band begins", ({ begins }) => (begins ? tapeWords(begins) : "")],
  });
}

/**
 * Strips of core, with where each end lies: along the rim from a mark (counter-clockwise positive) and down the surface, as a tape
 * reads it on the plug; empty where that does not help.
 */
function stripList({ strips, shells }: Kit): Rows {
  return rowsOf(strips, {
    name: ["name", (strip) => strip.name],
    zone: ["zone", (strip) => strip.zone],
    material: ["material", (strip) => strip.material],
    quantity: ["for one shell", (strip) => strip.quantity],
    quantityForAll: ["for all shells", (strip) => strip.quantity * shells],
    lengthMm: ["length mm", (strip) => tenths(strip.lengthMm)],
    firstEnd: ["first end", (strip) => strip.ends[0]],
    lastEnd: ["last end", (strip) => strip.ends[1]],
    bevelDeg: ["bevel °", (strip) => strip.bevelDeg],
    massKg: ["mass kg", (strip) => grams(strip.massKg)],
    firstFrom: ["first end, from", ({ tape: [first] }) => first.from],
    firstAlongMm: ["first end, along rim mm", ({ tape: [first] }) => tenthsOrNone(first.alongMm)],
    firstDownMm: ["first end, down mm", ({ tape: [first] }) => tenthsOrNone(first.downMm)],
    lastFrom: ["last end, from", ({ tape: [, last] }) => last.from],
    lastAlongMm: ["last end, along rim mm", ({ tape: [, last] }) => tenthsOrNone(last.alongMm)],
    lastDownMm: ["last end, down mm", ({ tape: [, last] }) => tenthsOrNone(last.downMm)],
  });
}

function sheetList({ sheets, shells }: Kit): Rows {
  return rowsOf(sheets, {
    name: ["name", (sheet) => sheet.name],
    zone: ["zone", (sheet) => sheet.zone],
    kind: ["kind", (sheet) => sheet.kind],
    material: ["material", (sheet) => sheet.material],
    quantity: ["for one shell", (sheet) => sheet.quantity],
    quantityForAll: ["for all shells", (sheet) => sheet.quantity * shells],
    lengthMm: ["length mm", (sheet) => tenths(sheet.lengthMm)],
    widthMm: ["width mm", (sheet) => tenths(sheet.widthMm)],
    areaM2: ["area of a piece m²", (sheet) => squareMetres(sheet.areaMm2)],
    massKg: ["mass kg", (sheet) => grams(sheet.massKg)],
    /** A gusset's nose; of a pad the corner of its patch that is first from the shallow end. */
    places: [
      "where its nose or first corner lies",
      ({ places = [] }) => places.map((at) => `${at.name}: ${tapeWords(at)}`).join("; "),
    ],
    /** Corners of the outline, `x y` in mm from the lower left of its box. */
    outlineMm: [null, (sheet) => outlineWords(sheet.outline)],
  });
}

/** All figures are for all shells. */
function totalList({ totals, shells }: Kit): Rows {
  return rowsOf(totals, {
    material: ["material", (total) => total.material],
    name: ["name", (total) => total.name],
    kind: ["kind", (total) => total.kind],
    shells: ["shells", () => shells],
    pieces: ["pieces", (total) => total.pieces],
    areaM2: ["area on the shell m²", (total) => squareMetres(total.areaMm2)],
    /** Of cloth that of its pieces added up, not of roll; of strips with the kerfs. */
    lengthMm: ["length of pieces mm", (total) => tenths(total.lengthMm)],
    kerfMm: ["of that saw kerfs mm", (total) => tenths(total.kerfMm)],
    massKg: ["mass kg", (total) => grams(total.massKg)],
  });
}

/** What stands over a column in words, and its cell. */
type Column<T> = readonly [words: string | null, cell: (each: T) => Cell];

function rowsOf<T>(list: readonly T[], columns: Readonly<Record<string, Column<T>>>): Rows {
  const all = Object.values(columns);
  return {
    heads: Object.keys(columns),
    words: all.map(([words]) => words),
    rows: list.map((each) => all.map(([, cell]) => cell(each))),
  };
}

function outlineWords(outline: Float64Array): string {
  const corners: string[] = [];
  for (let i = 0; i < outline.length; i += 2) corners.push(`${tenths(outline[i])} ${tenths(outline[i + 1])}`);
  return corners.join("; ");
}

function stretchWords({ fromMm, toMm, hand }: PiecePlace): string {
  const stretch = `${tenths(fromMm)} to ${tenths(toMm)}`;
  return hand === "as drawn" ? stretch : `${stretch} turned over`;
}

/** A place as a tape reads it: `320.5 mm on from deep-right, 1480 mm down`; on is counter-clockwise along the rim, back is clockwise. */
function tapeWords({ from, alongMm, downMm }: StripMark): string {
  const along =
    alongMm === null || tenths(alongMm) === 0
      ? `at ${from}`
      : `${tenths(Math.abs(alongMm))} mm ${alongMm > 0 ? "on" : "back"} from ${from}`;
  return downMm === null ? along : `${along}, ${tenths(downMm)} mm down`;
}

const rounded = (value: number, decimals: number) => Number(value.toFixed(decimals)) + 0;
/** Cut lists are for the bench: tenths of a mm, cm², grams. The JSON has the figures unrounded. */
const tenths = (mm: number) => rounded(mm, 1);
const tenthsOrNone = (mm: number | null) => (mm === null ? "" : tenths(mm));
const squareMetres = (mm2: number) => rounded(mm2 / 1e6, 4);
const grams = (kg: number) => rounded(kg, 3);
