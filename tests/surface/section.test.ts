import { describe, expect, it } from "vitest";
import { contestBetween } from "../../core/surface/contest.ts";
import { offsetField } from "../../core/surface/field.ts";
import { offsetLength, type Plane, section, sectionPolyline } from "../../core/surface/section.ts";
import { atContest, atFace, atHeight, atPlane } from "../../core/surface/stops.ts";
import { fieldOf } from "./closed-fields.ts";
import { boxPool, roundPool, stepPool } from "./pool-fields.ts";

/** The upright plane through the x axis: a = x, b = z. */
const upright: Plane = { origin: [0, 0, 0], u: [1, 0, 0], v: [0, 0, 1] };

/** Cylinder over an ellipse: a level set, not a distance, so its gradient is far from unit length. */
const ellipse = (a: number, b: number) =>
  fieldOf((x, y, _z, g) => {
    const q = Math.hypot(x / a, y / b);
    g[0] = (b * x) / (a * a * q);
    g[1] = (b * y) / (b * b * q);
    g[2] = 0;
    return b * (q - 1);
  });

describe("a plane section", () => {
  it("goes down a wall, round the cove and onto the floor: lengths of lines and a quarter circle", () => {
    for (const [r, stepMm] of [
      [200, 20],
      [200, 7],
      [40, 20],
      [500, 20],
    ]) {
      const field = boxPool(8000, 3500, 1400, 600, r);
      const path = section(field, upright, [8000, 0, -100], {
        direction: [0, 0, -1],
        stepMm,
        stop: atPlane([6000, 0, 0], [-1, 0, 0]),
      })!;
      expect(path.ended).toBe("stop");
      const exact = 1300 - r + (Math.PI / 2) * r + 2000 - r;
      expect(Math.abs(path.length - exact)).toBeLessThan(0.003);
      for (let i = 0; i < path.points.length; i += 3) {
        const [x, y, z] = path.points.subarray(i, i + 3);
        expect(Math.abs(field.evaluate(x, y, z))).toBeLessThan(1e-9);
        expect(Math.abs(y)).toBeLessThan(1e-9);
      }
      // Down the wall, ground on the outside: a quarter turn, and 12 mm out the path is 12·π/2 longer.
      expect(path.turning[path.turning.length - 1]).toBeCloseTo(Math.PI / 2, 9);
      expect(Math.abs(offsetLength(path, 12) - exact - 6 * Math.PI)).toBeLessThan(0.003);
      // The half turn of the cove lies where it should.
      expect(Math.abs(offsetLength(path, 12, 0, 1300 - r) - (1300 - r))).toBeLessThan(0.15);
    }
  });

  it("is measured right on the surface moved out by the laminate", () => {
    const field = offsetField(boxPool(8000, 3500, 1400, 600, 200), 8);
    const path = section(field, upright, [8000, 0, -100], {
      direction: [0, 0, -1],
      stop: atPlane([6000, 0, 0], [-1, 0, 0]),
    })!;
    expect(Math.abs(path.length - (1100 + (Math.PI / 2) * 208 + 1800))).toBeLessThan(0.003);
  });

  it("turns the other way over a nose, so that the outside is shorter", () => {
    const field = stepPool(6000, 3000, 1300, 400, { cove: 150, step: 60, nose: 30 }, 900, 500);
    const path = section(field, upright, [700, 0, -500], {
      direction: [1, 0, 0],
      stop: atHeight(-1000, "down"),
    })!;
    const exact = 200 - 30 + 15 * Math.PI + 500 - 30;
    expect(path.ended).toBe("stop");
    expect(Math.abs(path.length - exact)).toBeLessThan(0.003);
    expect(Math.abs(offsetLength(path, 10) - exact + 5 * Math.PI)).toBeLessThan(0.003);
  });

  it("stops at a length, a height, a contest, a face and the far side of a plane", () => {
    const r = 200;
    const field = roundPool(2000, 1400, r);
    const contest = contestBetween(field, ["wall"], ["floor"]);
    const start = [2000, 0, -200];
    const down = [0, 0, -1];
    const end = (path: { points: Float64Array }) => Array.from(path.points.slice(-3));
    const middle = 1000 + (Math.PI / 4) * r;
    const byLength = section(field, upright, start, { direction: down, lengthMm: 1234.5 })!;
    expect(byLength.ended).toBe("length");
    expect(byLength.length).toBeCloseTo(1234.5, 6);
    const byHeight = section(field, upright, start, { direction: down, stop: atHeight(-700, "down") })!;
    expect(byHeight.length).toBeCloseTo(500, 6);
    expect(end(byHeight)[2]).toBeCloseTo(-700, 9);
    for (const stop of [atContest(field, contest, 1), atFace(field, 1)]) {
      const path = section(field, upright, start, { direction: down, stop })!;
      expect(path.ended).toBe("stop");
      expect(Math.abs(path.length - middle)).toBeLessThan(0.002);
      expect(end(path)[2]).toBeCloseTo(-1400 + r * (1 - Math.SQRT1_2), 5);
    }
    const up = section(field, upright, [1000, 0, -1400], {
      direction: [1, 0, 0],
      stop: atContest(field, contest, 0),
    })!;
    expect(Math.abs(up.length - (800 + (Math.PI / 4) * r))).toBeLessThan(0.002);
  });

  it("comes back to its start round a closed section, with its whole length", () => {
    const level: Plane = { origin: [0, 0, -700], u: [1, 0, 0], v: [0, 1, 0] };
    const path = section(roundPool(1500, 1400, 200), level, [1500, 0, -700], { direction: [0, 1, 0] })!;
    expect(path.ended).toBe("closed");
    expect(path.closed).toBe(true);
    expect(Math.abs(path.length - 2 * Math.PI * 1500)).toBeLessThan(1e-3);
    const flat = sectionPolyline(path, level, 0.05);
    expect(flat.length).toBeGreaterThan(2 * 100);
    for (let i = 0; i < flat.length; i += 2) expect(Math.hypot(flat[i], flat[i + 1])).toBeCloseTo(1500, 3);
  });

  it("follows a surface without an end for the errors of its length to add up: an ellipse by its perimeter", () => {
    const level: Plane = { origin: [0, 0, 0], u: [1, 0, 0], v: [0, 1, 0] };
    // Perimeter of the ellipse 2000 × 1000 by Ramanujan's second series, good to 1e-9 here after Gauss–Kummer terms.
    const [a, b] = [2000, 1000];
    const h = ((a - b) / (a + b)) ** 2;
    let sum = 1;
    let term = 1;
    for (let n = 1; n < 40; n++) {
      // Gauss–Kummer series: π(a + b) Σ binom(½, n)² hⁿ.
      term *= (1.5 - n) / n;
      sum += term * term * h ** n;
    }
    const exact = Math.PI * (a + b) * sum;
    const errors = [80, 40, 20].map((stepMm) => {
      const path = section(ellipse(a, b), level, [a, 0, 0], { direction: [0, 1, 0], stepMm })!;
      expect(path.ended).toBe("closed");
      return Math.abs(path.length - exact);
    });
    expect(errors[2]).toBeLessThan(1e-3);
    expect(errors[2]).toBeLessThan(errors[0]);
  });

  it("gives the outline of a web in the corner under a tread, within the sagitta asked for", () => {
    const t = 6;
    const radii = { cove: 150, step: 60, nose: 30 };
    const field = offsetField(stepPool(6000, 3000, 1300, 400, radii, 900, 500), t);
    const path = section(field, upright, [700, 0, -500 - t], {
      direction: [1, 0, 0],
      stop: atHeight(-900, "down"),
    })!;
    const flat = sectionPolyline(path, upright, 0.05);
    expect(flat[0]).toBeCloseTo(700, 6);
    expect(flat[1]).toBeCloseTo(-506, 6);
    let area = 0;
    for (let i = 0; i + 3 < flat.length; i += 2)
      area += ((flat[i + 2] - flat[i]) * (flat[i + 1] + flat[i + 3])) / 2;
    // Area between the section and z = 0 over x: the tread's strip, less the corner cut off by the nose, which at the
    // offset has the radius 30 − 6.
    const nose = radii.nose - t;
    const exact = -(194 * 506) - (1 - Math.PI / 4) * nose * nose;
    expect(Math.abs(area - exact)).toBeLessThan(2);
  });

  it("is null where no section lies near, and ends as lost only where the surface does", () => {
    expect(section(roundPool(1500, 1400, 200), upright, [0, 0, 800], { direction: [1, 0, 0] })).toBeNull();
  });
});
