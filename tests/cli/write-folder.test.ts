import { spawn } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

/** The name of a file that another program holds fast, as far as this one can see. */
const locked = vi.hoisted(() => ({ name: "" }));
vi.mock("node:fs/promises", async (original) => {
  const real = await original<typeof import("node:fs/promises")>();
  const rename = async (from: string, to: string) => {
    if (basename(to) === locked.name) throw Object.assign(new Error("locked"), { code: "EBUSY" });
    await real.rename(from, to);
  };
  return { ...real, rename };
});
// Another file of this worker may have read them before, with the true file system.
vi.resetModules();
const { BadInput } = await import("../../core/cli/bad-input.ts");
const { checkFolder, othersIn, writeFolder } = await import("../../core/cli/write-folder.ts");

let place: string;
beforeEach(() => {
  locked.name = "";
  place = mkdtempSync(join(tmpdir(), "ribband-write-"));
});
afterEach(() => {
  chmodSync(place, 0o755);
  rmSync(place, { recursive: true, force: true });
});

const files = new Map([
  ["a.csv", "one\r\n"],
  ["b.csv", "two\r\n"],
]);
const contents = (folder: string) =>
  Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), "utf8")]));

test("a new folder appears with all its files, folders above it too", async () => {
  await writeFolder(join(place, "out/kits/one"), files);
  expect(contents(join(place, "out/kits/one"))).toEqual({ "a.csv": "one\r\n", "b.csv": "two\r\n" });
  expect(readdirSync(join(place, "out/kits"))).toEqual(["one"]);
  // As open to others as any new folder, not for its owner alone.
  expect(statSync(join(place, "out/kits/one")).mode & 0o777).toBe(0o777 & ~process.umask());
});

test("in an old folder files of the same name are replaced and others left alone", async () => {
  writeFileSync(join(place, "a.csv"), "old");
  writeFileSync(join(place, "mine.txt"), "mine");
  await writeFolder(place, files);
  expect(contents(place)).toEqual({ "a.csv": "one\r\n", "b.csv": "two\r\n", "mine.txt": "mine" });
});

test("names may have folders in them, and contents be bytes; in an old folder they join what is there", async () => {
  const bytes = Uint8Array.of(0, 255, 10, 13);
  const deep = new Map<string, string | Uint8Array>([...files, ["markers/a.dxf", bytes]]);
  await writeFolder(join(place, "kit"), deep);
  writeFileSync(join(place, "kit/markers/mine.txt"), "mine");
  await writeFolder(join(place, "kit"), deep);
  expect(Uint8Array.from(readFileSync(join(place, "kit/markers/a.dxf")))).toEqual(bytes);
  expect(readdirSync(join(place, "kit")).sort()).toEqual(["a.csv", "b.csv", "markers"]);
  expect(readdirSync(join(place, "kit/markers")).sort()).toEqual(["a.dxf", "mine.txt"]);
});

test("files of an earlier run beside those written are known", async () => {
  const first = new Map([
    ["a.csv", "one"],
    ["markers/a.dxf", "one"],
    ["markers/b.dxf", "two"],
  ]);
  await writeFolder(join(place, "kit"), first);
  expect(await othersIn(join(place, "kit"), ["markers", "none"], first)).toEqual([]);
  const second = new Map([["markers/a.dxf", "one"]]);
  await writeFolder(join(place, "kit"), second);
  expect(await othersIn(join(place, "kit"), ["markers"], second)).toEqual(["markers/b.dxf"]);
});

test("a file where a folder of files is wanted is refused, and nothing is written", async () => {
  writeFileSync(join(place, "markers"), "mine");
  const deep = new Map([...files, ["markers/a.dxf", "three"]]);
  await expect(writeFolder(place, deep)).rejects.toThrow(/markers in it is a file; nothing was written/);
  expect(contents(place)).toEqual({ markers: "mine" });
});

test("when a file cannot be moved, folders that were made for it go again", async () => {
  mkdirSync(join(place, "kit"));
  locked.name = "b.dxf";
  const deep = new Map([
    ["markers/a.dxf", "one"],
    ["templates/b.dxf", "two"],
  ]);
  await expect(writeFolder(join(place, "kit"), deep)).rejects.toThrow(BadInput);
  expect(readdirSync(join(place, "kit"))).toEqual([]);
});

test("a file in the folder's place is refused and left alone", async () => {
  writeFileSync(join(place, "kit"), "mine");
  await expect(writeFolder(join(place, "kit"), files)).rejects.toThrow(
    /kit is a file; the cut lists need the name of a folder/,
  );
  await expect(writeFolder(join(place, "kit/deeper"), files)).rejects.toThrow(
    /a part of its path is a file, not a folder/,
  );
  expect(contents(place)).toEqual({ kit: "mine" });
});

