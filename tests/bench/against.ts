/**
 * Times this work tree against another commit: the commit is laid out in a folder of its own, on the packages that
 * are installed here, and both are run in turn, so that a slow minute of the machine falls on both.
 */
import { execFileSync, spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { median, type Row } from "./stage.ts";

export type Comparison = {
  readonly commit: string;
  readonly pairs: readonly {
    readonly here: Row;
    readonly there: Row;
    /** Median here ÷ median there. */
    readonly ratio: number;
    readonly ratioOfMinima: number;
  }[];
  readonly onlyHere: readonly string[];
  readonly onlyThere: readonly string[];
};

/** Trouble that a person can act on, in one sentence. */
export class BenchError extends Error {}

const runner = "tests/bench/run.ts";

/**
 * @param root this work tree, with whatever is not committed
 * @param commit anything git understands
 * @param args the bench's own arguments, without `--against`; paths must be absolute
 * @param rounds how often each side runs
 * @throws BenchError when the commit is unknown or has no bench, or a bench fails
 */
export async function compare(
  root: string,
  commit: string,
  args: readonly string[],
  rounds: number,
): Promise<Comparison> {
  const sha = resolveCommit(root, commit);
  const there = mkdtempSync(join(tmpdir(), "ribband-bench-"));
  const remove = () => removeWorktree(root, there);
  const interrupted = () => {
    remove();
    process.exit(130);
  };
  process.once("SIGINT", interrupted);
  try {
    git(root, ["worktree", "add", "--detach", "--quiet", there, sha]);
    if (!existsSync(join(there, runner))) {
      throw new BenchError(`Commit ${commit} has no ${runner}; compare with a later one.`);
    }
    symlinkSync(join(root, "node_modules"), join(there, "node_modules"), "junction");
    const lock = (folder: string) => readFileSync(join(folder, "package-lock.json"), "utf8");
    if (lock(root) !== lock(there)) {
      console.error(
        `Note: the lock file differs at ${commit}; its code runs on the packages installed here.`,
      );
    }
    const results: { here: Row[][]; there: Row[][] } = { here: [], there: [] };
    for (let round = 1; round <= rounds; round++) {
      console.error(`round ${round} of ${rounds}`);
      results.here.push(await runBench(root, args));
      results.there.push(await runBench(there, args));
    }
    return comparison(sha, merge(results.here), merge(results.there));
  } finally {
    process.off("SIGINT", interrupted);
    remove();
  }
}

function git(root: string, args: readonly string[]): string {
  return execFileSync("git", args, { cwd: root, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] }).trim();
}

function resolveCommit(root: string, commit: string): string {
  try {
    return git(root, ["rev-parse", "--verify", "--end-of-options", `${commit}^{commit}`]);
  } catch (error) {
    throw new BenchError(`"${commit}" is not a commit of this repository.`, { cause: error });
  }
}

function removeWorktree(root: string, folder: string): void {
  // The link goes first, so that nothing follows it into the packages.
  rmSync(join(folder, "node_modules"), { force: true });
  rmSync(folder, { recursive: true, force: true });
  git(root, ["worktree", "prune"]);
}

async function runBench(folder: string, args: readonly string[]): Promise<Row[]> {
  const child = spawn(process.execPath, ["--import", "tsx", runner, "--json", ...args], {
    cwd: folder,
    stdio: ["ignore", "pipe", "inherit"],
  });
  let output = "";
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    output += text;
  });
  const code = await new Promise((done, fail) => {
    child.once("error", fail);
    child.once("close", done);
  });
  if (code !== 0)
    throw new BenchError(`The bench failed in ${folder} (exit code ${code}); its own words stand above.`);
  return output
    .split("\n")
    .filter((text) => text !== "")
    .map((text) => JSON.parse(text) as Row);
}

/** One row for each stage out of several rounds: the least of the minima, the median of the medians. */
export function merge(rounds: readonly (readonly Row[])[]): Map<string, Row> {
  const byName = new Map<string, Row[]>();
  for (const row of rounds.flat()) byName.set(row.name, [...(byName.get(row.name) ?? []), row]);
  return new Map(
    [...byName].map(([name, rows]) => [
      name,
      {
        ...rows[0],
        minMs: Math.min(...rows.map((row) => row.minMs)),
        medianMs: median(rows.map((row) => row.medianMs)),
        maxMs: Math.max(...rows.map((row) => row.maxMs)),
        runs: rows.reduce((sum, row) => sum + row.runs, 0),
      },
    ]),
  );
}

/** Pairs the stages of two sides by name. */
export function comparison(
  commit: string,
  here: ReadonlyMap<string, Row>,
  there: ReadonlyMap<string, Row>,
): Comparison {
  return {
    commit,
    pairs: [...here.values()].flatMap((row) => {
      const other = there.get(row.name);
      if (!other) return [];
      const ratio = row.medianMs / other.medianMs;
      return [{ here: row, there: other, ratio, ratioOfMinima: row.minMs / other.minMs }];
    }),
    onlyHere: [...here.keys()].filter((name) => !there.has(name)),
    onlyThere: [...there.keys()].filter((name) => !here.has(name)),
  };
}
