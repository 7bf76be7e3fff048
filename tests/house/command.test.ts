import { spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";

const root = resolve(import.meta.dirname, "../..");
let place: string;

/** A project of two sources, with the launcher and the packages that it needs. */
beforeEach(() => {
  place = mkdtempSync(join(tmpdir(), "ribband-command-"));
  for (const folder of ["core/cli", "electron/launch", "node_modules"])
    mkdirSync(join(place, folder), { recursive: true });
  cpSync(join(root, "electron/launch/command.mjs"), join(place, "electron/launch/command.mjs"));
  for (const name of ["esbuild", "@esbuild"])
    symlinkSync(join(root, "node_modules", name), join(place, "node_modules", name));
  source("main.ts", 'import { word } from "./word.ts";\nconsole.log(word(process.argv.slice(2)));\n');
  source("word.ts", 'export const word = (args: string[]): string => "one " + args.join(" ");\n');
});
afterEach(() => {
  rmSync(place, { recursive: true, force: true });
});

const source = (name: string, text: string) => writeFileSync(join(place, "core/cli", name), text);
const run = (...args: string[]) =>
  spawnSync(process.execPath, ["electron/launch/command.mjs", ...args], { cwd: place, encoding: "utf8" });
const cache = () => join(place, "node_modules/.cache/ribband");
const bundles = () => readdirSync(cache()).filter((name) => name.endsWith(".mjs"));

test("runs the command line with its words, bundled at the first start only", () => {
  expect(run("kit", "FILE").stdout).toBe("one kit FILE\n");
  const [bundle] = bundles();
  const made = statSync(join(cache(), bundle)).mtimeMs;
  expect(run().stdout).toBe("one \n");
  expect(bundles()).toEqual([bundle]);
  expect(statSync(join(cache(), bundle)).mtimeMs).toBe(made);
});

test("a changed source is seen at the next start; an old bundle goes, one of the last hour may still be running", () => {
  run();
  const [first] = bundles();
  source("word.ts", 'export const word = (): string => "another word";\n');
  expect(run().stdout).toBe("another word\n");
  expect(bundles()).toHaveLength(2);
  const earlier = Date.now() / 1000 - 7200;
  utimesSync(join(cache(), first), earlier, earlier);
  source("word.ts", 'export const word = (): string => "a third word";\n');
  expect(run().stdout).toBe("a third word\n");
  expect(bundles()).toHaveLength(2);
  expect(bundles()).not.toContain(first);
});

test("a stack names the sources and their lines", () => {
  source("word.ts", '\n\nexport const word = (): string => {\n  throw new Error("none");\n};\n');
  for (const start of ["first", "second"]) {
    const { status, stderr } = run(start);
    expect(status).toBe(1);
    expect(stderr).toMatch(/core[\\/]cli[\\/]word\.ts:4:\d+/);
    expect(stderr).toMatch(/core[\\/]cli[\\/]main\.ts:2:\d+/);
  }
});

test("what does not build is told with its place, and the next start tries again", () => {
  source("word.ts", "export const word = (: string => 1;\n");
  const { status, stdout, stderr } = run();
  expect([status, stdout]).toEqual([1, ""]);
  expect(stderr).toContain("core/cli/word.ts:1:");
  source("word.ts", 'export const word = (): string => "mended";\n');
  expect(run().stdout).toBe("mended\n");
});

test("works where nothing can be kept", () => {
  // A file in the folder's place stops root as well, which a folder without permissions does not.
  writeFileSync(join(place, "node_modules/.cache"), "");
  expect(run("kit").stdout).toBe("one kit\n");
  expect(existsSync(cache())).toBe(false);
});

test("without packages it says what to do", () => {
  rmSync(join(place, "node_modules"), { recursive: true });
  const { status, stderr } = run();
  expect([status, stderr]).toEqual([1, "The packages are not installed: run `npm ci` first.\n"]);
});
