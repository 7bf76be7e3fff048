import ExcelJs from "exceljs";
import { describe, expect, test } from "vitest";
import { cutListFiles } from "../../core/sheets/cut-list-csv.ts";
import { cutListWorkbook } from "../../core/sheets/cut-list-xlsx.ts";
import { readTable } from "./read-csv.ts";
import { sampleModel } from "./sample-lot.ts";

const { kit } = sampleModel("Knot 5", 3);

describe("the workbook of a kit", () => {
  test("has the cells of the CSV files, numbers as numbers", async () => {
    const book = new ExcelJs.Workbook();
    await book.xlsx.load(cutListWorkbook(kit).slice().buffer);
    expect(book.worksheets.map(({ name }) => name)).toEqual(["Cloth", "Strips", "Sheets", "Totals"]);
    let cells = 0;
    [...cutListFiles(kit).values()].forEach((csv, i) => {
      const sheet = book.worksheets[i];
      const lines = readTable(csv);
      expect(sheet.actualRowCount).toBe(lines.length + 1);
      const heads = sheet.getRow(1).values as string[];
      lines.forEach((line, row) => {
        for (const [head, text] of Object.entries(line)) {
          const { value } = sheet.getRow(row + 2).getCell(heads.indexOf(head));
          expect(String(value ?? "")).toBe(text);
          expect(typeof value === "number").toBe(text !== "" && Number.isFinite(Number(text)));
          cells++;
        }
      });
    });
    expect(cells).toBeGreaterThan(150);
  });

  test("is the same at every run", () => {
    expect(cutListWorkbook(kit)).toEqual(cutListWorkbook(kit));
  });
});