test.each(["a.csv", "b.csv"])("a folder named %s in the way: nothing is written at all", async (name) => {
  mkdirSync(join(place, name, "inside"), { recursive: true });
  await expect(writeFolder(place, files)).rejects.toThrow(`${name} in it is a folder`);
  expect(readdirSync(place)).toEqual([name]);
});

test("when a file cannot be moved to its place, those before it are put back", async () => {
  writeFileSync(join(place, "a.csv"), "old");
  locked.name = "b.csv";
  await expect(writeFolder(place, files)).rejects.toThrow(/another program is using it/);
  expect(contents(place)).toEqual({ "a.csv": "old" });
  rmSync(join(place, "a.csv"));
  await expect(writeFolder(place, files)).rejects.toThrow(BadInput);
  expect(readdirSync(place)).toEqual([]);
});

test("many runs into one new folder at once all come to an end, with every file whole", async () => {
  const folder = join(place, "out/kit");
  await Promise.all(Array.from({ length: 8 }, () => writeFolder(folder, files)));
  expect(contents(folder)).toEqual({ "a.csv": "one\r\n", "b.csv": "two\r\n" });
  expect(readdirSync(join(place, "out"))).toEqual(["kit"]);
});

test("a link that leads nowhere is told as what it is", async () => {
  symlinkSync(join(place, "nowhere"), join(place, "kit"));
  await expect(writeFolder(join(place, "kit"), files)).rejects.toThrow(/kit is a link that leads nowhere/);
  expect(readdirSync(place)).toEqual(["kit"]);
});

test("whether a folder can be written is tried before the work, and leaves nothing behind", async () => {
  await checkFolder(place);
  await checkFolder(join(place, "new/kit"));
  expect(readdirSync(place)).toEqual([]);
  writeFileSync(join(place, "mine"), "mine");
  await expect(checkFolder(join(place, "mine"))).rejects.toThrow(/mine is a file; the cut lists need/);
  await expect(checkFolder(join(place, "mine/kit"))).rejects.toThrow(/a part of its path is a file/);
  await expect(checkFolder(join(place, TOO_LONG))).rejects.toThrow(/cannot be written: the name is too long/);
  expect(contents(place)).toEqual({ mine: "mine" });
});

/** No file may be called so. */
const TOO_LONG = "c".repeat(300);

test("folders above a new one that were made for it go again when it cannot be written", async () => {
  const failing = new Map([...files, [TOO_LONG, "three"]]);
  await expect(writeFolder(join(place, "out/kits/one"), failing)).rejects.toThrow(BadInput);
  expect(readdirSync(place)).toEqual([]);
});

test("stopped half way, it leaves nothing behind", async ({ skip }) => {
  if (process.platform === "win32") skip("Windows has no signals");
  const folder = join(place, "kit");
  mkdirSync(folder);
  const script = `
    import { othersIn, writeFolder } from ${JSON.stringify(new URL("../../core/cli/write-folder.ts", import.meta.url).href)};
    const text = "x".repeat(2e7);
    console.log("writing");
    await writeFolder(process.argv[1], new Map(Array.from({ length: 200 }, (_, i) => [i + ".csv", text])));`;
  const child = spawn(process.execPath, ["--import", "tsx", "--input-type=module", "-e", script, folder]);
  while (readdirSync(folder).length === 0) await new Promise((done) => setTimeout(done, 20));
  child.kill("SIGINT");
  const signal = await new Promise((done) => child.once("close", (_, by) => done(by)));
  expect(signal).toBe("SIGINT");
  expect(readdirSync(folder)).toEqual([]);
}, 30_000);

test("when writing fails half way, a new folder does not appear at all", async () => {
  const failing = new Map([...files, [TOO_LONG, "three"]]);
  await expect(writeFolder(join(place, "kit"), failing)).rejects.toThrow(
    /The folder .*kit cannot be written: the name is too long/,
  );
  expect(existsSync(join(place, "kit"))).toBe(false);
  expect(readdirSync(place)).toEqual([]);
});

const proc = existsSync("/proc/self");
test.skipIf(!proc)(
  `a folder above that lets none be made is told${proc ? "" : " (not run: no /proc here)"}`,
  async () => {
    const says = /^The folder \/proc\/ribband\/kit cannot be written: /;
    await expect(writeFolder("/proc/ribband/kit", files)).rejects.toThrow(says);
    await expect(checkFolder("/proc/ribband/kit")).rejects.toThrow(says);
  },
);
