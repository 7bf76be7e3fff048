import { describe, expect, test } from "vitest";
import type { Field } from "../../core/surface/field.ts";
import {
  advanceGeodesic,
  type Geodesic,
  marchGeodesic,
  newGeodesic,
  startGeodesic,
} from "../../core/surface/geodesic.ts";
import { cone, cylinder, dihedral, sphere, torus } from "./closed-fields.ts";

function march(field: Field, start: number[], heading: number[], length: number, step: number): Geodesic {
  const g = newGeodesic();
  expect(startGeodesic(field, g, start[0], start[1], start[2], heading[0], heading[1], heading[2])).toBe(
    true,
  );
  expect(advanceGeodesic(field, g, length, step)).toBe(true);
  return g;
}

const gap = (g: ArrayLike<number>, p: readonly number[]) => Math.hypot(g[0] - p[0], g[1] - p[1], g[2] - p[2]);

describe("500 mm in steps of 15 and 20 mm, within 0.01 mm", () => {
  for (const step of [15, 20]) {
    test(`great circles (${step})`, () => {
      for (const radius of [60, 150, 600]) {
        const a = 500 / radius;
        const end = [radius * Math.cos(a), radius * Math.sin(a) * 0.6, radius * Math.sin(a) * 0.8];
        expect(gap(march(sphere(radius), [radius, 0, 0], [0, 0.6, 0.8], 500, step), end)).toBeLessThan(0.01);
      }
    });

    test(`helices (${step})`, () => {
      for (const slope of [0, 0.3, 1, 3, 20]) {
        const size = Math.hypot(1, slope);
        const a = (500 * slope) / size / 150;
        const end = [500 / size, 150 * Math.cos(a), 150 * Math.sin(a)];
        expect(gap(march(cylinder(150), [0, 150, 0], [1, 0, slope], 500, step), end)).toBeLessThan(0.01);
      }
    });

    test(`straight lines of an unrolled cone (${step})`, () => {
      const half = 0.5;
      // Start 600 from the apex at angle 0, heading at angle `turn` to the line from the apex.
      for (const turn of [0.4, 1.2, 2, 2.8]) {
        const [x, y] = [600 + 500 * Math.cos(turn), 500 * Math.sin(turn)];
        const reach = Math.hypot(x, y);
        const a = Math.atan2(y, x) / Math.sin(half);
        const end = [
          reach * Math.sin(half) * Math.cos(a),
          reach * Math.sin(half) * Math.sin(a),
          reach * Math.cos(half),
        ];
        const heading = [Math.cos(turn) * Math.sin(half), Math.sin(turn), Math.cos(turn) * Math.cos(half)];
        const start = [600 * Math.sin(half), 0, 600 * Math.cos(half)];
        expect(gap(march(cone(half), start, heading, 500, step), end)).toBeLessThan(0.01);
      }
    });

    test(`straight lines of an unrolled cove, over both jumps of curvature (${step})`, () => {
      for (const radius of [30, 100, 150]) {
        for (const off of [0, 3, 8, 11, 17]) {
          for (const slope of [0, 0.4, 1.5]) {
            const size = Math.hypot(1, slope);
            const before = 80 + off;
            const s = 500 / size - before;
            const a = Math.max(0, Math.min(Math.PI / 2, s / radius));
            const over = Math.max(0, s - radius * a) + Math.min(0, s);
            const end = [
              (500 * slope) / size,
              -radius + radius * Math.sin(a) + over * Math.cos(a),
              radius - radius * Math.cos(a) + over * Math.sin(a),
            ];
            const g = march(dihedral(radius), [0, -radius - before, 0], [slope, 1, 0], 500, step);
            expect(gap(g, end), `radius ${radius}, off ${off}, slope ${slope}`).toBeLessThan(0.01);
          }
        }
      }
    });

    test(`Clairaut: ρ·cos(angle to the parallel) stays on a torus (${step})`, () => {
      for (const lift of [0.3, 1, 3]) {
        const field = torus(450, 150);
        const g = march(field, [600, 0, 0], [0, 1, lift], 500, step);
        const clairaut = (q: Geodesic) => q[0] * q[4] - q[1] * q[3];
        expect(Math.abs(clairaut(g) / (600 / Math.hypot(1, lift)) - 1)).toBeLessThan(2e-5);
        const fine = march(field, [600, 0, 0], [0, 1, lift], 500, 2);
        expect(gap(g, [fine[0], fine[1], fine[2]])).toBeLessThan(0.01);
      }
    });
  }
});

test("the error falls with the fourth power of the step", () => {
  const run = (step: number) => march(torus(250, 150), [400, 0, 0], [0, 1, 1], 400, step);
  const exact = run(1);
  const errors = [20, 10, 5].map((step) => gap(run(step), [exact[0], exact[1], exact[2]]));
  expect(errors[1]).toBeLessThan(errors[0] / 6);
  expect(errors[2]).toBeLessThan(errors[1] / 6);
  expect(errors[2]).toBeLessThan(1e-3);
});

test("one evaluation a step where the curvature is steady", () => {
  const field = cylinder(150);
  const g = newGeodesic();
  startGeodesic(field, g, 0, 150, 0, 0, 0, 1);
  field.evaluations = 0;
  advanceGeodesic(field, g, 400, 20);
  expect(field.evaluations).toBeLessThan(23);
});

test("a geodesic as a curve: unit tangents along it, stations at equal lengths", () => {
  const curve = marchGeodesic(cylinder(150), [0, 150, 0], [1, 0, 1], 400, 30)!;
  expect(curve.stations).toHaveLength(15);
  expect(curve.length).toBe(400);
  for (let i = 0; i < 15; i++) {
    const a = curve.stations[i] * Math.SQRT1_2;
    expect(
      gap(curve.points.subarray(3 * i), [a, 150 * Math.cos(a / 150), 150 * Math.sin(a / 150)]),
    ).toBeLessThan(0.01);
    const [t, n] = [curve.tangents.subarray(3 * i, 3 * i + 3), curve.normals.subarray(3 * i, 3 * i + 3)];
    expect(Math.hypot(...t)).toBeCloseTo(1, 12);
    expect(Math.hypot(...n)).toBeCloseTo(1, 12);
    expect(t[0] * n[0] + t[1] * n[1] + t[2] * n[2]).toBeCloseTo(0, 12);
  }
});

test("a start on an axis, a heading square to the surface and a surface that ends are answered, not guessed", () => {
  const g = newGeodesic();
  expect(startGeodesic(torus(250, 150), g, 250, 0, 0, 0, 1, 0)).toBe(false);
  expect(startGeodesic(sphere(100), g, 100, 0, 0, 1, 0, 0)).toBe(false);
  // A slab that ends: no zero beyond x = 100.
  const field = cylinder(150);
  const ending: Field = { ...field, evaluate: (x, y, z) => (x > 100 ? 50 : field.evaluate(x, y, z)) };
  expect(marchGeodesic(ending, [0, 150, 0], [1, 0, 0], 200)).toBe(null);
});
