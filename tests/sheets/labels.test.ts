import jsqr from "jsqr";
import encodeQR from "qr";
import { describe, expect, test } from "vitest";
import { labelPages, labelSheets } from "../../core/sheets/labels.ts";
import { printPdf } from "../../core/sheets/paper/pdf.ts";
import { pieceCards } from "../../core/sheets/piece-cards.ts";
import { fonts } from "./paper/fonts.ts";
import { coloured, poppler, type Raster, rasterise, withoutPoppler } from "./paper/poppler.ts";
import { sampleModel } from "./sample-lot.ts";

// The type says a module; Node loads the function.
const read = jsqr as unknown as (
  data: Uint8ClampedArray,
  width: number,
  height: number,
) => { readonly data: string } | null;

/** The part of a page in a rectangle, mm from its upper left. */
function cutOut({ width, grey, dpi }: Raster, x: number, y: number, w: number, h: number): Raster {
  const px = (mm: number) => Math.round((mm * dpi) / 25.4);
  const size = { width: px(w), height: px(h) };
  const own = new Uint8Array(size.width * size.height);
  for (let row = 0; row < size.height; row++) {
    const from = (px(y) + row) * width + px(x);
    own.set(grey.subarray(from, from + size.width), row * size.width);
  }
  return { ...size, grey: own, dpi };
}

const models = [sampleModel("Whimbrel 9", 2), sampleModel("Turnstone 7", 1)];

describe("labels", () => {
  test("there is one for each piece that is cut", () => {
    const cards = pieceCards(models);
    const pieces = models.reduce(
      (sum, { kit }) => sum + kit.totals.reduce((total, { pieces: own }) => total + own, 0),
      0,
    );
    for (const sheet of Object.values(labelSheets)) {
      const pages = labelPages(cards, "Week 14", sheet, fonts);
      const labels = pages.flatMap(({ marks }) => marks.filter(({ kind }) => kind === "pane"));
      expect(labels.length).toBe(pieces);
      expect(pages.length).toBe(Math.ceil(pieces / (sheet.columns * sheet.rows)));
    }
  });

  test("the name of every piece stands whole, or else its end, which tells it from the others of its zone", () => {
    const [card] = pieceCards(models);
    const called = (name: string, sheet: keyof typeof labelSheets) => {
      const [page] = labelPages([{ ...card, name, quantityForAll: 1 }], "Week 14", labelSheets[sheet], fonts);
      const marks = page.marks.flatMap((mark) => (mark.kind === "pane" ? mark.marks : []));
      const bold = marks.flatMap((mark) => (mark.kind === "words" && mark.bold ? [mark.words] : []));
      return bold;
    };
    for (const sheet of Object.keys(labelSheets) as (keyof typeof labelSheets)[]) {
      for (const name of ["bench-left-foot/1a", "pad-steps-tread-1/1b", "skimmer-surround/1a"])
        expect(called(name, sheet)).toEqual([name]);
      // Longer ones go on in a second line.
      for (const name of ["band-steps-riser-2-steps-tread-3/1a", "band-foot-left-by-the-bench/2e"])
        expect(called(name, sheet).join("")).toBe(name);
      expect(called(`${"a long name of a zone ".repeat(4)}/1b`, sheet).at(-1)).toMatch(/^….*zone \/1b$/);
    }
  });

  test("lie on the sheet, side by side and not over each other", () => {
    for (const { paper, columns, rows, widthMm, heightMm, leftMm, topMm, stepX, stepY } of Object.values(
      labelSheets,
    )) {
      expect(stepX).toBeGreaterThanOrEqual(widthMm);
      expect(stepY).toBeGreaterThanOrEqual(heightMm);
      expect(leftMm + (columns - 1) * stepX + widthMm).toBeLessThanOrEqual(paper.widthMm);
      expect(topMm + (rows - 1) * stepY + heightMm).toBeLessThanOrEqual(paper.heightMm);
    }
  });

  test(`the codes give the names back, read off the drawn page by an independent reader${withoutPoppler}`, async (context) => {
    if (!poppler) context.skip("poppler's pdftoppm is not on this machine");
    for (const [sheet, models_] of [
      [labelSheets["a4-14"], models.slice(0, 1)],
      [labelSheets["a4-24"], models],
    ] as const) {
      const cards = pieceCards(models_);
      const [page] = await rasterise(
        printPdf("labels", labelPages(cards, "Lot", sheet, fonts), fonts),
        150,
        1,
        1,
      );
      const wanted = cards.flatMap(({ called, quantityForAll }) => Array(quantityForAll).fill(called));
      for (let i = 0; i < Math.min(sheet.columns * sheet.rows, wanted.length); i++) {
        const x = sheet.leftMm + (i % sheet.columns) * sheet.stepX;
        const y = sheet.topMm + Math.floor(i / sheet.columns) * sheet.stepY;
        const own = cutOut(page, x, y, sheet.widthMm, sheet.heightMm);
        expect(read(await coloured(own), own.width, own.height)?.data).toBe(wanted[i]);
      }
    }
  });

  test("a code of any letters is read back, drawn here as plain squares", () => {
    for (const text of ["foot/1a", "Größe ⅛ – 布", "x".repeat(150)]) {
      const code = encodeQR(text, "raw", { ecc: "medium", border: 4 });
      const MODULE = 4;
      const side = code.length * MODULE;
      const data = new Uint8ClampedArray(4 * side * side);
      for (let y = 0; y < side; y++)
        for (let x = 0; x < side; x++) {
          const ink = code[Math.floor(y / MODULE)][Math.floor(x / MODULE)];
          data.set([ink ? 0 : 255, ink ? 0 : 255, ink ? 0 : 255, 255], 4 * (y * side + x));
        }
      expect(read(data, side, side)?.data).toBe(text);
    }
  });
});
