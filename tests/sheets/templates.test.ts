import { describe, expect, test } from "vitest";
import type { Mark } from "../../core/sheets/paper/drawing.ts";
import { widthOf } from "../../core/sheets/paper/font.ts";
import { MARGIN, papers } from "../../core/sheets/paper/page.ts";
import { printPdf } from "../../core/sheets/paper/pdf.ts";
import { pieceCards } from "../../core/sheets/piece-cards.ts";
import { marksLegend } from "../../core/sheets/piece-marks.ts";
import { isShaped, templatePages } from "../../core/sheets/templates.ts";
import { fonts } from "./paper/fonts.ts";
import { darkRuns, poppler, type Raster, rasterise, withoutPoppler } from "./paper/poppler.ts";
import { sampleModel } from "./sample-lot.ts";

const cards = pieceCards([sampleModel("Whimbrel 9", 2)]);
const cardOf = (name: string) => {
  const found = cards.find(({ called }) => called === name);
  if (!found) throw new Error(`no piece ${name}`);
  return found;
};
const DPI = 200;
const NEEDED = 0.2;
const middle = ([from, to]: readonly [number, number]) => (from + to) / 2;

/** The bar of 100 mm near the foot of a page: the longest line that runs there, end stroke to end stroke. */
function checkBar(page: Raster): number {
  let longest = 0;
  for (let y = 12; y < 38; y += (25.4 / DPI) * 0.5) {
    for (const [from, to] of darkRuns(page, "x", y)) {
      const length = to - from;
      if (length > 90 && length < 120) longest = Math.max(longest, length);
    }
  }
  // The strokes at both ends are as wide as they are drawn.
  return longest - 0.18;
}

describe("which pieces have a template", () => {
  test("shaped cloth, gussets and pads; not rectangles, which two figures tell, and not strips", () => {
    expect(cards.filter(isShaped).map(({ called }) => called)).toEqual([
      "foot/1a",
      "gussets/1",
      "pad-seat/1",
    ]);
  });

  test("a corner cut off shows, a line that wavers by a mm does not", () => {
    const card = cardOf("foot/1b");
    const shape = (...points: number[]) => ({ ...card, outline: Float64Array.from(points) });
    expect(isShaped(shape(0, 0, 2000, 0, 2000, 620, 100, 620, 0, 520))).toBe(true);
    expect(isShaped(shape(0, 0.8, 1000, 0, 2000, 1, 2000, 620, 0, 620))).toBe(false);
    expect(isShaped(shape(0, 0, 2000, 0, 1900, 620, 100, 620))).toBe(true);
  });
});

describe("the legend of a template", () => {
  const said = (name: string, paper: "full" | "a4" | "letter") =>
    templatePages(cardOf(name), "Whimbrel 9", paper, fonts).map(({ marks }) =>
      marks.flatMap((mark) => (mark.kind === "words" ? [mark.words] : [])),
    );

  test("tells the marks that the piece has, in whole on the narrowest page", () => {
    const own =
      "one stroke: the piece of that name ends · two strokes: the zone's line · " +
      "wedge: a corner, numbered along · cross with dashes: tip of a dart";
    for (const page of said("foot/1a", "full")) expect(page).toContain(own);
    for (const page of said("foot/1a", "a4")) expect(page).toContain(`${own} · ring: pages meet`);
    const card = cardOf("foot/1a");
    const inside = { what: "line", x: 300, y: 200 } as const;
    expect(marksLegend({ ...card, darts: [], notches: [inside] })).toEqual([
      "small cross: the zone's line or its corner",
    ]);
    const every = [...marksLegend({ ...card, notches: [...card.notches, inside] }), "ring: pages meet"];
    expect(every).toHaveLength(6);
    expect(widthOf(fonts.plain, every.join(" · "), 1.9)).toBeLessThan(papers.a4.widthMm - 2 * MARGIN);
  });

  test("goes with marks that bear what tells them apart", () => {
    const wordsIn = (marks: readonly Mark[]): string[] =>
      marks.flatMap((mark) =>
        mark.kind === "words" ? [mark.words] : mark.kind === "pane" ? wordsIn(mark.marks) : [],
      );
    const [{ marks }] = templatePages(cardOf("foot/1a"), "Whimbrel 9", "full", fonts);
    expect(wordsIn(marks)).toEqual(expect.arrayContaining(["1b", "1"]));
  });

  test("is not there where nothing is marked", () => {
    for (const page of said("pad-seat/1", "full"))
      expect(page.join(" ")).not.toMatch(/stroke|wedge|cross|ring:/);
    for (const page of said("pad-seat/1", "a4")) expect(page).toContain("ring: pages meet");
  });
});

