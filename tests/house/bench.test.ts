import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { comparison, merge } from "../bench/against.ts";
import { median, rowOf, timeStage } from "../bench/stage.ts";
import { milliseconds, ratiosTable, timesTable } from "../bench/table.ts";

const root = join(import.meta.dirname, "../..");

describe("timing a stage", () => {
  test("the middle of an odd and of an even number of times", () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 2, 3])).toBe(2.5);
    expect(rowOf("a", [3, 1, 2])).toEqual({ name: "a", minMs: 1, medianMs: 2, maxMs: 3, runs: 3 });
  });

  test("prepares once, warms up, and counts only the timed runs", async () => {
    const calls: string[] = [];
    const stage = { name: "a", prepare: () => void calls.push("prepare"), run: () => void calls.push("run") };
    const row = await timeStage(stage, { runs: 5, warmUps: 2, warmUpMs: 0 });
    expect(row.runs).toBe(5);
    expect(calls).toEqual(["prepare", ...Array(7).fill("run")]);
  });

  test("a slow stage stops after three runs once the budget is spent", async () => {
    const pause = () => new Promise((done) => setTimeout(done, 10));
    const row = await timeStage({ name: "slow", run: pause }, { runs: 100, budgetMs: 1 });
    expect(row.runs).toBe(3);
    expect(row.minMs).toBeGreaterThan(8);
  });
});

describe("tables", () => {
  test("fit 80 columns, whatever the name, and show the note", () => {
    const long = { ...rowOf("x".repeat(100), [123456.7, 0.0123]), note: "94,812 triangles" };
    const lines = timesTable([long, rowOf("short", [1.5])]).split("\n");
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    expect(lines[3]).toBe("  94,812 triangles");
    expect(lines[4]).toBe(`${"short".padEnd(40)}      1.50      1.50      1.50         1`);
  });

  test("milliseconds keep three figures", () => {
    expect([0.0123, 1.234, 12.34, 123.4].map(milliseconds)).toEqual(["0.012", "1.23", "12.3", "123"]);
  });
});

describe("two sides", () => {
  const row = (name: string, ...times: number[]) => rowOf(name, times);

  test("rounds are merged, stages paired by name, and lone ones told", () => {
    const here = merge([[row("mesh", 1, 2, 3), row("new", 1)], [row("mesh", 2, 4, 9)]]);
    const there = merge([[row("mesh", 4, 6, 8), row("old", 1)]]);
    expect(here.get("mesh")).toEqual({ name: "mesh", minMs: 1, medianMs: 3, maxMs: 9, runs: 6 });
    const result = comparison("abc", here, there);
    expect(result.pairs.map(({ ratio, ratioOfMinima }) => [ratio, ratioOfMinima])).toEqual([[0.5, 0.25]]);
    expect([result.onlyHere, result.onlyThere]).toEqual([["new"], ["old"]]);
    expect(ratiosTable(result)).toContain("new: only here\nold: only there");
  });
});

describe("the command, in a repository of its own", () => {
  let folder = "";
  const git = (...args: string[]) =>
    execFileSync("git", ["-c", "user.name=Test", "-c", "user.email=test@example.invalid", ...args], {
      cwd: folder,
    });
  const bench = (...args: string[]) =>
    spawnSync(process.execPath, ["--import", "tsx", "tests/bench/run.ts", ...args], {
      cwd: folder,
      encoding: "utf8",
      env: { ...process.env, TMPDIR: join(folder, "tmp"), TEMP: join(folder, "tmp") },
    });
  const stage = (name: string, ms: number) =>
    `export const stages = [{ name: "${name}", run: () => new Promise((done) => setTimeout(done, ${ms})) }];`;

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "ribband-bench-test-"));
    for (const path of ["package.json", "package-lock.json"]) cpSync(join(root, path), join(folder, path));
    cpSync(join(root, "tests/bench"), join(folder, "tests/bench"), {
      recursive: true,
      filter: (path) => !path.endsWith(".bench.ts"),
    });
    mkdirSync(join(folder, "tmp"));
    symlinkSync(join(root, "node_modules"), join(folder, "node_modules"), "junction");
    writeFileSync(join(folder, ".gitignore"), "node_modules\ntmp\n");
    writeFileSync(join(folder, "tests/bench/a.bench.ts"), stage("sleep", 40));
    git("init", "--quiet");
    git("add", ".");
    git("commit", "--quiet", "-m", "First");
    writeFileSync(join(folder, "tests/bench/a.bench.ts"), stage("sleep", 10));
    writeFileSync(
      join(folder, "tests/bench/shell.bench.ts"),
      `export const benchFile = async (path, { runs }) => [{ name: path, minMs: 1, medianMs: 2, maxMs: 3, runs }];`,
    );
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test("compares the work tree with a commit in one run, and clears up", () => {
    const { stdout, status } = bench("--against", "HEAD", "--json", "--runs", "3", "--rounds", "2");
    expect(status).toBe(0);
    const result = JSON.parse(stdout);
    expect(result).toMatchObject({
      report: "bench",
      version: 1,
      name: "sleep",
      here: { runs: 6 },
      there: { runs: 6 },
    });
    expect(result.ratio).toBeGreaterThan(0.15);
    expect(result.ratio).toBeLessThan(0.7);
    expect(
      execFileSync("git", ["worktree", "list"], { cwd: folder, encoding: "utf8" }).trim().split("\n"),
    ).toHaveLength(1);
    expect(readdirSync(join(folder, "tmp")).filter((name) => name.startsWith("ribband-bench-"))).toEqual([]);
  });

  test("gives the rows of project files", () => {
    const { stdout, status } = bench("--json", "--runs", "4", "shell", "package.json");
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ name: join(folder, "package.json"), runs: 4 });
  });

  test.each([
    [["--against", "nowhere"], '"nowhere" is not a commit of this repository.'],
    [["--only", "nothing"], `No stage's name contains "nothing".`],
    [["shell", "gone.json"], "There is no file"],
    [["--runs", "0"], "whole number from 1 to 9999"],
  ])("%j is refused in a sentence", (args, sentence) => {
    const { stderr, status } = bench(...args);
    expect(status).toBe(1);
    expect(stderr).toContain(sentence);
    expect(stderr).not.toContain("    at ");
  });
});
