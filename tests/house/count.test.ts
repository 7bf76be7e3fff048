import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, test, vi } from "vitest";
import { countTests } from "./count.mjs";
import { seedCount, seedsOf } from "./seeds.ts";

afterEach(() => {
  vi.unstubAllEnvs();
});

function count(testResults: object[] | undefined, endedWell: boolean) {
  const home = mkdtempSync(join(tmpdir(), "ribband-count-"));
  const file = join(home, "report.json");
  try {
    if (testResults) writeFileSync(file, JSON.stringify({ testResults }));
    return countTests(file, endedWell);
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
}

const suite = (status: string, tests: [string, string][], message = "") => ({
  name: "tests/a.test.ts",
  status,
  message,
  assertionResults: tests.map(([fullName, status]) => ({ fullName, status })),
});

describe("the closing line counts", () => {
  test("what passed, what failed and what was left out, by name", () => {
    const results = [
      suite("failed", [
        ["a", "passed"],
        ["b", "failed"],
        ["c", "skipped"],
        ["d", "todo"],
      ]),
      suite("passed", [["e", "passed"]]),
    ];
    expect(count(results, false)).toEqual({ passed: 2, failures: ["b"], skipped: ["c", "d"] });
  });

  test("a file that could not be run as a failure", () => {
    expect(count([suite("failed", [], "no such module")], false).failures).toEqual([
      "tests/a.test.ts: no such module",
    ]);
  });

  test("silence as a failure", () => {
    expect(count(undefined, true).failures).toEqual(["vitest wrote no report"]);
    expect(count([], true).failures).toEqual(["vitest ran no test"]);
    expect(count([suite("passed", [["a", "passed"]])], false).failures).toEqual([
      "vitest reported an error outside the tests",
    ]);
  });
});

describe("the number of seeds", () => {
  test("is the test's own, or RIBBAND_SEEDS", () => {
    vi.stubEnv("RIBBAND_SEEDS", undefined);
    expect(seedCount(20)).toBe(20);
    vi.stubEnv("RIBBAND_SEEDS", "1000");
    expect(seedCount(20)).toBe(1000);
  });

  test.each(["many", "0", "-3", "2.5", "1e9"])("%s is refused by name", (text) => {
    vi.stubEnv("RIBBAND_SEEDS", text);
    expect(() => seedCount(20)).toThrow(`RIBBAND_SEEDS is "${text}"`);
  });

  test("a campaign may take a part of its seeds", () => {
    vi.stubEnv("RIBBAND_SEEDS", undefined);
    expect(seedsOf(3)).toEqual([1, 2, 3]);
    vi.stubEnv("RIBBAND_SEEDS", "2");
    expect(seedsOf(3)).toEqual([1, 2]);
    vi.stubEnv("RIBBAND_SEEDS", "501-503");
    expect(seedsOf(3)).toEqual([501, 502, 503]);
    for (const wrong of ["0-3", "7-6", "1-1000001", "3-"]) {
      vi.stubEnv("RIBBAND_SEEDS", wrong);
      expect(() => seedsOf(3)).toThrow(`RIBBAND_SEEDS is "${wrong}"`);
    }
  });
});
