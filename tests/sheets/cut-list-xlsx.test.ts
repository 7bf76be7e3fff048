import ExcelJs from "exceljs";
import { describe, expect, test } from "vitest";
import { cutListFiles } from "../../core/sheets/cut-list-csv.ts";
import { cutListWorkbook } from "../../core/sheets/cut-list-xlsx.ts";
import { cutLists } from "../../core/sheets/cut-lists.ts";
import { readTable } from "./read-csv.ts";
import { sampleModel } from "./sample-lot.ts";

const { kit } = sampleModel("Knot 5", 3);

const bookOf = async () => {
  const book = new ExcelJs.Workbook();
  await book.xlsx.load(cutListWorkbook(kit).slice().buffer);
  return book;
};

describe("the workbook of a kit", () => {
  test("has the cells of the CSV files, numbers as numbers", async () => {
    const book = await bookOf();
    expect(book.worksheets.map(({ name }) => name)).toEqual(["Cloth", "Strips", "Sheets", "Totals"]);
    const words = cutLists(kit).map((list) => new Map(list.heads.map((head, i) => [head, list.words[i]])));
    let cells = 0;
    [...cutListFiles(kit).values()].forEach((csv, i) => {
      const sheet = book.worksheets[i];
      const lines = readTable(csv);
      expect(sheet.actualRowCount).toBe(lines.length + 1);
      const heads = sheet.getRow(1).values as string[];
      lines.forEach((line, row) => {
        for (const [head, text] of Object.entries(line)) {
          if (head === "outlineMm") continue;
          const { value } = sheet.getRow(row + 2).getCell(heads.indexOf(words[i].get(head)!));
          expect(String(value ?? "")).toBe(text);
          expect(typeof value === "number").toBe(text !== "" && Number.isFinite(Number(text)));
          cells++;
        }
      });
    });
    expect(cells).toBeGreaterThan(150);
  });

  test("has heads in words with units, each once, and no cell that nobody can read", async () => {
    const { worksheets } = await bookOf();
    for (const sheet of worksheets) {
      const heads = (sheet.getRow(1).values as string[]).slice(1);
      expect(new Set(heads).size).toBe(heads.length);
      for (const head of heads) expect(head).toMatch(/^[a-z][a-z, ]*[²°]?$/);
      sheet.eachRow((row) => row.eachCell(({ value }) => expect(String(value).length).toBeLessThan(60)));
    }
    const cloth = worksheets[0].getRow(1).values as string[];
    for (const head of ["for all shells", "left edge mm", "area on the shell m²", "flat area m²", "mass kg"])
      expect(cloth).toContain(head);
    // Of how many and of what an area is, as the tables in the window and on the terminal say.
    expect(worksheets[2].getRow(1).values).toContain("area of a piece m²");
    expect(worksheets[3].getRow(1).values).toContain("area on the shell m²");
  });

  test("is the same at every run", () => {
    expect(cutListWorkbook(kit)).toEqual(cutListWorkbook(kit));
  });
});
