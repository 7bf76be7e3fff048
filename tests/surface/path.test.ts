import { describe, expect, test } from "vitest";
import type { SurfaceCurve } from "../../core/surface/curve.ts";
import type { Field } from "../../core/surface/field.ts";
import { pathThrough } from "../../core/surface/path.ts";
import { cylinder, dihedral, plane, sphere } from "./closed-fields.ts";
import { roundCove } from "./planar-chain.ts";

/** Every sample on the surface, tangents unit and square to unit normals, stations rising. */
function expectSound(field: Field, curve: SurfaceCurve): void {
  for (let i = 0; i < curve.stations.length; i++) {
    const [x, y, z] = curve.points.subarray(3 * i, 3 * i + 3);
    const [t, n] = [curve.tangents.subarray(3 * i, 3 * i + 3), curve.normals.subarray(3 * i, 3 * i + 3)];
    expect(Math.abs(field.evaluate(x, y, z))).toBeLessThan(1e-8);
    expect(Math.hypot(...t)).toBeCloseTo(1, 9);
    expect(Math.abs(t[0] * n[0] + t[1] * n[1] + t[2] * n[2])).toBeLessThan(1e-9);
    if (i > 0) expect(curve.stations[i]).toBeGreaterThan(curve.stations[i - 1]);
  }
}

const cove = (...plan: [number, number][]) => plan.flatMap(([x, y]) => [...roundCove(150)(x, y).p]);

describe("between two points it is the geodesic", () => {
  test("on a sphere, a cylinder and over a cove", () => {
    const onSphere = pathThrough(sphere(500), [500, 0, 0, 0, 400, 300]);
    expectSound(sphere(500), onSphere);
    expect(onSphere.length).toBeCloseTo(250 * Math.PI, 6);
    const onCylinder = pathThrough(cylinder(300), [0, 300, 0, 400, 0, 300]);
    expect(onCylinder.length).toBeCloseTo(Math.hypot(400, 150 * Math.PI), 4);
    const overCove = pathThrough(dihedral(150), cove([0, -400], [700, 350]));
    expectSound(dihedral(150), overCove);
    expect(Math.abs(overCove.length - Math.hypot(700, 750))).toBeLessThan(0.01);
  });
});

describe("through more points", () => {
  test("on a plane it is the natural cubic spline by chord length", () => {
    const [a, b] = [Math.hypot(400, 300), Math.hypot(500, 200)];
    const curve = pathThrough(plane(), [0, 0, 0, 400, 300, 0, 900, 100, 0], { spacingMm: 10 });
    // Second derivative at the middle point from the three-point natural spline: 2(a + b)·M = 6(slope after − slope before).
    const m = [400, 300].map((_, k) => {
      const [d0, d1] = k === 0 ? [400, 500] : [300, -200];
      return (6 * (d1 / b - d0 / a)) / (2 * (a + b));
    });
    const spline = (k: 0 | 1, s: number) => {
      const [from, to, h, first] = s < a ? [[0, 0], [400, 300], a, true] : [[400, 300], [900, 100], b, false];
      const u = first ? s : s - a;
      const [y0, y1] = [(from as number[])[k], (to as number[])[k]];
      const [m0, m1] = first ? [0, m[k]] : [m[k], 0];
      const H = h as number;
      return (
        (m0 * (H - u) ** 3 + m1 * u ** 3) / (6 * H) +
        (y0 / H - (m0 * H) / 6) * (H - u) +
        (y1 / H - (m1 * H) / 6) * u
      );
    };
    let worst = 0;
    const count = curve.stations.length;
    const first = Math.round(a / 10);
    for (let i = 0; i < count; i++) {
      const s = i <= first ? (a * i) / first : a + (b * (i - first)) / (count - 1 - first);
      worst = Math.max(
        worst,
        Math.hypot(curve.points[3 * i] - spline(0, s), curve.points[3 * i + 1] - spline(1, s)),
      );
    }
    expect(worst).toBeLessThan(0.1);
  });

  test("over a cove it is the plane's own path, folded", () => {
    const plan: [number, number][] = [
      [0, -400],
      [500, 330],
      [1000, -250],
      [1500, 420],
    ];
    const folded = pathThrough(dihedral(150), cove(...plan));
    const flat = pathThrough(
      plane(),
      plan.flatMap(([x, y]) => [x, y, 0]),
    );
    expectSound(dihedral(150), folded);
    expect(Math.abs(folded.length - flat.length)).toBeLessThan(0.3);
  });

  test("it passes through the points, and its length converges", () => {
    const points = cove([0, -400], [500, 330], [1000, -250], [1500, 420]);
    const lengths = [40, 20, 10, 5].map(
      (spacingMm) => pathThrough(dihedral(150), points, { spacingMm }).length,
    );
    const changes = [1, 2, 3].map((i) => Math.abs(lengths[i] - lengths[i - 1]));
    expect(changes[2]).toBeLessThan(0.05);
    expect(changes[2]).toBeLessThan(changes[0] / 4);
    const curve = pathThrough(dihedral(150), points);
    for (let k = 0; k < points.length; k += 3) {
      let least = Infinity;
      for (let i = 0; i < curve.points.length; i += 3) {
        least = Math.min(
          least,
          Math.hypot(
            curve.points[i] - points[k],
            curve.points[i + 1] - points[k + 1],
            curve.points[i + 2] - points[k + 2],
          ),
        );
      }
      expect(least).toBeLessThan(1e-6);
    }
  });

  test("closed, it has no corner at its first point", () => {
    const square = [400, 0, 300, 0, 400, 300, -400, 0, 300, 0, -400, 300];
    const curve = pathThrough(sphere(500), square, { closed: true });
    expectSound(sphere(500), curve);
    expect(curve.closed).toBe(true);
    // The four parts are one another's images, so all are as long, and near to the circle through the points.
    const quarters = [1, 2, 3, 4]
      .map((k) => k * (curve.stations.length / 4))
      .map((i) => curve.stations[i] ?? curve.length);
    for (let k = 1; k < 4; k++) expect(quarters[k] - quarters[k - 1]).toBeCloseTo(quarters[0], 4);
    expect(Math.abs(curve.length / (2 * Math.PI * 400) - 1)).toBeLessThan(2e-3);
    const n = curve.stations.length;
    let most = 0;
    for (let i = 0; i < n; i++) {
      const j = (i + 1) % n;
      const turn = Math.hypot(...[0, 1, 2].map((k) => curve.tangents[3 * j + k] - curve.tangents[3 * i + k]));
      most = Math.max(most, turn);
    }
    expect(most).toBeLessThan(0.08);
  });
});

test("points off the surface, on top of each other or too few are refused by number", () => {
  expect(() => pathThrough(plane(), [0, 0, 0])).toThrow(/1 points: wants at least 2/);
  expect(() => pathThrough(plane(), [0, 0, 0, 100, 0, 0], { closed: true })).toThrow(
    /closed path wants at least 3/,
  );
  expect(() => pathThrough(plane(), [0, 0, 0, 100, 0, 0, 100, 0.5, 0])).toThrow(
    /Point 3 .*falls on the one before/,
  );
  const hollow: Field = { ...plane(), evaluate: () => 5, within: () => hollow };
  expect(() => pathThrough(hollow, [0, 0, 0, 100, 0, 0])).toThrow(/Point 1 .*no surface near it/);
});
