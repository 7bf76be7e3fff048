import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { checkLayers, typescriptFiles } from "./layers.mjs";

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

describe("the layers of core", () => {
  test("every file of core is read, and every import runs the right way", async () => {
    const report = await checkLayers(root);
    expect(report.faults).toEqual([]);
    expect(report.read).toBe(typescriptFiles(root, "core").length);
    expect(report.read).toBeGreaterThan(0);
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
