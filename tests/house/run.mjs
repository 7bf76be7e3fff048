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
 * Runs Node on a script, its output shown as it comes, and tells whether it ended well.
 * @param {string[]} args
 * @returns {Promise<boolean>}
 */
function node(args) {
  const child = spawn(process.execPath, args, { cwd: root, stdio: ["ignore", "inherit", "inherit"] });
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
  for (const { name, runs } of steps) {
    console.log(`\n── ${name} ──`);
    const started = Date.now();
    let good = true;
    for (const args of runs) good = (await node(args)) && good;
    console.log(`${name}: ${good ? "passed" : "FAILED"} (${((Date.now() - started) / 1000).toFixed(1)} s)`);
    if (good) passed++;
    else failures.push(name);
  }

  console.log("\n── tests ──");
  const tests = await vitest(process.argv.slice(2));
  passed += tests.passed;
  failures.push(...tests.failures);

  for (const name of tests.skipped) console.log(`skipped: ${name}`);
  for (const name of failures) console.log(`failed: ${name}`);
  console.log(`${passed} passed, ${failures.length} failed`);
  return failures.length === 0 ? 0 : 1;
});
