import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { importsOf } from "./import-mirror.mjs";
import { checkLayers, sourceFiles } from "./layers.mjs";

const root = join(import.meta.dirname, "../..");
const planted: string[] = [];

/** A small house in a folder of its own: `files` maps a path to the file's text. */
function house(files: Record<string, string>): string {
  const folder = mkdtempSync(join(tmpdir(), "ribband-layers-"));
  planted.push(folder);
  cpSync(join(root, "package.json"), join(folder, "package.json"));
  symlinkSync(join(root, "node_modules"), join(folder, "node_modules"), "junction");
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}

afterEach(() => {
  for (const folder of planted.splice(0)) rmSync(folder, { recursive: true, force: true });
});

describe("the layers of the house", () => {
  test("every file is read, and every import runs the right way", async () => {
    const report = await checkLayers(root);
    expect(report.faults).toEqual([]);
    for (const folder of ["core", "renderer", "electron"]) {
      expect(sourceFiles(root, folder).length, folder).toBeGreaterThan(0);
    }
    expect(report.read).toBe(["core", "renderer", "electron"].flatMap((f) => sourceFiles(root, f)).length);
  });

  test("a sound house passes", async () => {
    const folder = house({
      "core/units/length.ts": "export const mm = 1;",
      "core/project/schema.ts": 'import { z } from "zod"; export const schema = z.number();',
      "core/shell/shell.ts":
        'import { mm } from "../units/length.ts"; import { schema } from "../project/schema.ts"; export const s = [mm, schema];',
      "core/cli/main.ts":
        'import { s } from "../shell/shell.ts"; import { argv } from "node:process"; console.log(s, argv);',
    });
    expect(await checkLayers(folder)).toEqual({ read: 4, faults: [] });
  });

  const contract = {
    "renderer/document/host/contract.ts": "export const channels = {}; export type Channel = string;",
  };

  test("a sound house with a window and a desktop passes", async () => {
    const folder = house({
      ...contract,
      "core/units/length.ts": "export const mm = 1;",
      "renderer/look/base.css": "body {}",
      "renderer/document/store.ts":
        'import { mm } from "../../core/units/length.ts"; export const store = mm;',
      "renderer/app.tsx":
        'import "./look/base.css"; import { store } from "./document/store.ts"; export const App = () => <p>{store}</p>;',
      "electron/files/save.ts":
        'import { writeFile } from "node:fs/promises"; import type { Channel } from "../../renderer/document/host/contract.ts"; export const save = (c: Channel) => writeFile(c, "");',
      "electron/desktop/main.ts":
        'import { app } from "electron"; import { save } from "../files/save.ts"; app.on("quit", save);',
      "electron/launch/start.mjs": 'import { spawn } from "node:child_process"; spawn("x");',
    });
    expect(await checkLayers(folder)).toEqual({ read: 7, faults: [] });
  });

  const shell = { "core/shell/shell.ts": "export const shell = 1; export type Shell = number;" };
  test.each<{ what: string; files: Record<string, string>; fault: string }>([
    {
      what: "an import that runs back up",
      files: {
        ...shell,
        "core/plan/chain.ts": 'import { shell } from "../shell/shell.ts"; export const a = shell;',
      },
      fault: "core/plan/chain.ts → core/shell/shell.ts: core/plan imports only what stands before it",
    },
    {
      what: "a type that runs back up",
      files: {
        ...shell,
        "core/mesh/nets.ts": 'import type { Shell } from "../shell/shell.ts"; export type A = Shell;',
      },
      fault: "core/mesh/nets.ts → core/shell/shell.ts: core/mesh imports only what stands before it",
    },
    {
      what: "a re-export that runs back up",
      files: { ...shell, "core/units/length.ts": 'export { shell } from "../shell/shell.ts";' },
      fault: "core/units/length.ts → core/shell/shell.ts: core/units imports only what stands before it",
    },
    {
      what: "a late import that runs back up",
      files: { ...shell, "core/surface/trace.ts": 'export const a = () => import("../shell/shell.ts");' },
      fault: "core/surface/trace.ts → core/shell/shell.ts: core/surface imports only what stands before it",
    },
    {
      what: "geometry that knows the project file",
      files: {
        "core/project/schema.ts": "export type Spec = number;",
        "core/surface/area.ts": 'import type { Spec } from "../project/schema.ts"; export type A = Spec;',
      },
      fault:
        "core/surface/area.ts → core/project/schema.ts: surface and mesh work on any field and do not import project",
    },
    {
      what: "Node in the core",
      files: {
        "core/mesh/nets.ts": 'import { readFileSync } from "node:fs"; export const r = readFileSync;',
      },
      fault: "core/mesh/nets.ts → fs: only core/cli touches Node",
    },
    {
      what: "the scene in the core",
      files: { "core/mesh/nets.ts": 'import { Mesh } from "three"; export const m = Mesh;' },
      fault: "core takes nothing from the window's packages",
    },
    {
      what: "a development package in the core",
      files: { "core/mesh/nets.ts": 'import wasm from "manifold-3d"; export const w = wasm;' },
      fault: "core runs on packages that are shipped, not on development ones",
    },
    {
      what: "the renderer in the core",
      files: {
        "renderer/scene/shell.ts": "export const scene = 1;",
        "core/shell/shell.ts":
          'import { scene } from "../../renderer/scene/shell.ts"; export const s = scene;',
      },
      fault: "core/shell/shell.ts → renderer/scene/shell.ts: core knows nothing of the window",
    },
    {
      what: "Node in the window",
      files: {
        "renderer/app.tsx": 'import { join } from "node:path"; export const A = () => <p>{join("a")}</p>;',
      },
      fault: "renderer/app.tsx → path: the window runs in a browser, without Node",
    },
    {
      what: "the desktop in the window",
      files: {
        "electron/files/save.ts": "export const save = 1;",
        "renderer/app.tsx":
          'import { save } from "../electron/files/save.ts"; export const A = () => <p>{save}</p>;',
      },
      fault: "renderer/app.tsx → electron/files/save.ts: the window knows nothing of the desktop",
    },
    {
      what: "a type of the command line in the window, imported late",
      files: {
        "core/cli/main.ts": "export type Args = string;",
        "renderer/app.tsx": 'export const A = () => <p>{typeof import("../core/cli/main.ts")}</p>;',
      },
      fault: "renderer/app.tsx → core/cli/main.ts: the window knows nothing of the desktop, the command line",
    },
    {
      what: "Electron in the window",
      files: {
        "renderer/app.tsx":
          'import { ipcRenderer } from "electron"; export const A = () => <p>{ipcRenderer}</p>;',
      },
      fault: "only electron/desktop knows Electron",
    },
    {
      what: "Electron in what the loopback server uses too",
      files: { "electron/files/save.ts": 'import type { App } from "electron"; export type A = App;' },
      fault: "only electron/desktop knows Electron",
    },
    {
      what: "more of the window than the contract in the desktop",
      files: {
        "renderer/document/host/host.ts": "export interface Host { a: string }",
        "electron/files/save.ts":
          'import type { Host } from "../../renderer/document/host/host.ts"; export type A = Host;',
      },
      fault: "of the window the desktop knows the contract only",
    },
    {
      what: "the rest of the window in the host port",
      files: {
        "renderer/document/store.ts": "export const store = 1;",
        "renderer/document/host/make.ts": 'import { store } from "../store.ts"; export const a = store;',
      },
      fault: "the host port knows nothing of the rest of the window",
    },
    {
      what: "the scene in the document",
      files: {
        "renderer/scene/shell.tsx": "export const Shell = () => <p />;",
        "renderer/document/store.ts": 'import { Shell } from "../scene/shell.tsx"; export const s = Shell;',
      },
      fault:
        "renderer/document/store.ts → renderer/scene/shell.tsx: the document and the worker know nothing of what is",
    },
    {
      what: "two files that import each other",
      files: {
        "core/plan/a.ts": 'import { b } from "./b.ts"; export const a = () => b;',
        "core/plan/b.ts": 'import { a } from "./a.ts"; export const b = () => a;',
      },
      fault: "no circles",
    },
    {
      what: "an import of a file that is not there",
      files: { "core/plan/a.ts": 'import { b } from "./gone.ts"; export const a = b;' },
      fault: "every import resolves",
    },
    {
      what: "a folder that is in no layer",
      files: { "core/odds/ends.ts": "export const a = 1;" },
      fault: "core/odds/ends.ts: is in no layer",
    },
    {
      what: "a core without files",
      files: { "core/units/readme.txt": "" },
      fault: "core holds no .ts file",
    },
  ])("$what is caught", async ({ files, fault }) => {
    const { faults } = await checkLayers(house(files));
    expect(faults.join("\n")).toContain(fault);
  });
});

test("of a file with JSX the imports are kept, of every kind", () => {
  const text = `
    import "./a.css";
    import b, { c as d } from "./b.ts";
    import type { E } from "./e.ts";
    import { type F } from "./f.ts";
    export { g } from "./g.ts";
    export type { H } from "./h.ts";
    export * from "./i.ts";
    const J = lazy(async () => ({ default: (await import("./j.tsx")).J }));
    export const K = (): E => <J title={"import './no.ts'"}>{b(d)}</J>;`;
  expect(importsOf(text).trim().split("\n")).toEqual([
    'import "./a.css";',
    'import "./b.ts";',
    'import type {} from "./e.ts";',
    'import "./f.ts";',
    'import "./g.ts";',
    'import type {} from "./h.ts";',
    'import "./i.ts";',
    'import("./j.tsx");',
    "export {};",
  ]);
});
