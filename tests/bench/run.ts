/**
 * `npm run bench`: times every stage.
 *
 *   npm run bench                            all stages, a table of min, median and max
 *   npm run bench -- --only mesh             those whose name contains a word
 *   npm run bench -- shell FILE…             the stages of given project files
 *   npm run bench -- packing PATH…           packs the instances of files or folders; --seconds S each, 60 if not told
 *   npm run bench -- --against HEAD~3        this work tree and another commit in turn, with ratios
 *   npm run bench -- bars PATH…              bars and bound of one-dimensional instances; --seconds S each, 2 if not told
 *   npm run bench -- --json                  one JSON object a line instead of a table
 *
 * Stages come from the files tests/bench/<part>.bench.ts, each exporting `stages: Stage[]`.
 */
import { existsSync, readdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { Command, InvalidArgumentError } from "commander";
import { BenchError, compare } from "./against.ts";
import type { Odd } from "./instance-file.ts";
import { type Row, type Stage, type Timing, timeStage } from "./stage.ts";
import { ratiosTable, timesTable } from "./table.ts";

const root = resolve(import.meta.dirname, "../..");

/** What a bench file may export. */
type BenchFile = {
  readonly stages?: readonly Stage[];
  readonly benchFile?: (path: string, timing: Timing) => Promise<readonly Row[]>;
};

type Options = {
  readonly json?: boolean;
  readonly runs: number;
  readonly rounds: number;
  readonly only?: string;
  readonly against?: string;
};

async function load(name: string): Promise<BenchFile> {
  if (!existsSync(join(import.meta.dirname, name))) throw new BenchError(`tests/bench/${name} is missing.`);
  return import(pathToFileURL(join(import.meta.dirname, name)).href);
}

async function timeStages(options: Options): Promise<Row[]> {
  const names = readdirSync(import.meta.dirname).filter((name) => name.endsWith(".bench.ts"));
  const stages: Stage[] = [];
  for (const name of names.sort()) {
    const file = await load(name);
    if (!file.stages && !file.benchFile)
      throw new BenchError(`tests/bench/${name} exports neither stages nor benchFile.`);
    stages.push(...(file.stages ?? []));
  }
  const chosen = stages.filter(({ name }) => name.includes(options.only ?? ""));
  if (chosen.length === 0) throw new BenchError(`No stage's name contains "${options.only ?? ""}".`);
  const rows: Row[] = [];
  for (const stage of chosen) rows.push(await timeStage(stage, { runs: options.runs }));
  return rows;
}

async function timeProjects(files: readonly string[], options: Options): Promise<Row[]> {
  for (const file of files) if (!existsSync(file)) throw new BenchError(`There is no file ${file}.`);
  const { benchFile } = await load("shell.bench.ts");
  if (!benchFile) throw new BenchError("tests/bench/shell.bench.ts does not export benchFile.");
  const rows: Row[] = [];
  for (const file of files) {
    rows.push(
      ...(await benchFile(file, { runs: options.runs })).filter(({ name }) =>
        name.includes(options.only ?? ""),
      ),
    );
  }
  return rows;
}

/** Times here, or here against a commit, and prints. `what` is the command line to repeat on both sides. */
async function report(options: Options, what: readonly string[], time: () => Promise<Row[]>): Promise<void> {
  const print = (value: object) => console.log(JSON.stringify({ report: "bench", version: 1, ...value }));
  if (options.against === undefined) {
    const rows = await time();
    if (!options.json) console.log(timesTable(rows));
    else for (const row of rows) print(row);
    return;
  }
  const only = options.only === undefined ? [] : ["--only", options.only];
  const args = ["--runs", `${options.runs}`, ...only, ...what];
  const result = await compare(root, options.against, args, options.rounds);
  if (options.json)
    for (const pair of result.pairs) print({ name: pair.here.name, commit: result.commit, ...pair });
  else console.log(ratiosTable(result));
}

function count(text: string): number {
  if (!/^[1-9]\d{0,3}$/.test(text))
    throw new InvalidArgumentError("It must be a whole number from 1 to 9999.");
  return Number(text);
}

/** Prints a row for each instance as it is done; the problem of an odd one is told on stderr as well, and ends in exit code 1. */
async function printRows<Row extends object>(
  report: string,
  rows: AsyncIterable<Row | Odd> | Iterable<Row | Odd>,
  words: (row: Row) => string,
): Promise<void> {
  const json = program.opts<Options>().json === true;
  for await (const row of rows) {
    if (json) console.log(JSON.stringify({ report, version: 1, ...row }));
    if ("problem" in row) {
      console.error(`${row.name}: ${row.problem}`);
      process.exitCode = 1;
    } else if (!json) console.log(words(row));
  }
}

function seconds(text: string): number {
  const value = Number(text);
  if (value > 0 && value <= 3600) return value;
  throw new InvalidArgumentError("It must be a number of seconds above 0, 3600 at the most.");
}

const program = new Command("bench")
  .description("Times the stages of the work; see DEVELOPERS.md.")
  .option("--json", "one JSON object a line")
  .option("--runs <n>", "timed runs of each stage", count, 9)
  .option("--only <text>", "only stages whose name contains this")
  .option("--against <commit>", "compare with a commit, both run in turn")
  .option("--rounds <n>", "with --against: how often each side runs", count, 3)
  .action(() => report(program.opts<Options>(), [], () => timeStages(program.opts<Options>())));

program
  .command("shell")
  .description("the stages of given project files")
  .argument("<files...>", "project files")
  .action((files: string[]) => {
    const paths = files.map((file) => resolve(file));
    return report(program.opts<Options>(), ["shell", ...paths], () =>
      timeProjects(paths, program.opts<Options>()),
    );
  });

program
  .command("packing")
  .description("packs the irregular and rectangular instances of files in the shared formats")
  .argument("<paths...>", "files, or folders with files")
  .option("--seconds <s>", "how long to go on with each", seconds, 60)
  .action(async (paths: string[], options: { seconds: number }) => {
    const { benchPacking } = await import("./packing.bench.ts");
    for (const path of paths) {
      await printRows("packing", benchPacking(path, options.seconds), (row) => {
        const size = `length ${row.length.toFixed(4)}, width ${row.width}, density ${(100 * row.density).toFixed(2)} %`;
        return `${row.name}: ${size}, after ${row.bestAfter.toFixed(1)} of ${row.seconds.toFixed(1)} s`;
      });
    }
  });

program
  .command("bars")
  .description("number of bars and proved bound of one-dimensional cutting instances")
  .argument("<paths...>", "files of the shared one-dimensional format, or folders with files")
  .option("--seconds <s>", "at most so long for each instance", seconds, 2)
  .action(async (paths: string[], options: { seconds: number }) => {
    const { benchBars } = await import("./bars.bench.ts");
    for (const path of paths) {
      await printRows("bars", benchBars(path, options.seconds), ({ name, bars, bound, seconds }) => {
        const gap = bars === bound ? "proved" : `at most ${bars - bound} too many`;
        return `${name.padEnd(24)} ${bars} bars, ${gap}, ${seconds.toFixed(3)} s`;
      });
    }
  });

try {
  await program.parseAsync();
} catch (error) {
  if (!(error instanceof BenchError)) throw error;
  console.error(error.message);
  process.exitCode = 1;
}
