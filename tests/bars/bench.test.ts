import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { BenchError } from "../bench/against.ts";
import { benchBars } from "../bench/bars.bench.ts";

const folder = mkdtempSync(join(tmpdir(), "ribband-bars-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const bench = (name: string, text: string) => {
  const file = join(folder, name);
  writeFileSync(file, text);
  return [...benchBars(file, 2)];
};

test("bench -- bars gives a row for each instance of a file of the shared format", () => {
  const several = {
    instances: [
      { name: "a", capacity: 10, items: [5, 5, 6] },
      { name: "b", capacity: 10, items: [4, 3, 3] },
    ],
  };
  expect(bench("several.json", JSON.stringify(several))).toEqual([
    { name: "a", bars: 2, bound: 2, seconds: expect.any(Number) },
    { name: "b", bars: 1, bound: 1, seconds: expect.any(Number) },
  ]);
  const single = { capacity: 10, items: [{ length: 2.5, demand: 8 }] };
  expect(bench("single.json", JSON.stringify(single))).toMatchObject([{ name: "single", bars: 2, bound: 2 }]);
});

test.each([
  ["no JSON", "]", /no JSON.*|not valid JSON/],
  ["no capacity", '{ "items": [1] }', /capacity/],
  ["an item longer than a bar", '{ "capacity": 3, "items": [4] }', /is 4 mm long/],
])("and says what is wrong with %s", (_, text, says) => {
  expect(() => bench("wrong.json", text)).toThrow(BenchError);
  expect(() => bench("wrong.json", text)).toThrow(says);
});
