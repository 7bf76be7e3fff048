import { boxOf } from "../cutting/same-shape.ts";
import type { Cut, Marker, Placement } from "../packing/order.ts";
import { fixed } from "../units/print.ts";
import { drawnLength } from "./marker-drawing.ts";
import { type NumberedCut, numberedCuts, type Stretch, stretchesOf } from "./marker-stretches.ts";
import { circle, type Drawing, filled, line, type Mark, outline, pens, words } from "./paper/drawing.ts";
import { type Fonts, shortened, widthOf } from "./paper/font.ts";
import { framedPage, type Paper, type Room, roomOn, scaleBar, turnedPaper } from "./paper/page.ts";
import { roomiestPlace } from "./paper/roomiest.ts";
import { type PaperColumn, paperTable, ROW } from "./paper/table.ts";
import type { PieceCard } from "./piece-cards.ts";
import { moveOf, pieceMarks } from "./piece-marks.ts";

/** mm of the stock for a mm on paper. ISO 5455 has 1:2, 1:5, 1:10, 1:20, 1:50; those between are for the sizes of rolls. */
const SCALES = [2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100];
/** The drawing is no higher than this part of the room. */
const PART = 0.42;
/** Left free at the left of the drawing and above it, mm. */
const GUTTER = 9;
const ABOVE = 9;
const BELOW = 12;

export interface MarkerSheetOptions {
  readonly paper: Paper;
  readonly fonts: Fonts;
  /** Of the lot or the project. */
  readonly lot: string;
}

/**
 * A marker on paper, to be cut by hand: drawn to scale from the beginning of the roll on, as many pages as it takes. Straight cuts are numbered in the order
 * in which they are made, each with its distance from the roll's edge or from the beginning of what is cut. A marker for a table
 * has no straight cuts: its pages show what lies where.
 */
export function markerPages(
  { marker, title, cards }: { marker: Marker; title: string; cards: ReadonlyMap<string, PieceCard> },
  options: MarkerSheetOptions,
): Drawing[] {
  const { paper, fonts, lot } = options;
  const lengthMm = drawnLength(marker);
  const cuts = numberedCuts(marker);
  const [sheet, scale] = sheetFor(marker, cuts, paper);
  const room = roomOn(sheet);
  const most = (room.right - room.left - GUTTER) * scale;
  const stretches = stretchesOf({ ...marker, lengthMm }, cuts, most, rowsUnder(room, marker.widthMm / scale));
  const bodies = stretches.flatMap((stretch) => stretchBodies(stretch, marker, cards, scale, room, fonts));
  const head = {
    title,
    about: `${lot} · ${marker.stock}, ${fixed(marker.widthMm, 0)} mm wide, used to ${fixed(marker.usedMm, 0)} mm · scale 1:${scale}`,
    right: cuts.length > 0 ? "straight cuts" : "cutting table",
  };
  return bodies.map((marks, i) => framedPage(sheet, head, i + 1, bodies.length, fonts, marks));
}

/** The paper upright or across, and the scale: the largest at which the width, and each section in whole, go onto a page. */
function sheetFor(
  { widthMm }: Marker,
  cuts: readonly NumberedCut[],
  paper: Paper,
): readonly [sheet: Paper, scale: number] {
  const across = cuts.filter(({ stage }) => stage === 1).map(({ atMm }) => atMm);
  const section = Math.max(0, ...across.map((at, i) => at - (across[i - 1] ?? 0)));
  const [upright, turned] = [paper, turnedPaper(paper)].map((sheet) => {
    const { left, right, low, high } = roomOn(sheet);
    const fits = (scale: number) =>
      widthMm / scale <= (high - low) * PART && section / scale <= right - left - GUTTER;
    return [sheet, SCALES.find(fits) ?? SCALES[SCALES.length - 1]] as const;
  });
  return upright[1] <= turned[1] ? upright : turned;
}

/** Rows of a table that go under a drawing so high, its head not counted. */
function rowsUnder(room: Room, drawingHeight: number): number {
  return Math.floor((room.high - room.low - ABOVE - drawingHeight - BELOW) / ROW) - 1;
}

const cutColumns: readonly PaperColumn[] = [
  { head: "cut", width: 9, align: "right" },
  { head: "runs", width: 25 },
  { head: "at mm", width: 15, align: "right" },
  { head: "measured from", width: 34 },
];

