import { describe, expect, test } from "vitest";
import { checkMesh } from "../../core/mesh/check.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { basin, cappedCylinder, FULL_SIZE, sphere, torn, torus } from "./fields.ts";
import { inspect } from "./inspect.ts";

const small = { ...FULL_SIZE, length: 2400, width: 1800, depth: 900 };

describe("the self-check", () => {
  test.each([
    ["a basin", basin(small)],
    ["a torus", torus(900, 250)],
    ["a rounded cylinder", cappedCylinder(600, 300, 20)],
  ])("%s is whole and smooth, and measured as the slow way measures it", (_name, field) => {
    const mesh = meshSurface(field, { quality: "full" });
    const found = checkMesh(field, mesh);
    const slow = inspect(field, mesh);
    expect(found.tears).toEqual([]);
    expect(found.kinks).toEqual([]);
    expect(found.triangles).toBe(slow.triangles);
    expect(found.openEdges).toBe(slow.openEdges);
    expect(found.holeEdges).toBe(0);
    expect(found.tangledEdges).toBe(0);
    expect((found.smallestAngle * 180) / Math.PI).toBeCloseTo(slow.smallestAngleDeg, 6);
    expect(found.chordGapMm).toBeCloseTo(slow.gapMm, 9);
  });

  test("a sphere torn by half a millimetre shows its tear all round, where it is", () => {
    const field = torn(0.5);
    const { tears, kinks } = checkMesh(field, meshSurface(field, { quality: "full" }));
    expect(tears.length).toBeGreaterThan(20);
    expect(kinks).toEqual([]);
    for (const { point, size, faces } of tears) {
      expect(Math.abs(point[2] - 13)).toBeLessThan(1);
      expect(size).toBeGreaterThan(0.4);
      expect(size).toBeLessThan(0.6);
      expect(faces).toEqual(["skin", "skin"]);
    }
    const turns = tears.map(({ point }) => Math.atan2(point[1], point[0]));
    expect(Math.max(...turns) - Math.min(...turns)).toBeGreaterThan(6);
  });

  test("an edge without a radius is a kink of its angle between its two faces", () => {
    const field = cappedCylinder(500, 200, 0);
    const { tears, kinks } = checkMesh(field, meshSurface(field, { quality: "preview" }));
    expect(tears).toEqual([]);
    expect(kinks.length).toBeGreaterThan(50);
    for (const { point, size, faces } of kinks) {
      expect(size).toBeCloseTo(Math.PI / 2, 2);
      expect([...faces].sort()).toEqual(["cap", "side"]);
      expect(Math.abs(Math.abs(point[2]) - 200)).toBeLessThan(0.01);
      expect(Math.abs(Math.hypot(point[0], point[1]) - 500)).toBeLessThan(0.01);
    }
  });

  test("tears and kinks below the limits given are let pass", () => {
    const tornField = torn(0.5);
    const limits = { tearMm: 1, kinkRad: 0.1 };
    expect(checkMesh(tornField, meshSurface(tornField, { quality: "preview" }), limits).tears).toEqual([]);
    const sharp = cappedCylinder(500, 200, 0);
    const wide = { tearMm: 1, kinkRad: 1.6 };
    expect(checkMesh(sharp, meshSurface(sharp, { quality: "preview" }), wide).kinks).toEqual([]);
  });

  test("holes, tangles and open edges are told apart", () => {
    const field = basin(small);
    const mesh = meshSurface(field, { quality: "preview" });
    const whole = checkMesh(field, mesh);
    const count = mesh.triangles.length;
    const holed = checkMesh(field, { ...mesh, triangles: mesh.triangles.slice(0, count - 3) });
    expect(holed.openEdges).not.toBe(whole.openEdges);
    const middle = 3 * Math.floor(count / 6);
    const inside = mesh.triangles.filter((_, i) => i < middle || i >= middle + 3);
    expect(checkMesh(field, { ...mesh, triangles: inside }).holeEdges).toBe(3);
    const doubled = Uint32Array.from([...mesh.triangles, ...mesh.triangles.slice(middle, middle + 3)]);
    expect(checkMesh(field, { ...mesh, triangles: doubled }).tangledEdges).toBe(3);
  });

  test("a mesh moved off its surface shows the gap", () => {
    const field = sphere(400);
    const mesh = meshSurface(field, { quality: "full" });
    const moved = { ...mesh, positions: mesh.positions.map((p) => p * 1.02) };
    expect(checkMesh(field, moved).chordGapMm).toBeGreaterThan(7);
  });
});
