import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { parseProject } from "../../core/project/parse.ts";
import type { ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { findTransitions } from "../../core/shell/transitions.ts";
import { offsetField } from "../../core/surface/field.ts";
import { layStrip, stripArea } from "../../core/surface/strip.ts";
import { areaWithin, meshDistance } from "./mesh-distance.ts";

/** The lay-up surface after 6 mm of laminate of a demo's shell, changed if need be, and all transitions on it. */
function layupSurface(name: string, change: (spec: ShellSpec) => ShellSpec = (spec) => spec) {
  const text = readFileSync(join(import.meta.dirname, `../../assets/demo/${name}.ribband.json`), "utf8");
  const parsed = parseProject(text);
  if (!parsed.ok) throw new Error(`${name} does not parse`);
  const built = buildShell(change(parsed.project.shell));
  if (!built.ok) throw new Error(`${name} is refused: ${JSON.stringify(built.refusals)}`);
  const { shell } = built;
  const mesh = meshSurface(shell.field, { quality: "preview" });
  return { field: offsetField(shell.field, 6), ...findTransitions(shell, mesh, 6) };
}

const off = (is: number, should: number) => Math.abs(is / should - 1);

describe("bands on a real shell", () => {
  test("every transition takes a band whose area does not hang on the sampling, and whose parts add up", () => {
    const { field, transitions } = layupSurface("dunlin-4");
    for (const { id, kind, curve } of transitions) {
      // The lip's right side ends at the rolled edge after a few millimetres: no place for a band.
      if (kind === "lip") continue;
      const half = kind === "foot" ? 300 : 150;
      const strip = layStrip(field, curve, null, [half, half]);
      const fine = layStrip(field, curve, null, [half, half], { alongMm: 30, acrossMm: 12 });
      // A stretch ends in the middle of a sharp corner: what lies nearer to its end is a matter of a few hundred mm².
      expect(off(strip.areaMm2, fine.areaMm2), id).toBeLessThan(
        kind === "foot" || kind === "rim" ? 4e-4 : 6e-3,
      );
      expect(
        strip.cutShort.every((c) => c.why !== "surface lost"),
        id,
      ).toBe(true);
      const joint = strip.midLengthMm * 0.37;
      const parts = [0, joint, strip.midLengthMm];
      const sum = [0, 1].reduce((s, i) => s + stripArea(strip, parts[i], parts[i + 1], half, half), 0);
      expect(off(sum, strip.areaMm2), id).toBeLessThan(1e-12);
      // A band is no wider than asked for, and on a shell its edges are at most a sharp corner's fan longer than its middle.
      expect(strip.areaMm2, id).toBeLessThan(2 * half * strip.midLengthMm + 12 * half * half);
    }
  });

  test("foot and rim have the area that fast marching on a fine mesh gives, ever nearer as the mesh gets finer", () => {
    // A small pool with corner steps, so that a fine mesh of it is quickly made.
    const small = layupSurface("dunlin-4", (spec) => ({
      ...spec,
      outline: { kind: "rectangle", length: 3000, width: 2000, cornerRadius: 300 },
      floor: { ...spec.floor, stations: [{ at: 0, depth: 900 }] },
      features: spec.features
        .filter((f) => f.kind === "steps")
        .map((f) => ({
          ...f,
          treads: [
            { depth: 300, going: 650 },
            { depth: 600, going: 350 },
          ],
        })),
      fittings: [],
    }));
    const mesh = [36, 18].map((edgeMm) =>
      meshSurface(small.field, { quality: "full", edgeMm, chordMm: edgeMm / 30 }),
    );
    // Fast marching is late behind sharp corners by a part of an edge: 0.26 % at 15 mm, 0.13 % at 8 mm. At the rim it is 0.11 % at
    // 36 mm, 0.06 % at 18 mm and 0.008 % at 11 mm, on meshes of which none is taken to be better than its edges.
    const bounds = { foot: [6e-3, 3.5e-3], rim: [1.5e-3, 7e-4] };
    for (const id of ["foot", "rim"] as const) {
      const { curve } = small.transitions.find((t) => t.id === id)!;
      const strip = layStrip(small.field, curve, null, [250, 250]);
      const gaps = mesh.map((m) =>
        off(strip.areaMm2, areaWithin(m, meshDistance(small.field, m, curve, 310, 40), 250)),
      );
      expect(gaps[0], `${id}: ${gaps}`).toBeLessThan(bounds[id][0]);
      expect(gaps[1], `${id}: ${gaps}`).toBeLessThan(bounds[id][1]);
      expect(gaps[1], `${id}: ${gaps}`).toBeLessThan(gaps[0]);
    }
  });
});
