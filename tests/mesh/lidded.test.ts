import Manifold from "manifold-3d";
import { beforeAll, describe, expect, test } from "vitest";
import { lidded, type Solid } from "../../core/mesh/lidded.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import type { Field } from "../../core/surface/field.ts";
import { basin, basinFigures, FULL_SIZE, sphere, torus } from "./fields.ts";

/** manifold-3d as the judge: it takes closed two-manifolds only. */
let kernel: Awaited<ReturnType<typeof Manifold>>;
beforeAll(async () => {
  kernel = await Manifold();
  kernel.setup();
});

function judged(solid: Solid) {
  const mesh = new kernel.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(solid.positions),
    triVerts: Uint32Array.from(solid.triangles),
  });
  const body = new kernel.Manifold(mesh);
  const found = { status: body.status(), volume: body.volume(), genus: body.genus() };
  body.delete();
  return found;
}

describe("a mesh closed with a lid is a manifold to manifold-3d", () => {
  test.each([
    ["sphere", sphere(500), 0, (4 / 3) * Math.PI * 500 ** 3],
    ["torus", torus(900, 250), 1, 2 * Math.PI ** 2 * 900 * 250 ** 2],
  ])("%s: closed already, the air that it holds", (_name, field, genus, volume) => {
    const found = judged(lidded(meshSurface(field, { quality: "full" })));
    expect(found.status).toBe("NoError");
    expect(found.genus).toBe(genus);
    expect(Math.abs(found.volume / volume - 1)).toBeLessThan(0.01);
  });

  test.each(["preview", "full"] as const)(
    "a basin (%s): the block of ground that it stands in",
    (quality) => {
      const field: Field = basin(FULL_SIZE);
      const { planArea, volume } = basinFigures(FULL_SIZE);
      const found = judged(lidded(meshSurface(field, { quality })));
      expect(found.status).toBe("NoError");
      expect(found.genus).toBe(0);
      const { flange, roll, drop, depth } = FULL_SIZE;
      // The block below the lip's edge, what stands above it, less the pool.
      const round = roll - (Math.PI / 4) * roll;
      const length =
        2 * (FULL_SIZE.length + FULL_SIZE.width) -
        (8 - 2 * Math.PI) * FULL_SIZE.corner +
        2 * Math.PI * flange;
      const block = planArea(flange) * (depth + 100) - round * roll * length;
      const right = block - volume(0);
      expect(drop).toBeGreaterThan(roll);
      expect(Math.abs(found.volume / right - 1)).toBeLessThan(quality === "full" ? 1e-3 : 3e-3);
    },
  );
});
