import { letters } from "../cutting/letters.ts";
import type { Cut, Marker, Placement } from "../packing/order.ts";
import { fixed } from "../units/print.ts";
import { drawnLength } from "./marker-drawing.ts";
import { aroundOf, stretchOnPaper } from "./marker-on-paper.ts";
import { type NumberedCut, numberedCuts, type Stretch, stretchesOf } from "./marker-stretches.ts";
import { type Drawing, type Mark, words } from "./paper/drawing.ts";
import type { Fonts } from "./paper/font.ts";
import { framedPage, type Paper, type Room, roomOn, turnedPaper } from "./paper/page.ts";
import { type PaperColumn, paperTable, ROW } from "./paper/table.ts";
import type { PieceCard } from "./piece-cards.ts";

/** mm of the stock for a mm on paper. ISO 5455 has 1:2, 1:5, 1:10, 1:20, 1:50; those between are for the sizes of rolls. */
const SCALES = [2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100];
/** The drawing is no higher than this part of the room. */
const PART = 0.42;
/** Between two stretches on a page, mm. */
const BETWEEN = 5;

export interface MarkerSheetOptions {
  readonly paper: Paper;
  readonly fonts: Fonts;
  /** Of the lot or the project. */
  readonly lot: string;
}

/**
 * A marker on paper, to be cut by hand: drawn to scale from the beginning of the roll on, as many pages as it takes. Straight cuts are numbered in the order
 * in which they are made, each with its distance from the roll's edge or from the beginning of what is cut. A marker for a table
 * has no straight cuts: its pages show what lies where. A piece too small for its name bears the letter by which the list has it.
 */
export function markerPages(
  { marker, title, cards }: { marker: Marker; title: string; cards: ReadonlyMap<string, PieceCard> },
  options: MarkerSheetOptions,
): Drawing[] {
  const { paper, fonts, lot } = options;
  const cuts = numberedCuts(marker);
  const { sheet, scale, bodies } = fewestPages(
    scalesFor(marker, cuts, paper).map((each) => ({
      ...each,
      bodies: bodiesAt(each, marker, cuts, cards, fonts),
    })),
  );
  const room = roomOn(sheet);
  const head = {
    title,
    about: `${lot} · ${marker.stock}, ${fixed(marker.widthMm, 0)} mm wide, used to ${fixed(marker.usedMm, 0)} mm · scale 1:${scale}`,
    right: cuts.length > 0 ? "straight cuts" : "cutting table",
  };
  // Under the lists, in the white between them and the foot.
  const legend = cuts.length > 0 ? [words(room.left, room.low - 2.6, LEGEND, 2.2)] : [];
  return bodies.map((marks, i) =>
    framedPage(sheet, head, i + 1, bodies.length, fonts, [...marks, ...legend]),
  );
}

/** A sheet of paper, upright or across, and a scale for it. */
interface Sizing {
  readonly sheet: Paper;
  readonly scale: number;
}

/** A page less in so many pages is worth the next smaller scale. */
const WORTH = 0.2;

/** Of the same marker at one scale and at the next smaller one the larger, unless its pages stand half empty for it. */
function fewestPages<T extends { readonly bodies: readonly unknown[] }>([large, small]: readonly T[]): T {
  return small && small.bodies.length <= (1 - WORTH) * large.bodies.length ? small : large;
}

/** The paper and the largest scale at which the width, and each section in whole, go onto a page, and the next smaller scale. */
function scalesFor(marker: Marker, cuts: readonly NumberedCut[], paper: Paper): readonly Sizing[] {
  const across = cuts.filter(({ stage }) => stage === 1).map(({ atMm }) => atMm);
  const section = Math.max(0, ...across.map((at, i) => at - (across[i - 1] ?? 0)));
  const [upright, turned] = [paper, turnedPaper(paper)].map((sheet) => {
    const { left, right, low, high } = roomOn(sheet);
    const fits = (scale: number) =>
      marker.widthMm / scale <= (high - low) * PART &&
      section / scale <= right - left - aroundOf(marker).left;
    const first = SCALES.findIndex(fits);
    return SCALES.slice(first, first < 0 ? undefined : first + 2).map((scale) => ({ sheet, scale }));
  });
  return upright[0].scale <= turned[0].scale ? upright : turned;
}

