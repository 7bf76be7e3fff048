import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { benchBars } from "../bench/bars.bench.ts";

const folder = mkdtempSync(join(tmpdir(), "ribband-bars-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const bench = (name: string, value: unknown) => {
  const file = join(folder, name);
  writeFileSync(file, typeof value === "string" ? value : JSON.stringify(value));
  return [...benchBars(file, 2)];
};

test("bench -- bars gives a row for each instance of a file of the shared format, whatever the others are", () => {
  const several = {
    instances: [
      { name: "a", capacity: 10, items: [5, 5, 6] },
      { name: "odd", capacity: 10, items: [11] },
      { name: "b", capacity: 10, items: [4, 3, 3] },
    ],
  };
  expect(bench("several.json", several)).toEqual([
    { name: "a", bars: 2, bound: 2, seconds: expect.any(Number) },
    {
      name: "odd",
      problem: "instances[1].items[0] is 11 long, longer than the bar; 10 at the most is wanted.",
    },
    { name: "b", bars: 1, bound: 1, seconds: expect.any(Number) },
  ]);
  const single = { capacity: 10, items: [{ length: 2.5, demand: 8 }] };
  expect(bench("single.json", single)).toMatchObject([{ name: "single", bars: 2, bound: 2 }]);
});

test.each([
  ["decimals of any number", { capacity: 1, items: [0.33333, 0.33333, 0.33334] }, 1],
  ["bars of a million and more", { capacity: 30e6, items: [10e6, 10e6, 10e6, 20e6, 10e6] }, 2],
  ["what is wanted no times", { capacity: 5, items: [{ length: 7, demand: 0 }, { length: 5 }] }, 1],
])("lengths may be %s", (_, value, bars) => {
  expect(bench("lengths.json", value)).toMatchObject([{ bars, bound: bars }]);
});

test.each([
  ["no JSON", "]", /^Line 1, column 1: the file goes on with "\]"/],
  ["no capacity", { items: [1] }, "capacity is missing; a number above 0 is wanted."],
  ["no items", { capacity: 3, items: [] }, "items is a list of 0 entries; a list of lengths"],
  [
    "no demand",
    { capacity: 3, items: [{ length: 1, demand: 0 }] },
    "items asks for nothing, every demand being 0",
  ],
  ["half a piece", { capacity: 3, items: [{ length: 1, demand: 0.5 }] }, /^items\[0\].* is .*wanted\.$/],
  ["a length of nought", { capacity: 3, items: [2, 0] }, "items[1] is 0; a number above 0"],
  ["a length below nought", { capacity: 3, items: [-2] }, "items[0] is -2; a number above 0"],
  ["a length in words", { capacity: 3, items: ["2"] }, 'items[0] is "2"; a length above 0'],
  [
    "an item longer than a bar",
    { capacity: 3, items: [4] },
    "items[0] is 4 long, longer than the bar; 3 at the most",
  ],
  ["too many digits", { capacity: 3, items: [0.1234567890123] }, "items has lengths of too many digits;"],
])("and says what is wrong with %s", (_, value, says) => {
  const [row] = bench("wrong.json", value);
  expect(row).toMatchObject({
    name: "wrong",
    problem: typeof says === "string" ? expect.stringContaining(says) : expect.stringMatching(says),
  });
});
