import { type Drawing, line, type Mark, pens, words } from "./drawing.ts";
import { broken, type Fonts, shortened, widthOf } from "./font.ts";

/** A sheet of paper as it lies before the reader. */
export interface Paper {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** ISO 216, and the sheet of the same use in North America (ANSI/ASME Y14.1, size A). */
export const papers = {
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
} as const satisfies Record<string, Paper>;

export type PaperName = keyof typeof papers;

export const turnedPaper = ({ widthMm, heightMm }: Paper): Paper => ({
  widthMm: heightMm,
  heightMm: widthMm,
});

/** Kept free along the edges, mm: what usual printers cannot reach, and a little. */
export const MARGIN = 12;

export const CAUTION =
  "Measure the first shell of a layout against its sheets before a batch is cut. " +
  "The maker's engineer, local codes and the suppliers' data sheets come first.";

export interface PageHead {
  /** What the sheet is, and of what. */
  readonly title: string;
  readonly about: string;
  /** At the right: what it is made of, or which it is. */
  readonly right: string;
}

/** The part of a framed page that is free, mm. */
export interface Room {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

const HEAD = 15;
const FOOT = 11;

export function roomOn({ widthMm, heightMm }: Paper): Room {
  return {
    left: MARGIN,
    right: widthMm - MARGIN,
    low: MARGIN + FOOT,
    high: heightMm - MARGIN - HEAD,
  };
}

/** A page with its head and foot round what it shows: title, page number, unit, and the caution that every sheet carries. */
export function framedPage(
  paper: Paper,
  head: PageHead,
  page: number,
  pages: number,
  fonts: Fonts,
  marks: readonly Mark[],
): Drawing {
  const { left, right } = roomOn(paper);
  const top = paper.heightMm - MARGIN;
  const rightWidth = Math.max(widthOf(fonts.plain, head.right, 3), 20);
  const titleWidth = right - left - rightWidth - 6;
  return {
    ...paper,
    marks: [
      words(left, top - 4.4, shortened(fonts.bold, head.title, 5, titleWidth), 5, { bold: true }),
      words(left, top - 9.6, shortened(fonts.plain, head.about, 3, titleWidth), 3),
      words(right, top - 4.4, head.right, 3, { align: "right" }),
      words(right, top - 9.6, `page ${page} of ${pages}`, 3, { align: "right" }),
      line([left, top - 12, right, top - 12], pens.line),
      ...footMarks(left, right, fonts),
      ...marks,
    ],
  };
}

/** The unit and the caution, over a rule. */
function footMarks(left: number, right: number, fonts: Fonts): Mark[] {
  const SIZE = 2.2;
  const lines = broken(fonts.plain, `Lengths in mm. ${CAUTION}`, SIZE, right - left);
  return [
    line([left, MARGIN + 7.5, right, MARGIN + 7.5], pens.hair),
    ...lines.map((text, i) => words(left, MARGIN + 4.4 - 3 * i, text, SIZE)),
  ];
}

/** A bar 100 mm long on paper, to be held against a rule; `meansMm`: what that is on the thing drawn. */
export function scaleBar(x: number, y: number, meansMm: number): Mark[] {
  const tick = (at: number) => line([x + at, y, x + at, y + (at % 50 === 0 ? 2.4 : 1.4)], pens.fine);
  return [
    line([x, y, x + 100, y], pens.fine),
    ...Array.from({ length: 11 }, (_, i) => tick(10 * i)),
    words(x - 2, y, meansMm === 100 ? "100 mm" : `100 mm on paper: ${meansMm} mm`, 2.4, { align: "right" }),
  ];
}
