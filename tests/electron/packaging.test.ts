import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { isBuiltin } from "node:module";
import { dirname, join } from "node:path";
import { Arch, build, type Configuration, Platform } from "electron-builder";
import { beforeAll, describe, expect, test } from "vitest";
import { buildHost } from "../../electron/launch/build.mjs";
import { ownFolder } from "./own-folder.ts";

const root = join(import.meta.dirname, "../..");

/**
 * How Electron's binary holds its fuses: this mark, a version, their number, and a letter each, "1" on, "0" off
 * (electronjs.org/docs/latest/tutorial/fuses; the order of the letters is that of FuseV1Options in @electron/fuses).
 */
const fuseMark = "dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX";
const fuses = [
  "run as node",
  "encrypt cookies",
  "take NODE_OPTIONS",
  "take --inspect",
  "check the hash of app.asar",
  "load from app.asar only",
  "snapshot of its own",
  "privileges for file:",
];

/** A project as it lies on disk, built, with much that must not be packed; and a stand-in for Electron, all fuses turned round. */
function standIn() {
  const folder = ownFolder();
  const put = (path: string, text: string | Buffer) => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text, { mode: 0o755 });
  };
  for (const name of ["package.json", "electron-builder.yml", "assets/icon"]) {
    cpSync(join(root, name), join(folder, name), { recursive: true });
  }
  const packed = [
    "out/host/main.cjs",
    "out/host/preload.cjs",
    "out/window/index.html",
    "out/window/assets/a.js",
  ];
  const left = [
    "out/host/loopback.mjs",
    "out/kits/a.csv",
    "core/a.ts",
    "node_modules/zod/index.js",
    ".env",
    "notes.md",
  ];
  for (const path of [...packed, ...left]) put(path, path);
  put("node_modules/zod/package.json", '{ "name": "zod", "version": "4.6.7" }');
  mkdirSync(join(folder, "electron/resources"), { recursive: true });
  put("electron/electron", Buffer.from(`stand-in ${fuseMark}\u0001\u000801000011 end`, "latin1"));
  return { folder, packed };
}

function pack(folder: string, config: Configuration = {}) {
  return build({
    projectDir: folder,
    targets: Platform.LINUX.createTarget("dir", Arch.x64),
    publish: "never",
    config: { electronDist: join(folder, "electron"), ...config },
  });
}

/** The files of an archive and their texts: a pickle with a JSON header, then the bytes (github.com/electron/asar, README). */
function readAsar(path: string): Map<string, string> {
  const bytes = readFileSync(path);
  const start = 8 + bytes.readUInt32LE(4);
  type Entry = { files?: Record<string, Entry>; offset?: string; size?: number };
  const texts = new Map<string, string>();
  const walk = (entry: Entry, at: string) => {
    for (const [name, inner] of Object.entries(entry.files ?? {})) walk(inner, at ? `${at}/${name}` : name);
    if (entry.offset === undefined) return;
    const from = start + Number(entry.offset);
    texts.set(at, bytes.toString("utf8", from, from + entry.size!));
  };
  walk(JSON.parse(bytes.toString("utf8", 16, 16 + bytes.readUInt32LE(12))), "");
  return texts;
}

describe("electron-builder, with a stand-in for Electron's binary", () => {
  test("packs the built app and nothing else, and turns the fuses", { timeout: 120_000 }, async () => {
    const { folder, packed } = standIn();
    await pack(folder);
    const out = join(folder, "out/packages/linux-unpacked");
    const texts = readAsar(join(out, "resources/app.asar"));
    expect([...texts.keys()].sort()).toEqual([...packed, "package.json"].sort());
    for (const path of packed) expect(texts.get(path)).toBe(path);
    expect(JSON.parse(texts.get("package.json")!)).toMatchObject({
      name: "ribband",
      main: "out/host/main.cjs",
    });
    expect(readdirSync(join(out, "resources"))).toEqual(["app.asar"]);

    const binary = readFileSync(join(out, "ribband"), "latin1");
    const wire = binary.slice(binary.indexOf(fuseMark) + fuseMark.length + 2).slice(0, fuses.length);
    expect(fuses.filter((_, i) => wire[i] === "1")).toEqual([
      "check the hash of app.asar",
      "load from app.asar only",
    ]);
    expect(wire).toMatch(/^[01]+$/);
  });

  test("its schema knows every word of the configuration: it refuses one that it does not know", async () => {
    const { folder } = standIn();
    const misspelt = { nsis: { oneClik: false } } as unknown as Configuration;
    await expect(pack(folder, misspelt)).rejects.toThrow(/configuration\.nsis/);
  });
});

test("every system has its installer, icon and file type", () => {
  const text = readFileSync(join(root, "electron-builder.yml"), "utf8");
  for (const target of ["target: [AppImage, deb]", "target: [dmg]", "target: [nsis]", "ext: ribband.json"]) {
    expect(text).toContain(target);
  }
  // A PNG begins with its size, big-endian, at byte 16 (ISO/IEC 15948); macOS icons go up to 1024.
  const icon = readFileSync(join(root, "assets/icon/icon.png"));
  expect([icon.readUInt32BE(16), icon.readUInt32BE(20)]).toEqual([1024, 1024]);
  expect(readFileSync(join(root, "assets/icon/open-with.nsh"), "utf8")).toContain("!macro customInstall");
});

describe("the bundles", () => {
  const required = new Map<string, string[]>();
  beforeAll(async () => {
    const folder = ownFolder();
    await buildHost(root, folder);
    for (const name of ["main.cjs", "preload.cjs"]) {
      const text = readFileSync(join(folder, name), "utf8");
      required.set(
        name,
        [...text.matchAll(/\brequire\("([^"]+)"\)/g)].map(([, module]) => module),
      );
    }
  });

  test("the preload script needs Electron only: in the sandbox there is nothing else", () => {
    expect(new Set(required.get("preload.cjs"))).toEqual(new Set(["electron"]));
  });

  test("the main script needs Electron and Node, and no package beside it", () => {
    const others = required.get("main.cjs")!.filter((name) => name !== "electron" && !isBuiltin(name));
    expect(required.get("main.cjs")).toContain("electron");
    expect(others).toEqual([]);
  });
});
