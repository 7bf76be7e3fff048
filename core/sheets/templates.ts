import { sameShape } from "../cutting/same-shape.ts";
import { boxOf } from "../packing/ring.ts";
import { fixed } from "../units/print.ts";
import {
  box,
  circle,
  type Drawing,
  filled,
  line,
  type Mark,
  outline,
  pens,
  typeFor,
  words,
} from "./paper/drawing.ts";
import { broken, type Fonts, shortened, widthOf } from "./paper/font.ts";
import { CAUTION, MARGIN, type Paper, papers, scaleBar, turnedPaper } from "./paper/page.ts";
import { LONGEST_PAGE } from "./paper/pdf.ts";
import { roomiestPlace } from "./paper/roomiest.ts";
import { reaches, type Tile, tilesFor } from "./paper/tiles.ts";
import type { PieceCard } from "./piece-cards.ts";
import { marksLegend, pieceMarks, warpArrow } from "./piece-marks.ts";

/** One page as large as the piece, or pages of a usual size that are stuck together. */
export type TemplatePaper = "full" | "a4" | "letter";

/** Height of the strip at the foot of each page that tells what it is, mm. */
const STRIP = 24;
/** White kept round a piece on a page of its own size, mm. */
const ROUND = 10;
/** The least width of such a page: the strip must hold its words and the bar. */
const NARROWEST = 235;
/** By how much pages reach over each other, mm. */
const OVERLAP = 10;
const CHECK_BAR = 100;
/** What hand shears follow a line by, mm: a piece that near to a rectangle is cut as one, by its two figures. */
const CARELESS = 3;

/** Whether a piece needs a template: cloth that is no rectangle, and every gusset and pad. */
export function isShaped({ kind, outline, darts }: PieceCard): boolean {
  if (kind === "strip") return false;
  if (kind !== "cloth" || darts.length > 0) return true;
  const { left: x, low: y, width, height } = boxOf(outline);
  return !sameShape(outline, Float64Array.from(box(x, y, width, height)), CARELESS);
}

/**
 * The template of a piece at full size, on one page or on tiles in rows from the lower left: outline, darts, notches and warp, and on every page what it is, a bar of 100 mm
 * to check the printer by, and marks at which pages meet.
 */
export function templatePages(card: PieceCard, lot: string, paper: TemplatePaper, fonts: Fonts): Drawing[] {
  const marks = pieceDrawing(card, fonts);
  const { width, height } = boxOf(card.outline);
  const tiling = paper === "full" ? ownPage(width, height) : fewestPages(width, height, papers[paper]);
  const { sheet, window } = tiling;
  const tiles = tilesFor(width + 2 * ROUND, height + 2 * ROUND, window, OVERLAP).filter((tile) =>
    reaches(card.outline, ROUND, tile),
  );
  return tiles.map((tile, i) => ({
    ...sheet,
    marks: [...tileMarks(tile, marks), ...stripMarks(card, lot, sheet, tile, i + 1, tiles.length, fonts)],
  }));
}

interface Tiling {
  readonly sheet: Paper;
  /** What a page shows, its lower left corner on the sheet and its size. */
  readonly window: Paper;
}

function ownPage(width: number, height: number): Tiling {
  const most = LONGEST_PAGE - 2 * MARGIN;
  const window = {
    widthMm: Math.min(most, Math.max(NARROWEST, width + 2 * ROUND)),
    heightMm: Math.min(most - STRIP, height + 2 * ROUND),
  };
  return {
    window,
    sheet: { widthMm: window.widthMm + 2 * MARGIN, heightMm: window.heightMm + 2 * MARGIN + STRIP },
  };
}

/** Upright or across, whichever takes fewer pages. */
function fewestPages(width: number, height: number, paper: Paper): Tiling {
  const [upright, across] = [paper, turnedPaper(paper)].map((sheet) => {
    const window = { widthMm: sheet.widthMm - 2 * MARGIN, heightMm: sheet.heightMm - 2 * MARGIN - STRIP };
    return { sheet, window, count: tilesFor(width + 2 * ROUND, height + 2 * ROUND, window, OVERLAP).length };
  });
  return upright.count <= across.count ? upright : across;
}

/** The piece with what is drawn on it, the lower left of its box at `ROUND`, `ROUND`. */
function pieceDrawing(card: PieceCard, fonts: Fonts): Mark[] {
  const from = boxOf(card.outline);
  const move = (x: number, y: number): readonly [number, number] => [
    x - from.left + ROUND,
    y - from.low + ROUND,
  ];
  const ring = Array.from(card.outline, (value, i) => value + ROUND - (i % 2 === 0 ? from.left : from.low));
  const place = roomiestPlace(ring);
  if (place === null) return [outline(ring, pens.bold)];
  const size = Math.min(
    typeFor(12),
    typeFor(place.height / 5),
    (0.8 * place.width * 10) / widthOf(fonts.bold, card.called, 10),
  );
  const along = card.kind === "cloth" ? "warp" : "core";
  const small = Math.min(size / 2, 5);
  return [
    outline(ring, pens.bold),
    ...pieceMarks(card, move),
    words(place.x, place.y + 0.2 * size, card.called, size, { align: "middle", bold: true }),
    ...warpArrow(place.x, place.y - 0.5 * size, Math.min(0.6 * place.width, 200), 0),
    words(place.x, place.y - 0.6 * size - small, along, small, { align: "middle" }),
  ];
}

