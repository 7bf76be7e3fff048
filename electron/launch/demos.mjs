/**
 * `npm run demos`: sets up a fresh clone, then runs the main job on every demo project: measures the shell, prints what
 * is to be cut, and writes the cut lists to out/kits/<demo>.
 */
import { spawn } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { basename, join, relative, resolve } from "node:path";
import { LaunchError, launch, setUp } from "./setup.mjs";

const root = resolve(import.meta.dirname, "../..");
const demoFolder = join(root, "assets/demo");
const ending = ".ribband.json";

/**
 * Runs the command line of core, its output shown as it comes, and gives its exit code.
 * @param {string[]} args
 * @returns {Promise<number>}
 */
function ribband(args) {
  const child = spawn(process.execPath, ["electron/launch/command.mjs", ...args], {
    cwd: root,
    stdio: ["ignore", "inherit", "inherit"],
  });
  return new Promise((done, fail) => {
    child.once("error", fail);
    child.once("close", (code) => done(code ?? 1));
  });
}

function demos() {
  const names = existsSync(demoFolder) ? readdirSync(demoFolder).filter((name) => name.endsWith(ending)) : [];
  if (names.length === 0) throw new LaunchError(`No demo project (*${ending}) was found in ${demoFolder}.`);
  return names.sort().map((name) => join(demoFolder, name));
}

await launch(async () => {
  await setUp(root);
  if (!existsSync(join(root, "core/cli/main.ts"))) {
    throw new LaunchError(
      "core/cli/main.ts is missing, so there is no command to run; restore it from the repository.",
    );
  }
  const written = [];
  for (const demo of demos()) {
    const file = relative(root, demo);
    const out = join("out/kits", basename(demo, ending));
    for (const args of [
      ["measure", file],
      ["kit", file, "--out", out],
    ]) {
      console.log(`\n$ npm run --silent ribband -- ${args.join(" ")}\n`);
      const code = await ribband(args);
      // 2 means findings: the work was done and there is something to read.
      if (code !== 0 && code !== 2)
        throw new LaunchError(`\`ribband ${args[0]}\` failed on ${file} (exit code ${code}).`);
    }
    written.push(out);
  }
  console.log("\nThe cut lists were written to:");
  for (const out of written) console.log(`  ${join(root, out)}`);
  return 0;
});
