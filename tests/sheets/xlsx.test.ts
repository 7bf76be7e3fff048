import ExcelJs from "exceljs";
import { describe, expect, test } from "vitest";
import { printXlsx } from "../../core/sheets/xlsx.ts";

const sheets = [
  {
    name: "Cloth & more",
    heads: ["name", "lengthMm", "note"],
    rows: [
      ["foot/1a", 2340.5, "=1+2"],
      ["  <b>", -0.1, ""],
      ["⅛ é 布", 1e-7, "a\nb"],
    ],
  },
  { name: "Empty", heads: ["only heads"], rows: [] },
];

async function readBack(bytes: Uint8Array) {
  const book = new ExcelJs.Workbook();
  await book.xlsx.load(bytes.slice().buffer);
  return book;
}

describe("a workbook", () => {
  const bytes = printXlsx(sheets);

  test("reads back cell by cell; words are never formulas, numbers stay numbers", async () => {
    const book = await readBack(bytes);
    expect(book.worksheets.map(({ name }) => name)).toEqual(["Cloth & more", "Empty"]);
    sheets.forEach(({ name, heads, rows }) => {
      const sheet = book.getWorksheet(name);
      expect(sheet?.actualRowCount).toBe(rows.length + 1);
      [heads, ...rows].forEach((row, i) => {
        row.forEach((cell, column) => {
          const found = sheet?.getCell(i + 1, column + 1);
          expect(found?.type).not.toBe(ExcelJs.ValueType.Formula);
          expect(found?.value).toBe(cell === "" ? null : cell);
        });
      });
    });
  });

  test("has columns past Z", async () => {
    const heads = Array.from({ length: 60 }, (_, i) => `c${i}`);
    const book = await readBack(printXlsx([{ name: "Wide", heads, rows: [] }]));
    expect(book.getWorksheet("Wide")?.getCell("BH1").value).toBe("c59");
  });

  test("is the same at every run, whatever the hour", () => {
    expect(printXlsx(sheets)).toEqual(bytes);
  });

  test("refuses a number that is none", () => {
    expect(() => printXlsx([{ name: "a", heads: ["b"], rows: [[Number.NaN]] }])).toThrow("NaN");
  });
});