const pieceColumns: readonly PaperColumn[] = [
  { head: "piece", width: 50 },
  { head: "long", width: 13, align: "right" },
  { head: "wide", width: 13, align: "right" },
  { head: "begins", width: 15, align: "right" },
  { head: "warp", width: 10 },
];

/** One page for a stretch, and more where its lists go on. */
function stretchBodies(
  stretch: Stretch,
  marker: Marker,
  cards: ReadonlyMap<string, PieceCard>,
  scale: number,
  room: Room,
  fonts: Fonts,
): Mark[][] {
  const cutRows = stretch.cuts.map((cut) => cutRow(cut));
  const pieceRows = stretch.begun.map((placement) => pieceRow(placement, cards));
  const underDrawing = rowsUnder(room, marker.widthMm / scale);
  const onPage = Math.floor((room.high - room.low) / ROW) - 1;
  const top = room.high - ABOVE - marker.widthMm / scale - BELOW;
  const lists = (from: number, count: number, y: number): Mark[] => {
    const own = (rows: readonly (readonly string[])[]) => rows.slice(from, from + count);
    const tables: Mark[] = [];
    let left = room.left;
    if (cutRows.length > from) {
      tables.push(...paperTable(left, y, cutColumns, own(cutRows), fonts));
    }
    if (cutRows.length > 0) left = room.right - pieceColumns.reduce((sum, { width }) => sum + width, 0);
    if (pieceRows.length > from) tables.push(...paperTable(left, y, pieceColumns, own(pieceRows), fonts));
    return tables;
  };
  const rows = Math.max(cutRows.length, pieceRows.length);
  const bodies = [[...drawn(stretch, marker, cards, scale, room, fonts), ...lists(0, underDrawing, top)]];
  for (let from = underDrawing; from < rows; from += onPage) bodies.push(lists(from, onPage, room.high));
  return bodies;
}

const runs = {
  1: "across the width",
  2: "along the section",
  3: "across the lane",
  4: "along the piece",
} as const satisfies Record<Cut["stage"], string>;

function cutRow({ number, stage, atMm }: NumberedCut): string[] {
  const from = stage === 1 ? "the beginning" : stage === 3 ? "the section's beginning" : "the lower edge";
  return [`${number}`, runs[stage], fixed(atMm, 0), from];
}

function pieceRow(
  { piece, turnDeg, outline: ring }: Placement,
  cards: ReadonlyMap<string, PieceCard>,
): string[] {
  const card = cards.get(piece);
  const xs = Array.from(ring).filter((_, i) => i % 2 === 0);
  const arrow = { 0: "→", 90: "↑", 180: "←", 270: "↓" }[turnDeg];
  return [
    card?.called ?? piece,
    fixed(card?.lengthMm ?? 0, 0),
    fixed(card?.widthMm ?? 0, 0),
    fixed(Math.max(0, Math.min(...xs)), 0),
    arrow,
  ];
}

/** The stretch to scale, with the roll's edges, pieces, cuts and distances. */
function drawn(
  { fromMm, toMm, cuts, lying }: Stretch,
  { widthMm, lengthMm }: Marker,
  cards: ReadonlyMap<string, PieceCard>,
  scale: number,
  room: Room,
  fonts: Fonts,
): Mark[] {
  const left = room.left + GUTTER;
  const low = room.high - ABOVE - widthMm / scale;
  const high = low + widthMm / scale;
  const x = (mm: number) => left + (mm - fromMm) / scale;
  const y = (mm: number) => low + mm / scale;
  const right = x(toMm);
  const pieces = lying.flatMap((placement) => pieceOnPaper(placement, cards, x, y, fonts));
  // A roll that goes on is torn at the side; a sheet, or its beginning, has an edge.
  const side = (at: number, isEdge: boolean) =>
    line([at, low, at, high], isEdge ? pens.bold : pens.chained, "stock");
  return [
    {
      kind: "pane",
      x: left - 0.3,
      y: low - 0.3,
      width: right - left + 0.6,
      height: high - low + 0.6,
      dx: 0,
      dy: 0,
      marks: pieces,
    },
    line([left, low, right, low], pens.bold, "stock"),
    line([left, high, right, high], pens.bold, "stock"),
    side(left, fromMm === 0),
    side(right, toMm >= lengthMm - 1e-6),
    words(left - 2, low, "0", 2.5, { align: "right" }),
    words(left - 2, high - 2, fixed(widthMm, 0), 2.5, { align: "right" }),
    words(left - 4.5, (low + high) / 2, "from the lower edge", 2.2, { align: "middle", turnDeg: 90 }),
    ...cuts.flatMap((cut) => cutOnPaper(cut, x, y, fonts)),
    ...alongMarks(fromMm, toMm, cuts, x, low, fonts),
    ...scaleBar(room.right - 100, low - BELOW + 2, 100 * scale),
  ];
}

