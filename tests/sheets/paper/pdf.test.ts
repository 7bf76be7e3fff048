import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, test } from "vitest";
import { box, type Drawing, filled, line, outline, words } from "../../../core/sheets/paper/drawing.ts";
import { widthOf } from "../../../core/sheets/paper/font.ts";
import { printPdf } from "../../../core/sheets/paper/pdf.ts";
import { fonts } from "./fonts.ts";
import { darkRuns, poppler, rasterise, withoutPoppler } from "./poppler.ts";

const SAYS = "Größe 3 ⅛ × 7 ⅞, Δ → ½ é “quoted” № 12";
const pages: readonly Drawing[] = [
  {
    widthMm: 210,
    heightMm: 297,
    marks: [outline(box(20, 30, 150, 80)), words(20, 200, SAYS, 5), filled(box(20, 130, 60, 40), "ink")],
  },
  {
    widthMm: 2500,
    heightMm: 700,
    marks: [
      words(1250, 350, "middle", 40, { align: "middle", bold: true }),
      {
        kind: "pane",
        x: 100,
        y: 100,
        width: 200,
        height: 50,
        dx: 100,
        dy: 100,
        marks: [line([-500, 25, 500, 25])],
      },
    ],
  },
];

async function readBack(bytes: Uint8Array) {
  // It takes the bytes for itself.
  const file = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  return Promise.all(
    Array.from({ length: file.numPages }, async (_, i) => {
      const page = await file.getPage(i + 1);
      const { items } = await page.getTextContent();
      return { view: page.view, items: items.filter((item) => "str" in item) };
    }),
  );
}

describe("a PDF", () => {
  const bytes = printPdf("Große Blätter", pages, fonts);

  test("is the same at every run", () => {
    expect(printPdf("Große Blätter", pages, fonts)).toEqual(bytes);
  });

  test("reads back with its pages in points of 25.4/72 mm, and its words with fractions and signs", async () => {
    const [first, second] = await readBack(bytes);
    expect(first.view[2]).toBeCloseTo((210 * 72) / 25.4, 3);
    expect(first.view[3]).toBeCloseTo((297 * 72) / 25.4, 3);
    expect(second.view[2]).toBeCloseTo((2500 * 72) / 25.4, 3);
    expect(first.items.map(({ str }) => str).join("")).toBe(SAYS);
    const [middle] = second.items;
    const width = widthOf(fonts.bold, "middle", 40);
    expect(middle.transform[4]).toBeCloseTo(((1250 - width / 2) * 72) / 25.4, 1);
    expect(middle.width).toBeCloseTo((width * 72) / 25.4, 1);
  });

  test("finds a glyph for each character that sheets use", () => {
    const used = "⅛¼⅜½⅝¾⅞×Δ²→←↔°–—…’“”·";
    const characters = Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i)).join("") + used;
    for (const { glyphs } of Object.values(fonts))
      expect([...characters].filter((each) => !glyphs.has(each.codePointAt(0) as number))).toEqual([]);
  });

  test(`drawn by poppler, lengths are true to 0.1 mm and a pane cuts off what is outside${withoutPoppler}`, async (context) => {
    if (!poppler) context.skip("poppler's pdftoppm is not on this machine");
    const [first] = await rasterise(bytes, 300, 1, 1);
    const sides = darkRuns(first, "x", 70);
    expect(sides).toHaveLength(2);
    const middle = ([from, to]: [number, number]) => (from + to) / 2;
    expect(Math.abs(middle(sides[0]) - 20)).toBeLessThan(0.1);
    expect(Math.abs(middle(sides[1]) - 170)).toBeLessThan(0.1);
    const [second] = await rasterise(bytes, 50, 2, 2);
    const [run, ...others] = darkRuns(second, "x", 125);
    expect(others).toEqual([]);
    expect(Math.abs(run[0] - 100)).toBeLessThan(1);
    expect(Math.abs(run[1] - 300)).toBeLessThan(1);
  });
});