/** The part of the drawing that a tile shows, its frame, and crosses at the corners where four pages meet. */
function tileMarks(
  { x, y, width, height, row, column, rows, columns }: Tile,
  marks: readonly Mark[],
): Mark[] {
  const left = MARGIN;
  const low = MARGIN + STRIP;
  const pane: Mark = { kind: "pane", x: left, y: low, width, height, dx: left - x, dy: low - y, marks };
  if (rows * columns === 1) return [pane];
  const xs = [
    ...(column > 0 ? [left + OVERLAP / 2] : []),
    ...(column < columns - 1 ? [left + width - OVERLAP / 2] : []),
  ];
  const ys = [
    ...(row > 0 ? [low + OVERLAP / 2] : []),
    ...(row < rows - 1 ? [low + height - OVERLAP / 2] : []),
  ];
  // The same places of the piece on both pages that meet at a line.
  const quarters = (from: number, length: number) => [from + length / 4, from + (3 * length) / 4];
  return [
    pane,
    ...xs.flatMap((at) => [
      line([at, low, at, low + height], pens.chained),
      ...quarters(low, height).flatMap((cy) => registerMark(at, cy)),
      at > left + width / 2
        ? words(at - 2, low + height / 2, tileName(row, column + 1), 2.8, { align: "right" })
        : words(at + 2, low + height / 2, tileName(row, column - 1), 2.8),
    ]),
    ...ys.flatMap((at) => [
      line([left, at, left + width, at], pens.chained),
      ...quarters(left, width).flatMap((cx) => registerMark(cx, at)),
      at > low + height / 2
        ? words(left + width / 2, at - 4, tileName(row + 1, column), 2.8, { align: "middle" })
        : words(left + width / 2, at + 1.6, tileName(row - 1, column), 2.8, { align: "middle" }),
    ]),
  ];
}

/** A cross in a ring: pages lie right when these cover each other. */
function registerMark(x: number, y: number): Mark[] {
  return [
    line([x - 5, y, x + 5, y], pens.fine),
    line([x, y - 5, x, y + 5], pens.fine),
    outline(circle(x, y, 2.5), pens.fine, "mark"),
  ];
}

/** Rows have letters from below, columns numbers from the left: A1, A2, …, Z1, AA1. */
function tileName(row: number, column: number): string {
  const letters = (n: number): string =>
    (n < 26 ? "" : letters(Math.floor(n / 26) - 1)) + String.fromCharCode(65 + (n % 26));
  return `${letters(row)}${column + 1}`;
}

/** At the foot: which piece and page, what it is made of, the bar, the place of the page, what its marks mean, and the caution. */
function stripMarks(
  card: PieceCard,
  lot: string,
  { widthMm }: Paper,
  tile: Tile,
  page: number,
  pages: number,
  fonts: Fonts,
): Mark[] {
  const left = MARGIN;
  const right = widthMm - MARGIN;
  const top = MARGIN + STRIP - 2;
  const { called, material, ply, quantityForAll, hands, lengthMm, widthMm: wide } = card;
  const bar = right - CHECK_BAR;
  const room = bar - left - (pages > 1 ? 38 : 18);
  const text = (row: number, what: string, size: number, bold = false) =>
    words(left, top - row, shortened(bold ? fonts.bold : fonts.plain, what, size, room), size, { bold });
  const over = hands.filter((hand) => hand === "turned over").length;
  const made = `${material.name}${ply === null ? "" : `, ply ${ply}`}`;
  const laid = over > 0 ? `, ${over} of ${hands.length} a shell turned over` : "";
  const legend = [...marksLegend(card), ...(pages > 1 ? ["ring: pages meet"] : [])].join(" · ");
  const caution = broken(fonts.plain, `Lengths in mm. ${CAUTION}`, 1.9, right - left);
  return [
    text(4, called, 4.2, true),
    text(7.6, lot, 2.5),
    text(10.7, `${fixed(lengthMm, 0)} × ${fixed(wide, 0)} mm · ${made}`, 2.5),
    text(13.8, `${quantityForAll} to cut${laid}`, 2.5),
    ...scaleBar(bar, top - 9.5, CHECK_BAR),
    words(bar, top - 5.4, "measure this bar; print at 100 %", 2.4),
    words(right, top - 5.4, pages > 1 ? `page ${page} of ${pages}` : "one page", 2.4, { align: "right" }),
    ...(pages > 1 ? placeMarks(tile, bar - 34, top - 11) : []),
    ...(legend === ""
      ? []
      : [words(left, top - 16.5, shortened(fonts.plain, legend, 1.9, right - left), 1.9)]),
    ...caution.slice(0, 2).map((each, i) => words(left, top - 19 - 2.3 * i, each, 1.9)),
  ];
}

/** The name of a page, and all pages as small boxes with this one black. */
function placeMarks({ row, column, rows, columns }: Tile, x: number, y: number): Mark[] {
  const cell = Math.min(2, 16 / columns, 6 / rows);
  return [
    words(x, y + 7, tileName(row, column), 4, { bold: true }),
    ...Array.from({ length: rows * columns }, (_, i) => {
      const [r, c] = [Math.floor(i / columns), i % columns];
      const own = box(x + c * cell, y + r * cell, cell, cell);
      return r === row && c === column ? filled(own, "ink") : outline(own, pens.hair, "mark");
    }),
  ];
}
