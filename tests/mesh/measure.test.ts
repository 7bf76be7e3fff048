import { describe, expect, test } from "vitest";
import { measureSurface, volumeBelow } from "../../core/mesh/measure.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { type Basin, basin, basinFigures, cappedCylinder, FULL_SIZE, sphere, torus } from "./fields.ts";

const PI = Math.PI;
/** Part by which a figure is off. */
const off = (found: number, right: number) => Math.abs(found / right - 1);
const everywhere = () => -1;

/** Negative inside the rim, and a little way out on the flange. */
const insideRim = (b: Basin) => (x: number, y: number) =>
  Math.max(Math.abs(x - b.length / 2) - b.length / 2, Math.abs(y) - b.width / 2) - b.flange / 2;

describe("areas and volumes in closed form", () => {
  test.each([
    ["sphere", sphere(500), 4 * PI * 500 ** 2, (4 / 3) * PI * 500 ** 3],
    ["torus", torus(900, 250), 4 * PI ** 2 * 900 * 250, 2 * PI ** 2 * 900 * 250 ** 2],
  ])("%s: area and volume within 10 in a million", (_name, field, area, volume) => {
    const mesh = meshSurface(field, { quality: "full" });
    expect(off(measureSurface(field, mesh).areaMm2, area)).toBeLessThan(1e-5);
    // Below a level above it all: its whole volume.
    expect(off(volumeBelow(mesh, 600, everywhere), volume)).toBeLessThan(1e-5);
  });

  test("half a sphere below a level is cut exactly there", () => {
    const mesh = meshSurface(sphere(500), { quality: "full" });
    for (const level of [-400, -123.4, 0, 301]) {
      const depth = 500 + level;
      // Spherical cap: πh²(3R − h)/3.
      expect(off(volumeBelow(mesh, level, everywhere), (PI * depth ** 2 * (1500 - depth)) / 3)).toBeLessThan(
        2e-5,
      );
    }
    expect(volumeBelow(mesh, -501, everywhere)).toBe(0);
  });

  test("a rounded cylinder: its side and its caps by Pappus, parted in the middle of the round", () => {
    const [radius, half, r] = [600, 300, 60];
    const field = cappedCylinder(radius, half, r);
    const { areaMm2, areaByFace } = measureSurface(field, meshSurface(field, { quality: "full" }));
    /** Of the round between two angles from the equator: 2π ∫ (R − r + r cos t) r dt. */
    const round = (from: number, to: number) =>
      2 * PI * r * ((radius - r) * (to - from) + r * (Math.sin(to) - Math.sin(from)));
    const side = 2 * PI * radius * 2 * (half - r) + 2 * round(0, PI / 4);
    const cap = 2 * (PI * (radius - r) ** 2 + round(PI / 4, PI / 2));
    expect(off(areaMm2, side + cap)).toBeLessThan(2e-5);
    expect(off(areaByFace[0], side)).toBeLessThan(5e-5);
    expect(off(areaByFace[1], cap)).toBeLessThan(5e-5);
  });
});

describe("a basin with coves, torus corners, rim and lip", () => {
  test.each<[string, Basin]>([
    ["full size", FULL_SIZE],
    ["tight corners", { ...FULL_SIZE, corner: 250, cove: 150, rim: 15, roll: 15 }],
    ["wide rounds", { ...FULL_SIZE, corner: 600, cove: 300, rim: 40, roll: 30, flange: 200, drop: 60 }],
  ])("%s: area within 0.01 %, volume within 0.005 %", (_name, figures) => {
    const field = basin(figures);
    const right = basinFigures(figures);
    for (const options of [{ quality: "full" }, { quality: "preview", chordMm: 1.5 }] as const) {
      const mesh = meshSurface(field, options);
      const { areaMm2, areaByFace } = measureSurface(field, mesh);
      expect(off(areaMm2, right.total)).toBeLessThan(3e-5);
      right.area.forEach((area, i) => {
        expect(off(areaByFace[i], area)).toBeLessThan(3e-4);
      });
      expect(
        off(
          areaByFace.reduce((a, c) => a + c, 0),
          areaMm2,
        ),
      ).toBeLessThan(1e-12);
      const inside = insideRim(figures);
      expect(off(volumeBelow(mesh, 0, inside), right.volume(0))).toBeLessThan(2e-5);
      expect(off(volumeBelow(mesh, -140, inside), right.volume(-140))).toBeLessThan(2e-5);
    }
  });

  test("errors shrink with the mesh", () => {
    const field = basin(FULL_SIZE);
    const right = basinFigures(FULL_SIZE);
    const errors = [8, 2, 0.5].map((chordMm) => {
      const mesh = meshSurface(field, { quality: "preview", edgeMm: 90, chordMm });
      const { areaByFace } = measureSurface(field, mesh);
      return {
        faces: Math.max(...right.area.map((area, i) => off(areaByFace[i], area))),
        volume: off(volumeBelow(mesh, 0, insideRim(FULL_SIZE)), right.volume(0)),
      };
    });
    expect(errors[2].faces).toBeLessThan(errors[0].faces / 8);
    expect(errors[2].faces).toBeLessThan(1e-4);
    // Parts in a million at every size: what is left is chance, not size.
    for (const { volume } of errors) expect(volume).toBeLessThan(1e-5);
    expect(errors[2].volume).toBeLessThan(3e-6);
  });
});