/** What stands on each page: stretches one below the other with their lists, as long as there is room. */
function bodiesAt(
  { sheet, scale }: Sizing,
  marker: Marker,
  cuts: readonly NumberedCut[],
  cards: ReadonlyMap<string, PieceCard>,
  fonts: Fonts,
): Mark[][] {
  const room = roomOn(sheet);
  const most = (room.right - room.left - aroundOf(marker).left) * scale;
  const rows = rowsUnder(room, drawingHeight(marker, scale));
  const stretches = stretchesOf({ ...marker, lengthMm: drawnLength(marker) }, cuts, most, rows);
  const bodies: Mark[][] = [];
  let free = room.low;
  for (const stretch of stretches) {
    const { height, draw, further } = blockOf(stretch, marker, cards, scale, room, fonts);
    if (bodies.length === 0 || free - height < room.low) {
      bodies.push([]);
      free = room.high;
    }
    bodies[bodies.length - 1].push(...draw(free));
    bodies.push(...further);
    // Lists that went on leave a page of their own, which is not filled up.
    free = further.length > 0 ? room.low : free - height - BETWEEN;
  }
  return bodies;
}

/** Height of a stretch with the figures round it, its lists not counted, mm. */
function drawingHeight(marker: Marker, scale: number): number {
  const { above, below } = aroundOf(marker);
  return above + marker.widthMm / scale + below;
}

/** Rows of a table that go under a drawing so high, its head not counted. */
function rowsUnder({ high, low }: Room, height: number): number {
  return Math.floor((high - low - height) / ROW) - 1;
}

/** What the list of cuts calls the parts that they leave. */
const LEGEND =
  "Section: what a cut across the whole width parts off. Lane: what the cuts along a section part it into.";

const cutColumns: readonly PaperColumn[] = [
  { head: "cut", width: 8, align: "right" },
  { head: "runs", width: 23 },
  { head: "at mm", width: 14, align: "right" },
  { head: "measured from", width: 30 },
];

const pieceColumns: readonly PaperColumn[] = [
  { head: "mark", width: 9 },
  { head: "piece", width: 49 },
  { head: "long", width: 13, align: "right" },
  { head: "wide", width: 13, align: "right" },
  { head: "begins", width: 15, align: "right" },
  { head: "lies", width: 10 },
];

/** A stretch with its lists under it: how high that is, its marks by where its top lies, and whole pages on which long lists go on. */
interface Block {
  readonly height: number;
  readonly draw: (top: number) => Mark[];
  readonly further: readonly Mark[][];
}

function blockOf(
  stretch: Stretch,
  marker: Marker,
  cards: ReadonlyMap<string, PieceCard>,
  scale: number,
  room: Room,
  fonts: Fonts,
): Block {
  const cutRows = stretch.cuts.map(cutRow);
  const pieceRows = stretch.begun.map((placement, i) => [letters(i), ...pieceRow(placement, cards)]);
  const rows = Math.max(cutRows.length, pieceRows.length);
  const drawn = drawingHeight(marker, scale);
  const under = Math.min(rows, rowsUnder(room, drawn));
  const onPage = rowsUnder(room, 0);
  const piecesAt =
    cutRows.length > 0 ? room.right - pieceColumns.reduce((sum, { width }) => sum + width, 0) : room.left;
  const lists = (from: number, count: number, y: number): Mark[] => {
    const table = (x: number, columns: readonly PaperColumn[], all: readonly (readonly string[])[]) =>
      all.length > from ? paperTable(x, y, columns, all.slice(from, from + count), fonts) : [];
    return [...table(room.left, cutColumns, cutRows), ...table(piecesAt, pieceColumns, pieceRows)];
  };
  const further: Mark[][] = [];
  for (let from = under; from < rows; from += onPage) further.push(lists(from, onPage, room.high));
  return {
    height: drawn + (under + 1) * ROW,
    draw: (top) => [
      ...stretchOnPaper(stretch, marker, cards, scale, { ...room, high: top }, fonts),
      ...lists(0, under, top - drawn),
    ],
    further,
  };
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
