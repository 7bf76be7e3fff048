/** The demo projects' meshes, closed with a lid, are solids to a strict mesh kernel (manifold-3d), of the right volume. */
import loadManifold from "manifold-3d";
import { describe, expect, it } from "vitest";
import { lidded, type Solid } from "../../core/mesh/lidded.ts";
import type { Outline } from "../../core/plan/chain.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { demoNames, demoProject } from "../project/demo-files.ts";
import { partOff } from "../published/figures.ts";
import { measureAt } from "../published/measure-at.ts";

const toolkit = await loadManifold();
toolkit.setup();

/** By the divergence theorem: a sixth of the triple products, mm³. */
function volumeOf({ positions: p, triangles: t }: Solid): number {
  let six = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i], 3 * t[i + 1], 3 * t[i + 2]];
    six +=
      p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) +
      p[a + 1] * (p[b + 2] * p[c] - p[b] * p[c + 2]) +
      p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c]);
  }
  return six / 6;
}

/** Plan area within the coping's outer edge, mm²: the outline's by Green's theorem, and Steiner's ring round it. */
function planArea({ chain }: Outline, flange: number): number {
  let area = chain.length * flange + Math.PI * flange * flange;
  for (const s of chain.segments) {
    if (s.kind === "line") area += (s.ax * s.by - s.bx * s.ay) / 2;
    else {
      const at = (a: number) => [s.cx + s.radius * Math.cos(a), s.cy + s.radius * Math.sin(a)];
      const [[x0, y0], [x1, y1]] = [at(s.start), at(s.start + s.sweep)];
      area += (x0 * y1 - x1 * y0) / 2 + (s.radius ** 2 * (s.sweep - Math.sin(s.sweep))) / 2;
    }
  }
  return area;
}

describe.each(demoNames)("%s", (name) => {
  it("is a closed solid of one piece without a hole, with the volume of the block less the water", () => {
    const result = buildShell(demoProject(name).shell);
    if (!result.ok) throw new Error(result.refusals.map(({ why }) => why).join("\n"));
    const { shell } = result;
    for (const quality of ["preview", "full"] as const) {
      const { mesh, volumeMm3 } = measureAt(shell, 0, { quality });
      const solid = lidded(mesh);
      const manifold = new toolkit.Manifold(
        new toolkit.Mesh({
          numProp: 3,
          vertProperties: Float32Array.from(solid.positions),
          triVerts: solid.triangles,
        }),
      );
      expect(manifold.status()).toBe("NoError");
      expect(manifold.genus()).toBe(0);
      expect(manifold.decompose()).toHaveLength(1);
      // It counts in single precision: 1e-7 of 10 m.
      const volume = manifold.volume();
      expect(partOff(`${name}, ${quality}: solid`, volume / 1e9, volumeOf(solid) / 1e9, "m³")).toBeLessThan(
        1e-6,
      );
      let lid = 0;
      for (let i = 2; i < solid.positions.length; i += 3) lid = Math.min(lid, solid.positions[i]);
      const block = -lid * planArea(shell.outline, shell.spec.coping.flange) - volumeMm3;
      expect(partOff(`${name}, ${quality}: block less water`, volume / 1e9, block / 1e9, "m³")).toBeLessThan(
        2e-3,
      );
      manifold.delete();
    }
  });
});
