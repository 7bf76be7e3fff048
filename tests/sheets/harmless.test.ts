import { fc, test as property } from "@fast-check/vitest";
import { expect, test } from "vitest";
import { cutKit } from "../../core/cutting/cut-kit.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import { harmless } from "../../core/sheets/harmless.ts";
import { kitTables } from "../../core/sheets/kit-tables.ts";
import { printTable } from "../../core/sheets/table.ts";

/** All but the line break. */
const control = /[^\P{Cc}\n]|\u202e/u;

test("what commands a terminal is written out, and all else left alone", () => {
  expect(harmless("Gannet \u001b[2J\u001b]0;owned\u0007 11")).toBe(
    "Gannet \\u001b[2J\\u001b]0;owned\\u0007 11",
  );
  expect(harmless("a\nb\r\u009bc \u202etxt.exe")).toBe("a\\u000ab\\u000d\\u009bc \\u202etxt.exe");
  expect(harmless("Sandregenpfeifer 5 – 24' 6 1/2\" × 3,8 m² 🏊 é")).toBe(
    "Sandregenpfeifer 5 – 24' 6 1/2\" × 3,8 m² 🏊 é",
  );
});

property.prop([fc.string({ unit: "binary" })])("in JSON the text stays the same", (text) => {
  const json = JSON.stringify({ text });
  expect(JSON.parse(harmless(json))).toEqual({ text });
  expect(harmless(json)).not.toMatch(control);
});

test("tables and headings hold no control character, and keep their width", () => {
  const wild = "\u001b[31mred\u001b[0m\nand\u0085more";
  const table = printTable([{ head: "name" }, { head: "figure", align: "right" }], [[wild.repeat(4), "1"]]);
  expect(table).not.toMatch(control);
  for (const line of table.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  const empty = { zones: [], adrift: [] };
  const tables = kitTables(wild, empty, cutKit(defaultProject(), empty, 1), { flaws: [], adjustments: [] });
  expect(tables).toBe("\\u001b[31mred\\u001b[0m\\u000aand\\u0085more: kit for 1 shell\n");
});
