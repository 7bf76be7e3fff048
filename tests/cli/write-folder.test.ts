import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { BadInput } from "../../core/cli/bad-input.ts";
import { writeFolder } from "../../core/cli/write-folder.ts";

let place: string;
beforeEach(() => {
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

test("when a file cannot be moved to its place, nothing half written is left", async () => {
  mkdirSync(join(place, "a.csv/inside"), { recursive: true });
  await expect(writeFolder(place, files)).rejects.toThrow(BadInput);
  expect(readdirSync(place)).toEqual(["a.csv"]);
});

test("when writing fails half way, a new folder does not appear at all", async () => {
  const failing = new Map([...files, ["no-such-folder/c.csv", "three"]]);
  await expect(writeFolder(join(place, "kit"), failing)).rejects.toThrow(
    /The folder .*kit cannot be written: there is no such file/,
  );
  expect(existsSync(join(place, "kit"))).toBe(false);
  expect(readdirSync(place)).toEqual([]);
});