describe("a template on one page", () => {
  const pages = templatePages(cardOf("pad-seat/1"), "Whimbrel 9", "full", fonts);

  test("is as large as the piece and a little more", () => {
    expect(pages).toHaveLength(1);
    expect(pages[0].widthMm).toBeGreaterThan(900);
    expect(pages[0].widthMm).toBeLessThan(960);
  });

  test(`measures true when poppler draws it: bar and sides within 0.2 mm${withoutPoppler}`, async (context) => {
    if (!poppler) context.skip("poppler's pdftoppm is not on this machine");
    const [page] = await rasterise(printPdf("pad", pages, fonts), DPI);
    expect(Math.abs(checkBar(page) - 100)).toBeLessThan(NEEDED);
    const low = 12 + 24 + 10;
    // Across at a height below the corner that is cut off, and up through the middle: the outer lines are the piece's.
    const across = darkRuns(page, "x", low + 30);
    expect(Math.abs(middle(across[across.length - 1]) - middle(across[0]) - 900)).toBeLessThan(NEEDED);
    const up = darkRuns(page, "y", 12 + 10 + 700).filter(([from]) => from > 40);
    expect(Math.abs(middle(up[up.length - 1]) - middle(up[0]) - 240)).toBeLessThan(NEEDED);
  });

  test("of a piece longer than a page can be goes on", () => {
    const long = { ...cardOf("foot/1a"), outline: Float64Array.of(0, 0, 9000, 0, 9000, 500, 0, 400) };
    const two = templatePages(long, "Whimbrel 9", "full", fonts);
    expect(two).toHaveLength(2);
    for (const { widthMm } of two) expect(widthMm).toBeLessThanOrEqual(5080);
  });
});

describe("a template on tiles", () => {
  test(`joins true over the lines where pages meet, on A4 and on Letter, each page with its bar${withoutPoppler}`, async (context) => {
    if (!poppler) context.skip("poppler's pdftoppm is not on this machine");
    for (const paper of ["a4", "letter"] as const) {
      const pages = templatePages(cardOf("pad-seat/1"), "Whimbrel 9", paper, fonts);
      expect(pages.length).toBeGreaterThan(5);
      const drawn = await rasterise(printPdf("pad", pages, fonts), DPI);
      expect(drawn.length).toBe(pages.length);
      for (const page of drawn) expect(Math.abs(checkBar(page) - 100)).toBeLessThan(NEEDED);
      // The piece's length, put together from the pages of the lower row: each shows its window less an overlap.
      const { widthMm } = pages[0];
      const window = widthMm - 24;
      const columns = Math.ceil((920 - 10) / (window - 10));
      const y = 12 + 24 + 10 + 30;
      const [first] = darkRuns(drawn[0], "x", y);
      const last = darkRuns(drawn[columns - 1], "x", y).filter(
        ([from, to]) => to - from < 1.5 && Math.abs(middle([from, to]) - 17) > 1,
      );
      const end = middle(last[last.length - 1]) + (columns - 1) * (window - 10);
      expect(Math.abs(end - middle(first) - 900)).toBeLessThan(NEEDED);
    }
  });

  test("leaves out no part of the piece: every corner lies well inside a page", () => {
    for (const paper of ["a4", "letter"] as const) {
      const card = cardOf("foot/1a");
      const pages = templatePages(card, "Whimbrel 9", paper, fonts);
      const panes = pages.flatMap(({ marks }) => marks.filter((mark) => mark.kind === "pane"));
      expect(panes.length).toBe(pages.length);
      for (let i = 0; i < card.outline.length; i += 2) {
        const [x, y] = [card.outline[i] + 10, card.outline[i + 1] + 10];
        const shown = panes.filter(
          (pane) =>
            x + pane.dx >= pane.x &&
            x + pane.dx <= pane.x + pane.width &&
            y + pane.dy >= pane.y &&
            y + pane.dy <= pane.y + pane.height,
        );
        expect(shown.length).toBeGreaterThan(0);
      }
    }
  });
});
