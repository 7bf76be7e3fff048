import { fc, test as propertyTest } from "@fast-check/vitest";
import { expect, test } from "vitest";
import { findings, printTable, section } from "../../core/sheets/table.ts";

test("heads, a rule, words to the left, figures to the right", () => {
  const table = printTable(
    [{ head: "zone" }, { head: "area m²", align: "right" }],
    [
      ["foot", "10.250"],
      ["steps-rise-1", "0.980"],
    ],
  );
  expect(table).toBe(
    [
      "  zone          area m²",
      "  ────────────  ───────",
      "  foot           10.250",
      "  steps-rise-1    0.980",
      "",
    ].join("\n"),
  );
});

test("words that are too long go on in the next line, broken where a name has a joint", () => {
  const long = "a-bench-with-a-long-name/riser|another-feature-with-a-long-name/tread-12";
  const table = printTable(
    [{ head: "id" }, { head: "between" }, { head: "length mm", align: "right" }],
    [[long, long.replace("|", " | "), "12345"]],
  );
  for (const line of table.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  const ids = table
    .split("\n")
    .slice(2)
    .map((line) => line.slice(2, line.indexOf("  ", 2)))
    .join("");
  expect(ids).toContain(long);
});

const cell = fc
  .string({ unit: fc.constantFrom(..."abcdefg-/| ²"), minLength: 1, maxLength: 60 })
  .map((text) => text.trim());

propertyTest.prop([fc.array(fc.tuple(cell, cell, fc.nat()), { minLength: 1, maxLength: 6 })])(
  "no line is wider than 80, and no word is lost",
  (rows) => {
    const table = printTable(
      [{ head: "first" }, { head: "second" }, { head: "n", align: "right" }],
      rows.map(([a, b, n]) => [a, b, `${n}`]),
    );
    for (const line of table.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
    const letters = (text: string) =>
      [...text]
        .filter((c) => !" ─\n".includes(c))
        .sort()
        .join("");
    const heads = "firstsecondn";
    expect(letters(table)).toBe(letters(heads + rows.map((row) => row.join("")).join("")));
  },
);

test("a heading stands only over something", () => {
  expect(section("Zones", "")).toBe("");
  expect(findings("To look at", [])).toBe("");
  const long =
    "foot: the lap at 1234 mm lies in a tight corner, and this sentence goes on for longer than a line holds";
  expect(findings("To look at", [long])).toBe(
    "To look at\n  - foot: the lap at 1234 mm lies in a tight corner, and this sentence goes on\n    for longer than a line holds\n",
  );
});