/** Distances from the beginning of the roll under the drawing: of each cut across it, else of both ends. */
function alongMarks(
  fromMm: number,
  toMm: number,
  cuts: readonly NumberedCut[],
  x: (mm: number) => number,
  low: number,
  fonts: Fonts,
): Mark[] {
  const SIZE = 2.5;
  const across = cuts.filter(({ stage }) => stage === 1).map(({ atMm }) => atMm);
  let free = -Infinity;
  return [...new Set([fromMm, ...across, toMm])].flatMap((mm): Mark[] => {
    const text = fixed(mm, 0);
    const half = widthOf(fonts.plain, text, SIZE) / 2;
    const tick = line([x(mm), low, x(mm), low - 1.6], pens.hair);
    if (x(mm) - half < free) return [tick];
    free = x(mm) + half + 1.5;
    return [tick, words(x(mm), low - 4.2, text, SIZE, { align: "middle" })];
  });
}

function pieceOnPaper(
  placement: Placement,
  cards: ReadonlyMap<string, PieceCard>,
  x: (mm: number) => number,
  y: (mm: number) => number,
  fonts: Fonts,
): Mark[] {
  const card = cards.get(placement.piece);
  if (!card) throw new Error(`a marker has a piece ${placement.piece}, which is in no kit`);
  const move = moveOf(placement);
  const onPaper = (px: number, py: number): readonly [number, number] => {
    const [mx, my] = move(px, py);
    return [x(mx), y(my)];
  };
  const ring = Array.from(placement.outline, (value, i) => (i % 2 === 0 ? x(value) : y(value)));
  return [
    outline(ring, pens.fine),
    ...pieceMarks({ ...card, notches: [] }, onPaper, pens.hair, 1.2),
    ...nameOnPaper(card, ring, fonts),
  ];
}

/** The name and, where there is room, the size below it. */
function nameOnPaper(
  { called, lengthMm, widthMm }: PieceCard,
  ring: readonly number[],
  fonts: Fonts,
): Mark[] {
  const place = roomiestPlace(ring);
  if (place === null) return [];
  const { x, y, height } = place;
  const { width: whole } = boxOf(Float64Array.from(ring));
  // In a wedge a name may touch the line.
  const width = Math.max(place.width, 0.75 * whole);
  const fit = Math.min(1, (0.95 * width) / widthOf(fonts.bold, called, 2.6), height / 2.6);
  const size = 2.6 * Math.max(0.6, fit);
  if (height < 1.2) return [];
  const sizeWords = `${fixed(lengthMm, 0)} × ${fixed(widthMm, 0)}`;
  const name = shortened(fonts.bold, called, size, width);
  const two = height > 6.2 && widthOf(fonts.plain, sizeWords, 2.2) < width;
  return [
    words(x, two ? y + 0.3 : y - 0.36 * size, name, size, { align: "middle", bold: true }),
    ...(two ? [words(x, y - 2.7, sizeWords, 2.2, { align: "middle" })] : []),
  ];
}

/** A cut with its number in a ring at its beginning. */
function cutOnPaper(
  { number, stage, fromMm, toMm }: NumberedCut,
  x: (mm: number) => number,
  y: (mm: number) => number,
  fonts: Fonts,
): Mark[] {
  const [ax, ay, bx, by] = [x(Math.max(0, fromMm[0])), y(fromMm[1]), x(toMm[0]), y(toMm[1])];
  const pen = stage === 1 ? pens.bold : pens.line;
  const RADIUS = 1.7;
  // Those across the whole width are numbered above it, the others a little way along their line.
  const upright = ax === bx;
  const inset = Math.min(3, Math.hypot(bx - ax, by - ay) / 2);
  const [tx, ty] =
    stage === 1 ? [bx, Math.max(ay, by) + 3.4] : [ax + (upright ? 0 : inset), ay + (upright ? inset : 0)];
  const text = `${number}`;
  const size = Math.min(2.3, (2.3 * 2.4) / widthOf(fonts.bold, text, 2.3));
  return [
    line([ax, ay, bx, by], pen, "cut"),
    filled(circle(tx, ty, RADIUS), "paper", pens.fine),
    words(tx, ty - 0.36 * size, text, size, { align: "middle", bold: true }),
  ];
}
