import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { SurfaceMesh } from "../../core/mesh/mesh.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { type Field, offsetField } from "../../core/surface/field.ts";
import { basin, cappedCylinder, FULL_SIZE, slab, sphere, torn, torus, twoSpheres, wedge } from "./fields.ts";
import { inspect } from "./inspect.ts";

/** The gap asked for is kept in a full mesh; a preview, which foresees gaps and does not measure them, may be off. */
const PREVIEW_GAP = 2 * 8;
/** Least angles in a full mesh, and in a preview, where only the worst triangles are mended. */
const ANGLES = { full: 15, preview: 10 };

/** What every mesh of a whole, smooth surface has to be. */
function expectSound(field: Field, mesh: SurfaceMesh, chordMm: number) {
  const leastAngleDeg = chordMm === PREVIEW_GAP ? ANGLES.preview : ANGLES.full;
  const found = inspect(field, mesh);
  expect(found.tangled).toBe(0);
  expect(found.turned).toBe(0);
  expect(found.smallestAngleDeg).toBeGreaterThan(leastAngleDeg);
  expect(found.gapMm).toBeLessThanOrEqual(chordMm);
  expect(found.offMm).toBeLessThan(1e-6);
  expect(found.normalOff).toBeLessThan(1e-4);
  if (field.edge) expect(found.offCutMm).toBeLessThan(1e-6);
  else expect(found.openEdges).toBe(0);
  return found;
}

describe("a mesh of a closed surface", () => {
  test.each([
    ["sphere of 500 mm", sphere(500), 2],
    ["sphere of 40 mm", sphere(40), 2],
    ["torus", torus(900, 250), 0],
    ["thin torus", torus(400, 60), 0],
    ["cylinder with rounded caps", cappedCylinder(600, 300, 60), 2],
  ])("%s: closed, outward, well shaped, near the surface", (_name, field, euler) => {
    for (const [quality, chord] of [
      ["preview", PREVIEW_GAP],
      ["full", 1.5],
    ] as const)
      expect(expectSound(field, meshSurface(field, { quality }), chord).euler).toBe(euler);
  });

  test("moved outwards by the laminate it is the mesh of the offset surface", () => {
    const field = offsetField(torus(900, 250), 6);
    expectSound(torus(900, 256), meshSurface(field, { quality: "full" }), 1.5);
  });

  test("edge length and gap follow what is asked for", () => {
    const field = sphere(600);
    const counts = [4, 1, 0.25].map((chordMm) => {
      const mesh = meshSurface(field, { quality: "full", edgeMm: 400, chordMm });
      expectSound(field, mesh, chordMm);
      return mesh.triangles.length / 3;
    });
    // Triangles go with 1/gap.
    expect(counts[1] / counts[0]).toBeGreaterThan(2);
    expect(counts[2] / counts[1]).toBeGreaterThan(2.5);
    const fine = meshSurface(field, { quality: "full", edgeMm: 20 });
    expectSound(field, fine, 1.5);
    expect(fine.triangles.length / 3).toBeGreaterThan(15000);
  });

  test("spheres anywhere and of any size", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        number(12, 700),
        number(-900, 900),
        number(-900, 900),
        number(-900, 900),
        (radius, x, y, z) => {
          const field = sphere(radius, [x, y, z]);
          expect(expectSound(field, meshSurface(field, { quality: "preview" }), PREVIEW_GAP).euler).toBe(2);
        },
      ),
      { numRuns: 40, endOnFailure: true },
    );
  });
});

