import { spawnSync } from "node:child_process";
import {
  chmodSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { writeAtomically } from "../../electron/files/write-atomically.ts";
import { ownFolder } from "./own-folder.ts";

const posix = process.platform !== "win32";

describe("a file is written whole or not at all", () => {
  test("a new one, and one over another", async () => {
    const path = join(ownFolder(), "pool.json");
    await writeAtomically(path, "first – ½");
    expect(readFileSync(path, "utf8")).toBe("first – ½");
    await writeAtomically(path, new Uint8Array([1, 2, 3]));
    expect([...readFileSync(path)]).toEqual([1, 2, 3]);
  });

  test("nothing else is left in the folder, whether it went well or not", async () => {
    const folder = ownFolder();
    await writeAtomically(join(folder, "pool.json"), "text");
    mkdirSync(join(folder, "a-folder.json"));
    await expect(writeAtomically(join(folder, "a-folder.json"), "text")).rejects.toThrow();
    expect(readdirSync(folder).sort()).toEqual(["a-folder.json", "pool.json"]);
  });

  test("many at once on one file: one of the texts, whole", async () => {
    const path = join(ownFolder(), "pool.json");
    const texts = Array.from({ length: 20 }, (_, i) => String(i).repeat(10_000 + i));
    await Promise.all(texts.map((text) => writeAtomically(path, text)));
    expect(texts).toContain(readFileSync(path, "utf8"));
  });

  test.runIf(posix)(
    "permissions stay, a new file takes the ones asked for, a link stays a link",
    async () => {
      const folder = ownFolder();
      const path = join(folder, "pool.json");
      writeFileSync(path, "old");
      chmodSync(path, 0o640);
      symlinkSync("pool.json", join(folder, "link.json"));
      await writeAtomically(join(folder, "link.json"), "new");
      expect(lstatSync(join(folder, "link.json")).isSymbolicLink()).toBe(true);
      expect(readFileSync(path, "utf8")).toBe("new");
      expect(statSync(path).mode & 0o777).toBe(0o640);
      await writeAtomically(join(folder, "key.json"), "secret", 0o600);
      expect(statSync(join(folder, "key.json")).mode & 0o777).toBe(0o600);
    },
  );

  /** A limit on the size of files makes the system write a part and report success, as a disk does that fills up. */
  test.runIf(posix)("a disk that fills up leaves the old file, and says so", () => {
    const folder = ownFolder();
    writeFileSync(join(folder, "pool.json"), "old");
    const module = join(import.meta.dirname, "../../electron/files/write-atomically.ts");
    writeFileSync(
      join(folder, "save.mjs"),
      `process.on("SIGXFSZ", () => {});
      const { writeAtomically } = await import(${JSON.stringify(module)});
      await writeAtomically("pool.json", "x".repeat(200_000)).then(
        () => console.log("saved"),
        (error) => console.log("refused", error.code),
      );`,
    );
    const tsx = import.meta.resolve("tsx");
    const { stdout, stderr } = spawnSync(
      "sh",
      ["-c", 'ulimit -f 100; exec "$0" --import "$1" save.mjs', process.execPath, tsx],
      { cwd: folder, encoding: "utf8", env: { ...process.env, TSX_DISABLE_CACHE: "1" } },
    );
    expect(stdout + stderr).toBe("refused EFBIG\n");
    expect(readFileSync(join(folder, "pool.json"), "utf8")).toBe("old");
    expect(readdirSync(folder).sort()).toEqual(["pool.json", "save.mjs"]);
  });
});

test("what a killed save left is swept up after a minute; what is younger, or another's, stays", async () => {
  const folder = ownFolder();
  const leave = (name: string, ageMs: number) => {
    writeFileSync(join(folder, name), "torso");
    const at = new Date(Date.now() - ageMs);
    utimesSync(join(folder, name), at, at);
  };
  leave(".pool.json.0123abcd.saving", 120_000);
  leave(".pool.json.89abcdef.saving", 1000);
  leave(".other.json.0123abcd.saving", 120_000);
  leave(".pool.json.notes.saving", 120_000);
  await writeAtomically(join(folder, "pool.json"), "text");
  expect(readdirSync(folder).sort()).toEqual([
    ".other.json.0123abcd.saving",
    ".pool.json.89abcdef.saving",
    ".pool.json.notes.saving",
    "pool.json",
  ]);
});
