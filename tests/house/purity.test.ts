import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");

/** What the compiler says to a file that stood in core. */
function inCore(text: string): string {
  const folder = mkdtempSync(join(tmpdir(), "ribband-purity-"));
  try {
    writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
    writeFileSync(join(folder, "a.ts"), text);
    writeFileSync(
      join(folder, "tsconfig.json"),
      JSON.stringify({ extends: join(root, "core/tsconfig.json"), include: ["*.ts"], exclude: [] }),
    );
    const tsc = join(root, "node_modules/typescript/bin/tsc");
    return spawnSync(process.execPath, [tsc, "-p", folder], { encoding: "utf8" }).stdout;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

test("core sees the language and nothing else: no Node, no DOM", () => {
  expect(inCore("export const a = new Float64Array([1, 2]).toSorted();")).toBe("");
  const outside = ["process", "Buffer", "document", "window", "setTimeout", "console"];
  const said = inCore(`export const a = [${outside.join(", ")}];`);
  for (const name of outside) expect(said).toContain(`'${name}'`);
});

test("core is strict, and its types vanish when erased", () => {
  expect(inCore("export const a = (b) => b;")).toContain("implicitly has an 'any' type");
  expect(inCore("export enum Side { left }")).toContain("erasableSyntaxOnly");
});