describe("a mesh of a basin", () => {
  test("full size: a disc cut at the lip, within the figures asked of a full mesh", () => {
    const field = basin(FULL_SIZE);
    const mesh = meshSurface(field, { quality: "full" });
    const found = expectSound(field, mesh, 1.5);
    expect(found.euler).toBe(1);
    expect(found.triangles).toBeGreaterThan(90_000);
    const preview = expectSound(field, meshSurface(field, { quality: "preview" }), PREVIEW_GAP);
    expect(preview.euler).toBe(1);
    expect(preview.triangles).toBeGreaterThan(10_000);
  });

  test("the owners are the faces at the vertices", () => {
    const field = basin(FULL_SIZE);
    const { positions: p, owner } = meshSurface(field, { quality: "preview" });
    const met = new Set<number>();
    for (let v = 0; v < owner.length; v++) {
      const [x, y, z] = [p[3 * v], p[3 * v + 1], p[3 * v + 2]];
      expect(owner[v]).toBe(field.owner(field.shares(x, y, z)));
      met.add(owner[v]);
    }
    expect(met.size).toBe(4);
  });

  test.each([
    [
      "a lip of 5 mm whose edge was split for its gap and drawn together for its shape in turn",
      {
        length: 2977.679889261474,
        width: 1676.5957601238993,
        corner: 699.9999999999995,
        depth: 933.2847928306625,
      },
      {
        cove: 289.9639940380932,
        rim: 34.59455454367415,
        flange: 191.39553492120567,
        roll: 5.000000000000009,
        drop: 15.000014292153935,
      },
    ],
    [
      "a rim of 5 mm with a fold of the net that had shrunk to a point",
      {
        length: 1792.6578618092542,
        width: 2499.9999999999927,
        corner: 569.048216664302,
        depth: 722.1827693214381,
      },
      {
        cove: 138.61895871040576,
        rim: 5.000000000000005,
        flange: 146.65377946575492,
        roll: 18.06708689790467,
        drop: 18.06708689790467,
      },
    ],
  ])("once at fault: %s", (_name, size, radii) => {
    const field = basin({ ...size, ...radii });
    expect(expectSound(field, meshSurface(field, { quality: "full" }), 1.5).euler).toBe(1);
  });

  test("any basin: whole but for its lip, whatever its figures", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({
          length: number(1600, 3000),
          width: number(1500, 2500),
          corner: number(320, 700),
          depth: number(600, 1200),
          cove: number(40, 300),
          rim: number(5, 60),
          flange: number(140, 300),
          roll: number(5, 60),
          below: number(0, 100),
        }),
        fc.constantFrom("preview" as const, "full" as const),
        ({ below, ...figures }, quality) => {
          const field = basin({ ...figures, drop: Math.max(figures.roll, 15) + below });
          const found = expectSound(
            field,
            meshSurface(field, { quality }),
            quality === "full" ? 1.5 : PREVIEW_GAP,
          );
          expect(found.euler).toBe(1);
        },
      ),
      { numRuns: 20, endOnFailure: true },
    );
  });
});

describe("surfaces that make trouble", () => {
  test("a sheet of ground thinner than the cells is found all the same", () => {
    const field = slab(26);
    const found = expectSound(field, meshSurface(field, { quality: "preview" }), PREVIEW_GAP);
    expect(found.euler).toBe(2);
  });

  test("two sheets in one cell stay two surfaces", () => {
    const field = twoSpheres(300, 20);
    expect(expectSound(field, meshSurface(field, { quality: "full" }), 1.5).euler).toBe(4);
  });

  test.each([
    [20, 18],
    [22.6, 18],
    [30, 30],
    [60, 18],
  ])("walls that meet at %s°, rounded with %s mm: no edge leaps across the valley", (openingDeg, radius) => {
    const field = wedge(openingDeg, radius);
    expect(expectSound(field, meshSurface(field, { quality: "preview" }), PREVIEW_GAP).euler).toBe(2);
    expect(expectSound(field, meshSurface(field, { quality: "full" }), 1.5).euler).toBe(2);
  });

  test.each([3, 17, 40])("a surface torn by %s mm still gives a closed mesh", (step) => {
    const field = torn(step);
    for (const quality of ["preview", "full"] as const) {
      const found = inspect(field, meshSurface(field, { quality }));
      expect(found.tangled).toBe(0);
      expect(found.openEdges).toBe(0);
      expect(found.triangles).toBeLessThan(200_000);
    }
  });

  test("a crease without a radius is closed and well shaped", () => {
    const field = cappedCylinder(500, 200, 0);
    const found = inspect(field, meshSurface(field, { quality: "full" }));
    expect(found.tangled + found.openEdges + found.turned).toBe(0);
    expect(found.smallestAngleDeg).toBeGreaterThan(15);
  });

  test("no surface at all gives an empty mesh", () => {
    const field: Field = { ...sphere(100), evaluate: () => 50 };
    const empty: Field = { ...field, within: () => empty };
    expect(meshSurface(empty, { quality: "preview" }).triangles.length).toBe(0);
  });
});
