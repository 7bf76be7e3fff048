import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { cuttingOf } from "../../core/project/lot-schema.ts";
import { isLotText, parseLot } from "../../core/project/parse-lot.ts";

const good = {
  format: "ribband-lot",
  version: 1,
  name: "Week 14",
  models: [{ project: "knot-5.ribband.json", shells: 3 }],
  cutting: { way: "hand" },
  stock: {
    rolls: [{ id: "roll", material: "woven-800", width: 1270, length: 75000 }],
    sheets: [],
    bars: [{ id: "bar", material: "rib-strip", length: 2400, count: 20 }],
  },
};

/** What is said of a lot with something changed. */
function told(change: (lot: typeof good & Record<string, unknown>) => unknown): string[] {
  const copy = structuredClone(good);
  change(copy);
  const parsed = parseLot(JSON.stringify(copy));
  return parsed.ok
    ? []
    : parsed.problems.map(({ sentence }) => sentence.replace(/^Line \d+, column \d+: /, ""));
}

describe("a lot file", () => {
  test("is read as it stands", () => {
    expect(parseLot(JSON.stringify(good))).toEqual({ ok: true, lot: good });
    expect(isLotText(JSON.stringify(good))).toBe(true);
    expect(isLotText('{ "format": "ribband" }')).toBe(false);
    expect(isLotText("not JSON at all")).toBe(false);
    const demo = readFileSync(new URL("../../assets/demo/week-14.ribband-lot.json", import.meta.url), "utf8");
    expect(parseLot(demo).ok).toBe(true);
  });

  test("leaves the shop's habits out where they are the usual ones", () => {
    expect(cuttingOf({ way: "table", gap: 8 })).toEqual({
      way: "table",
      gap: 8,
      margin: 0,
      endTrim: 5,
      keepFrom: 400,
      seed: 1,
    });
  });
});

describe("what is wrong with it is told by field, value and what is right", () => {
  test.each<[string, (lot: typeof good & Record<string, unknown>) => unknown, string[]]>([
    [
      "an absurd gap",
      (lot) => Object.assign(lot.cutting, { gap: 5000 }),
      ["cutting.gap is 5000; it must be a length in mm from 0 to 100."],
    ],
    [
      "a kerf that is no number",
      (lot) => Object.assign(lot.cutting, { kerf: "3mm" }),
      [
        'cutting.kerf is "3mm"; it must be a length in mm from 0 to 20. Lengths are plain numbers in mm, without quotes: write 3.',
      ],
    ],
    [
      "a way that nobody cuts",
      (lot) => Object.assign(lot.cutting, { way: "tabel" }),
      ['cutting.way is "tabel"; it must be "hand" or "table". Did you mean "table"?'],
    ],
    [
      "no shells and a slip of the pen",
      (lot) => Object.assign(lot.models[0], { shells: 0, shels: 3 }),
      [
        "models[0].shells is 0; it must be a whole number from 1 to 1000.",
        "models[0].shels is not known here; did you mean shells? Else known here: project.",
      ],
    ],
    [
      "no models",
      (lot) => Object.assign(lot, { models: [] }),
      ["models is a list of 0 entries; it must be a list of 1 to 100 entries."],
    ],
    [
      "an id twice",
      (lot) => Object.assign(lot.stock.bars[0], { id: "roll" }),
      [
        'stock.bars[0].id is "roll", as is stock.rolls[0].id; it must be an id that no other entry of the stock has.',
      ],
    ],
    [
      "a price for some",
      (lot) =>
        lot.stock.bars.push({ id: "long", material: "rib-strip", length: 3000, count: 5, price: 9 } as never),
      [
        "stock.bars[0].price (bar) is missing; it must be the price of one. stock.bars[1], of the same material, has one: all of a material have a price or none has.",
      ],
    ],
    [
      "a remnant without end",
      (lot) =>
        lot.stock.bars.push({ id: "rest", material: "rib-strip", length: 900, remnant: true } as never),
      ["stock.bars[1].count (rest) is missing; it must be how many there are of this remnant."],
    ],
    [
      "a newer version",
      (lot) => Object.assign(lot, { version: 2 }),
      ["version is 2; it must be at most 1. The file was saved by a newer Ribband: open it with that one."],
    ],
    [
      "a length in metres",
      (lot) => Object.assign(lot.stock.bars[0], { length: 2.4 }),
      [
        "stock.bars[0].length (bar) is 2.4; it must be a length in mm from 50 to 12000. This looks like metres: write 2400.",
      ],
    ],
  ])("%s", (_, change, sentences) => {
    expect(told(change)).toEqual(sentences);
  });

  test("with its place in the text, and what is no JSON beside what is not allowed", () => {
    const text = JSON.stringify(good, null, 2)
      .replace('"shells": 3', '"shells": 3.5')
      .replace("75000", "75m");
    const parsed = parseLot(text);
    expect(parsed.ok).toBe(false);
    const sentences = parsed.ok ? [] : parsed.problems.map(({ sentence }) => sentence);
    expect(sentences[0]).toMatch(
      /^Line 8, column \d+: models\[0\]\.shells is 3\.5; it must be a whole number/,
    );
    expect(sentences[1]).toMatch(/^Line 20, column \d+: .*75m/);
  });

  test("what is no lot at all", () => {
    const parsed = parseLot("[]");
    expect(parsed.ok ? [] : parsed.problems[0].sentence).toMatch(
      /it must be a lot: one JSON object in braces/,
    );
  });
});
