/**
 * `npm test`: sets up a fresh clone, then runs every check and closes with one line, `N passed, N failed`.
 * Each check of the house (types, lint, dead code, layers) counts as one, each vitest test as one.
 * Arguments go to vitest as file filters: `npm test -- tests/plan`.
 */
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { launch, setUp } from "../../electron/launch/setup.mjs";
import { countTests } from "./count.mjs";

const root = resolve(import.meta.dirname, "../..");

/**
 * The script behind a package's command. Started with Node itself, it needs no shell on any system.
 * @param {string} name the package
 * @param {string} command
 */
function script(name, command) {
  const folder = join(root, "node_modules", name);
  const { bin } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  return join(folder, typeof bin === "string" ? bin : bin[command]);
}

/**
 * Runs Node on a script and tells whether it ended well.
 * @param {string[]} args
 * @param {(text: string) => void} [hear] is told its output, which is else shown as it comes
 * @returns {Promise<boolean>}
 */
function node(args, hear) {
  const out = hear ? "pipe" : "inherit";
  const child = spawn(process.execPath, args, { cwd: root, stdio: ["ignore", out, out] });
  if (hear) for (const stream of [child.stdout, child.stderr]) stream?.setEncoding("utf8").on("data", hear);
  return new Promise((done, fail) => {
    child.once("error", fail);
    child.once("close", (code) => done(code === 0));
  });
}

/**
 * @param {string[]} filters
 * @returns {Promise<import("./count.mjs").Count>}
 */
async function vitest(filters) {
  const folder = mkdtempSync(join(tmpdir(), "ribband-test-"));
  const file = join(folder, "report.json");
  try {
    const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${file}`];
    const endedWell = await node([script("vitest", "vitest"), "run", ...reporters, ...filters]);
    return countTests(file, endedWell);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

await launch(async () => {
  await setUp(root);
  const steps = [
    {
      name: "types",
      runs: [
        ["typescript", "tsc", "-p", "tsconfig.json"],
        ["typescript", "tsc", "-p", "core/tsconfig.json"],
        ["typescript", "tsc", "-p", "renderer/tsconfig.json"],
      ],
    },
    { name: "lint", runs: [["@biomejs/biome", "biome", "check", "--error-on-warnings"]] },
    { name: "dead code", runs: [["knip", "knip"]] },
  ].map(({ name, runs }) => ({
    name,
    runs: runs.map(([name, command, ...rest]) => [script(name, command), ...rest]),
  }));
  steps.push({ name: "layers", runs: [["tests/house/layers.mjs"]] });

  let passed = 0;
  const failures = [];
  // All at once, since none of them fills the cores by itself; each is told when it is done.
  await Promise.all(
    steps.map(async ({ name, runs }) => {
      const started = Date.now();
      let said = "";
      let good = true;
      for (const args of runs) {
        const well = await node(args, (text) => {
          said += text;
        });
        good = well && good;
      }
      const seconds = ((Date.now() - started) / 1000).toFixed(1);
      console.log(`\n── ${name} ──\n${said}${name}: ${good ? "passed" : "FAILED"} (${seconds} s)`);
      if (good) passed++;
      else failures.push(name);
    }),
  );

  console.log("\n── tests ──");
  const tests = await vitest(process.argv.slice(2));
  passed += tests.passed;
  failures.push(...tests.failures);

  for (const name of tests.skipped) console.log(`skipped: ${name}`);
  for (const name of failures) console.log(`failed: ${name}`);
  console.log(`${passed} passed, ${failures.length} failed`);
  return failures.length === 0 ? 0 : 1;
});
