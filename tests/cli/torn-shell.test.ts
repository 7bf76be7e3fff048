import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test, vi } from "vitest";
import { kitCommand } from "../../core/cli/kit.ts";
import * as check from "../../core/mesh/check.ts";
import { pretendTerminal } from "./ribband.ts";
import { smallProject } from "./small-project.ts";

/** Shells that tear are mended as they are found, so none can be kept to test with: the real check is told of a tear. */
test("a cut list for a shell whose surface is torn is written with the tear told, and ends in exit code 2", async () => {
  const real = check.checkSurface;
  const looked = vi.spyOn(check, "checkSurface").mockImplementation((field, mesh, limits) => {
    const found = real(field, mesh, limits);
    expect(found.tears).toEqual([]);
    return { ...found, tears: [{ point: [104.4, 2496.1, -39.6], faces: ["wall", "floor"], size: 7.315 }] };
  });
  const place = mkdtempSync(join(tmpdir(), "ribband-torn-"));
  try {
    const file = join(place, "torn.ribband.json");
    writeFileSync(file, JSON.stringify(smallProject()));
    const terminal = pretendTerminal();
    const code = await kitCommand(file, { shells: 1, out: join(place, "out"), json: false }, terminal);
    expect(code).toBe(2);
    expect(looked).toHaveBeenCalledTimes(1);
    const tear = "the surface is torn by 7.32 mm between wall and floor at (104, 2496, -40)";
    expect(terminal.out.replace(/\s+/g, " ")).toContain(`failed its self-check - ${tear}`);
    expect(JSON.parse(readFileSync(join(place, "out/kit.json"), "utf8")).flaws).toEqual([tear]);
  } finally {
    rmSync(place, { recursive: true, force: true });
    looked.mockRestore();
  }
});
