import { spawnSync } from "node:child_process";
import {
  accessSync,
  constants,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { packagesFor, whyInstall } from "../../electron/launch/setup.mjs";

const root = join(import.meta.dirname, "../..");
const folders: string[] = [];

/** A folder of its own with the given files. */
function place(files: Record<string, string | object>): string {
  const folder = mkdtempSync(join(tmpdir(), "ribband-launch-"));
  folders.push(folder);
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), typeof content === "string" ? content : JSON.stringify(content));
  }
  return folder;
}

afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

const zod = { version: "4.6.7", integrity: "sha512-a" };
const elsewhere = { version: "1.0.0", integrity: "sha512-b", optional: true };
const lock = {
  packages: { "": { name: "ribband" }, "node_modules/zod": zod, "node_modules/elsewhere": elsewhere },
};
const installedList = "node_modules/.package-lock.json";

describe("when packages are installed", () => {
  test.each<[string, Record<string, object>, string | undefined]>([
    ["a fresh clone", {}, "the packages are not installed yet"],
    [
      "an installation that broke off",
      { "node_modules/zod/package.json": {} },
      "the last installation did not finish",
    ],
    ["all is in place", { [installedList]: { packages: { "node_modules/zod": zod } } }, undefined],
    [
      "optional ones too",
      { [installedList]: { packages: { "node_modules/zod": zod, "node_modules/elsewhere": elsewhere } } },
      undefined,
    ],
    [
      "another version",
      { [installedList]: { packages: { "node_modules/zod": { ...zod, version: "4.6.6" } } } },
      "the lock file changed (zod)",
    ],
    [
      "another build of it",
      { [installedList]: { packages: { "node_modules/zod": { ...zod, integrity: "x" } } } },
      "the lock file changed (zod)",
    ],
    ["a package missing", { [installedList]: { packages: {} } }, "the lock file changed (zod)"],
    [
      "a package too many",
      { [installedList]: { packages: { "node_modules/zod": zod, "node_modules/@old/one": zod } } },
      "the lock file changed (@old/one)",
    ],
  ])("%s", (_, files, reason) => {
    expect(whyInstall(place({ "package-lock.json": lock, ...files }))).toBe(reason);
  });
});

describe("set-up", () => {
  const work = `
    import { launch, setUp } from ${JSON.stringify(join(root, "electron/launch/setup.mjs"))};
    await launch(async () => { await setUp(process.cwd()); console.log("the work itself"); return 0; });`;
  const run = (npm: string, env: NodeJS.ProcessEnv = {}) => {
    const folder = place({ "package-lock.json": lock, "npm.js": npm, "work.mjs": work });
    return spawnSync(process.execPath, ["work.mjs"], {
      cwd: folder,
      encoding: "utf8",
      env: { ...process.env, npm_execpath: join(folder, "npm.js"), ...env },
    });
  };

  test("runs npm ci on a fresh clone, shows it, then goes on", () => {
    const { stdout, status } = run(`console.log("npm was asked for", process.argv[2])`);
    expect(stdout).toContain("Setting up: the packages are not installed yet.");
    expect(stdout).toContain("npm was asked for ci");
    expect(stdout).toMatch(/Set-up done\.\s+the work itself/);
    expect(status).toBe(0);
  });

  test("a failed npm ci ends in one sentence, without a stack, and the work is not begun", () => {
    const { stdout, stderr, status } = run("console.error('npm error no network'); process.exit(7)");
    expect(status).toBe(1);
    expect(stderr).toContain("npm error no network");
    expect(stderr).toContain("Set-up failed: `npm ci` ended with code 7");
    expect(stderr).not.toContain("    at ");
    expect(stdout).not.toContain("the work itself");
  });

  test("a machine without npm ends in one sentence", () => {
    const { stderr, status } = run("", { npm_execpath: "", PATH: "" });
    expect(status).toBe(1);
    expect(stderr).toContain("Set-up failed: npm could not be started");
    expect(stderr).not.toContain("    at ");
  });
});

describe("npm run demos", () => {
  const program = (code: number) => `
    console.log("ran", process.argv.slice(2).join(" "));
    process.exit(process.argv[2] === "kit" ? ${code} : 0);`;
  const runDemos = (files: Record<string, string | object>) => {
    const folder = place(files);
    cpSync(join(root, "electron/launch"), join(folder, "electron/launch"), { recursive: true });
    for (const name of ["package.json", "package-lock.json"]) cpSync(join(root, name), join(folder, name));
    symlinkSync(join(root, "node_modules"), join(folder, "node_modules"), "junction");
    return spawnSync(process.execPath, ["electron/launch/demos.mjs"], { cwd: folder, encoding: "utf8" });
  };
  const demos = { "assets/demo/knot-5.ribband.json": "{}", "assets/demo/avocet-8.ribband.json": "{}" };

  test("measures every demo, makes its kit, and names the folders", () => {
    const { stdout, status } = runDemos({ ...demos, "core/cli/main.ts": program(0) });
    expect(stdout.match(/^ran .*$/gm)).toEqual([
      "ran measure assets/demo/avocet-8.ribband.json",
      "ran kit assets/demo/avocet-8.ribband.json --out out/kits/avocet-8",
      "ran measure assets/demo/knot-5.ribband.json",
      "ran kit assets/demo/knot-5.ribband.json --out out/kits/knot-5",
    ]);
    expect(stdout).toMatch(/The cut lists were written to:\n.*out\/kits\/avocet-8\n.*out\/kits\/knot-5\n$/);
    expect(status).toBe(0);
  });

  test("findings are no failure", () => {
    expect(runDemos({ ...demos, "core/cli/main.ts": program(2) }).status).toBe(0);
  });

  test.each<[string, Record<string, string>, string]>([
    [
      "a failing command",
      { ...demos, "core/cli/main.ts": program(1) },
      "`ribband kit` failed on assets/demo/avocet-8.ribband.json (exit code 1).",
    ],
    ["no demo projects", { "core/cli/main.ts": program(0) }, "No demo project (*.ribband.json) was found"],
    ["no command line", demos, "core/cli/main.ts is missing"],
  ])("%s ends in one sentence", (_, files, sentence) => {
    const { stderr, status } = runDemos(files);
    expect(status).toBe(1);
    expect(stderr.trim().split("\n")).toHaveLength(1);
    expect(stderr).toContain(sentence);
  });
});

test("CI is the same command as npm test", () => {
  const script = readFileSync(join(root, ".ci/run"), "utf8");
  expect(script).toMatch(/^#!\/usr\/bin\/env bash\n/);
  expect(script).toMatch(/npm test --silent\n$/);
  accessSync(join(root, ".ci/run"), constants.X_OK);
});

test("set-up counts the packages that this machine gets, each folder of node_modules once", () => {
  const lock = {
    "": {},
    "node_modules/zod": {},
    "node_modules/@types/node": {},
    "node_modules/zod/node_modules/inner": {},
    "node_modules/for-mac": { os: ["darwin"] },
    "node_modules/not-for-windows": { os: ["!win32"] },
    "node_modules/for-arm": { cpu: ["arm64"] },
    "node_modules/for-musl": { libc: ["musl"] },
  };
  expect(packagesFor(lock, { platform: "linux", arch: "x64" })).toBe(3);
  expect(packagesFor(lock, { platform: "darwin", arch: "arm64" })).toBe(5);
  expect(packagesFor(lock, { platform: "win32", arch: "x64" })).toBe(2);
});
