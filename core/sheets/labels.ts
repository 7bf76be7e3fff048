import encodeQR from "qr";
import { fixed } from "../units/print.ts";
import { box, type Drawing, filled, type Mark, pens, words } from "./paper/drawing.ts";
import { endOf, type Fonts, shortened, widthOf } from "./paper/font.ts";
import { CAUTION, type Paper, papers } from "./paper/page.ts";
import type { PieceCard } from "./piece-cards.ts";
import { warpArrow } from "./piece-marks.ts";

/** A sheet of labels: how many, how large, and where the first of them lies, mm. */
export interface LabelSheet {
  readonly paper: Paper;
  readonly columns: number;
  readonly rows: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** From the left edge and from the top of the sheet to the first label. */
  readonly leftMm: number;
  readonly topMm: number;
  /** From the beginning of a label to that of the next. */
  readonly stepX: number;
  readonly stepY: number;
}

/** Usual sheets of self-adhesive labels (common practice, from memory). */
export const labelSheets = {
  "a4-14": {
    paper: papers.a4,
    columns: 2,
    rows: 7,
    widthMm: 99.1,
    heightMm: 38.1,
    leftMm: 4.65,
    topMm: 15.15,
    stepX: 101.6,
    stepY: 38.1,
  },
  "a4-24": {
    paper: papers.a4,
    columns: 3,
    rows: 8,
    widthMm: 70,
    heightMm: 37,
    leftMm: 0,
    topMm: 0.5,
    stepX: 70,
    stepY: 37,
  },
  "letter-10": {
    paper: papers.letter,
    columns: 2,
    rows: 5,
    widthMm: 101.6,
    heightMm: 50.8,
    leftMm: 3.97,
    topMm: 12.7,
    stepX: 106.4,
    stepY: 50.8,
  },
} as const satisfies Record<string, LabelSheet>;

export type LabelSheetName = keyof typeof labelSheets;

/** Kept free inside a label, mm: it may be stuck or printed askew by that much. */
const INSET = 4;

/**
 * Labels for all pieces of a lot, one for each that is cut, in the order of the cards: name, lot, material and ply, size, which way up it is laid, the
 * warp, and the name again as a QR code (ISO/IEC 18004, error correction M).
 */
export function labelPages(
  cards: readonly PieceCard[],
  lot: string,
  sheet: LabelSheet,
  fonts: Fonts,
  onLabel: (called: string) => void = () => {},
): Drawing[] {
  const labels = cards.flatMap((card) => {
    onLabel(card.called);
    // The narrowest border that the encoder gives is taken off again: the label itself is white round the code.
    const code = encodeQR(card.called, "raw", { ecc: "medium", border: 1 })
      .slice(1, -1)
      .map((row) => row.slice(1, -1));
    return Array.from({ length: card.quantityForAll }, (_, i) =>
      labelMarks(card, i, code, lot, sheet, fonts),
    );
  });
  const { paper, columns, rows, leftMm, topMm, stepX, stepY, heightMm } = sheet;
  const pages: Drawing[] = [];
  for (let first = 0; first < labels.length; first += columns * rows) {
    const marks = labels.slice(first, first + columns * rows).map((own, i): Mark => {
      const dx = leftMm + (i % columns) * stepX;
      const dy = paper.heightMm - topMm - heightMm - Math.floor(i / columns) * stepY;
      return { kind: "pane", x: dx, y: dy, width: sheet.widthMm, height: heightMm, dx, dy, marks: own };
    });
    // Above the labels, where the sheet has a margin that a printer reaches.
    const above = topMm > 9 ? [words(12, paper.heightMm - 9, `Lengths in mm. ${CAUTION}`, 2)] : [];
    pages.push({ ...paper, marks: [...above, ...marks] });
  }
  return pages;
}

/** One label, its lower left corner at 0 0. */
function labelMarks(
  card: PieceCard,
  index: number,
  code: readonly (readonly boolean[])[],
  lot: string,
  { widthMm, heightMm }: LabelSheet,
  fonts: Fonts,
): Mark[] {
  const { name, model, material, quantity, quantityForAll, ply, lengthMm, widthMm: wide, hands, kind } = card;
  const side = Math.min(heightMm - 2 * INSET, 0.31 * widthMm);
  const left = INSET + side + 3.5;
  const right = widthMm - INSET;
  const room = right - left;
  const top = heightMm - INSET;
  const size = Math.max(2.6, Math.min(5.4, (5.4 * room) / widthOf(fonts.bold, name, 5.4)));
  const small = (row: number, text: string) =>
    words(left, top - 8.4 - 3.7 * row, shortened(fonts.plain, text, 2.6, room), 2.6);
  const measures = `${fixed(lengthMm, 0)} × ${fixed(wide, 0)} mm`;
  const number = `${index + 1} of ${quantityForAll}`;
  const low = INSET + 0.6;
  const arrowFrom = left + widthOf(fonts.plain, "warp", 2.4) + 1.5;
  const arrowTo = right - widthOf(fonts.plain, number, 2.6) - 2.5;
  return [
    ...codeMarks(code, INSET, (heightMm - side) / 2, side),
    ...nameLines(name, size, room, fonts).map((text, i, { length }) =>
      words(left, top - (length === 1 ? 4 : 2.2 + 2.9 * i), text, size, { bold: true }),
    ),
    small(0, model === lot ? model : `${model} · ${lot}`),
    small(1, material.name),
    small(2, ply === null ? measures : `ply ${ply} · ${measures}`),
    ...(kind === "cloth" ? [small(3, `laid ${hands[index % quantity] ?? "as drawn"}`)] : []),
    words(left, low, kind === "cloth" ? "warp" : "core", 2.4),
    ...warpArrow((arrowFrom + arrowTo) / 2, low + 0.8, Math.min(24, arrowTo - arrowFrom), 0, pens.line),
    words(right, low, number, 2.6, { align: "right" }),
  ];
}

/** A name in one line, or broken in two after a hyphen; of one too long for both the end, which tells the pieces of a zone apart. */
function nameLines(name: string, size: number, room: number, fonts: Fonts): string[] {
  if (endOf(fonts.bold, name, size, room) === name) return [name];
  const ends = [...name].flatMap((letter, i) => ("- ".includes(letter) ? [i + 1] : []));
  const fits = ends.filter((end) => widthOf(fonts.bold, name.slice(0, end), size) <= room);
  const at = fits.at(-1) ?? 0;
  const rest = endOf(fonts.bold, name.slice(at), size, room);
  return at === 0 ? [rest] : [name.slice(0, at), rest];
}

/** The modules of a code as black bars, those that touch in a row as one, so that no hair of white parts them. */
function codeMarks(code: readonly (readonly boolean[])[], x: number, y: number, side: number): Mark[] {
  const module = side / code.length;
  return code.flatMap((row, i) => {
    const bars: Mark[] = [];
    for (let from = 0; from < row.length; from++) {
      if (!row[from]) continue;
      let to = from;
      while (row[to]) to++;
      const foot = y + side - (i + 1) * module;
      bars.push(filled(box(x + from * module, foot, (to - from) * module, module), "ink"));
      from = to;
    }
    return bars;
  });
}
