import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");
const folder = mkdtempSync(join(tmpdir(), "ribband-instances-"));
beforeAll(() => {
  const write = (name: string, value: object) => writeFileSync(join(folder, name), JSON.stringify(value));
  mkdirSync(join(folder, "shop/empty"), { recursive: true });
  const square = { strip_width: 2, items: [{ w: 1, h: 2, demand: 2 }] };
  write("shop/a.json", { instances: [{ name: "tall", strip_width: 1, items: [{ w: 2, h: 3 }] }, square] });
  write("shop/z.json", square);
  write("shop/notes.txt", {});
  write("shop/.hidden", {});
  write("bars.json", [
    { name: "long", capacity: 2, items: [3] },
    { name: "two", capacity: 2, items: [1, 1, 1] },
  ]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const bench = (...args: string[]) => {
  const command = [
    "--import",
    import.meta.resolve("tsx"),
    join(root, "tests/bench/run.ts"),
    ...args,
    "--seconds",
    "0.3",
  ];
  const { stdout, stderr, status } = spawnSync(process.execPath, command, { cwd: folder, encoding: "utf8" });
  return { rows: stdout.trim().split("\n").filter(Boolean), stderr, status };
};
const figure = expect.any(Number);

describe("a row for each instance, and a sentence in it for an odd one", () => {
  test("of packing", () => {
    const { rows, stderr, status } = bench("packing", "shop", "--json");
    const head = { report: "packing", version: 1 };
    expect(rows.map((row) => JSON.parse(row))).toEqual([
      { ...head, name: "tall", problem: expect.stringContaining("instances[0].items[0] is 2 across") },
      { ...head, name: "a-1", length: 2, width: 2, density: 1, seconds: figure, bestAfter: figure },
      { ...head, name: "notes.txt", problem: "is no file of instances; one that ends in .json is wanted." },
      { ...head, name: "z", length: 2, width: 2, density: 1, seconds: figure, bestAfter: figure },
    ]);
    expect(stderr).toMatch(/^tall: instances\[0\].*wanted\.\nnotes\.txt: is no file .*wanted\.\n$/);
    expect(status).toBe(1);
  });

  test("of bars", () => {
    const { rows, status } = bench("bars", "bars.json", "--json");
    const head = { report: "bars", version: 1 };
    expect(rows.map((row) => JSON.parse(row))).toEqual([
      {
        ...head,
        name: "long",
        problem: "[0].items[0] is 3 long, longer than the bar; 2 at the most is wanted.",
      },
      { ...head, name: "two", bars: 2, bound: 2, seconds: figure },
    ]);
    expect(status).toBe(1);
  });

  test("of a file by itself, in words, and with exit code 0 where nothing is odd", () => {
    const { rows, stderr, status } = bench("packing", join("shop", "z.json"));
    expect(rows).toEqual([expect.stringMatching(/^z: length 2\.0000, width 2, density 100\.00 %, after /)]);
    expect([stderr, status]).toEqual(["", 0]);
  });

  test("of a folder without files, and of one that is not there", () => {
    const { rows, stderr, status } = bench("packing", "shop/empty", "gone");
    expect([rows, status]).toEqual([[], 1]);
    expect(stderr).toBe(
      "shop/empty: is a folder without files; files *.json with instances are wanted.\n" +
        "gone: cannot be read: there is no such file or folder.\n",
    );
  });
});
