import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { contestBetween, contestGradient, contestValue } from "../../core/surface/contest.ts";
import { curvePointAt } from "../../core/surface/curve.ts";
import { type Field, offsetField } from "../../core/surface/field.ts";
import { traceContest } from "../../core/surface/trace.ts";
import { boxPool, roundPool, stepPool } from "./pool-fields.ts";

/** A rough guess with uneven spacing and an error of up to `rough` mm, the same each time. */
function roughly(points: [number, number, number][], rough: number): Float64Array {
  let seed = 12345;
  const random = () => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return seed / 2147483648 - 0.5;
  };
  return Float64Array.from(points.flatMap((p) => p.map((v) => v + 2 * rough * random())));
}

const circle = (radius: number, z: number, count: number): [number, number, number][] =>
  Array.from({ length: count }, (_, i) => {
    const a = (2 * Math.PI * (i + 0.3 * Math.sin(7 * i))) / count;
    return [radius * Math.cos(a), radius * Math.sin(a), z];
  });

/** Largest distance of the points from both constraints, mm, and largest errors of frames. */
function faults(
  field: Field,
  contest: Float64Array,
  curve: { points: Float64Array; tangents: Float64Array; normals: Float64Array },
) {
  const g = new Float64Array(3);
  let off = 0;
  let frame = 0;
  let left = Infinity;
  for (let i = 0; i < curve.points.length; i += 3) {
    const [x, y, z] = curve.points.subarray(i, i + 3);
    off = Math.max(off, Math.abs(field.evaluate(x, y, z)));
    const n = field.gradient.slice();
    contestGradient(field, contest, x, y, z, g);
    off = Math.max(off, Math.abs(contestValue(field, contest, x, y, z)) / Math.hypot(...g));
    const t = curve.tangents.subarray(i, i + 3);
    const m = curve.normals.subarray(i, i + 3);
    const l = [m[1] * t[2] - m[2] * t[1], m[2] * t[0] - m[0] * t[2], m[0] * t[1] - m[1] * t[0]];
    frame = Math.max(
      frame,
      Math.abs(t[0] * n[0] + t[1] * n[1] + t[2] * n[2]),
      Math.abs(Math.hypot(...t) - 1),
    );
    left = Math.min(left, (l[0] * g[0] + l[1] * g[1] + l[2] * g[2]) / Math.hypot(...g));
  }
  return { off, frame, left };
}

describe("a line between faces", () => {
  it("is the circle in the middle of a torus cove, of length 2π(R − r(1 − 1/√2))", () => {
    for (const [R, r] of [
      [2000, 200],
      [1000, 100],
      [600, 500],
    ]) {
      const field = roundPool(R, 1400, r);
      const contest = contestBetween(field, ["wall"], ["floor"]);
      const exact = 2 * Math.PI * (R - r * (1 - Math.SQRT1_2));
      const {
        curve,
        exact: found,
        reason,
      } = traceContest(field, contest, roughly(circle(R - 0.3 * r, -1400 + 0.3 * r, 90), 0.1 * r), {
        closed: true,
      });
      expect(reason).toBe("");
      expect(found).toBe(true);
      expect(Math.abs(curve.length - exact)).toBeLessThan(1e-4);
      const { off, frame, left } = faults(field, contest, curve);
      expect(off).toBeLessThan(1e-6);
      expect(frame).toBeLessThan(1e-9);
      expect(left).toBeGreaterThan(0.99);
    }
  });

  it("runs with the first side on its left, whichever way the guess runs", () => {
    const field = roundPool(1500, 1400, 200);
    const guess = circle(1440, -1340, 60);
    const there = traceContest(field, contestBetween(field, ["wall"], ["floor"]), roughly(guess, 5), {
      closed: true,
    });
    const back = traceContest(field, contestBetween(field, ["floor"], ["wall"]), roughly(guess, 5), {
      closed: true,
    });
    const turn = (p: Float64Array) => p[0] * p[4] - p[1] * p[3];
    // Wall on the left: counter-clockwise seen from above.
    expect(turn(there.curve.points)).toBeGreaterThan(0);
    expect(turn(back.curve.points)).toBeLessThan(0);
    expect(back.curve.length).toBeCloseTo(there.curve.length, 4);
  });

  it("has straight sides and quarter circles in a box with plan corners", () => {
    for (const [corner, cove] of [
      [600, 200],
      [300, 250],
      [200, 200],
      [150, 40],
    ]) {
      const field = boxPool(8000, 3500, 1400, corner, cove);
      const contest = contestBetween(field, ["wall"], ["floor"]);
      const inset = cove * (1 - Math.SQRT1_2);
      const exact = 2 * (8000 - 2 * corner) + 2 * (3500 - 2 * corner) + 2 * Math.PI * (corner - inset);
      // Corners cut off straight: the guess lies up to 30 mm inside the rounded line there.
      const guess: [number, number, number][] = [];
      const [x0, x1, y1, k] = [inset, 8000 - inset, 1750 - inset, 0.9 * corner];
      const corners = [
        [x0 + k, -y1],
        [x1 - k, -y1],
        [x1, -y1 + k],
        [x1, y1 - k],
        [x1 - k, y1],
        [x0 + k, y1],
        [x0, y1 - k],
        [x0, -y1 + k],
      ];
      corners.forEach(([ax, ay], n) => {
        const [bx, by] = corners[(n + 1) % 8];
        const parts = Math.ceil(Math.hypot(bx - ax, by - ay) / 55);
        for (let i = 0; i < parts; i++)
          guess.push([ax + ((bx - ax) * i) / parts, ay + ((by - ay) * i) / parts, -1400 + inset]);
      });
      const { curve, reason } = traceContest(field, contest, roughly(guess, 5), { closed: true, slack: 300 });
      expect(reason).toBe("");
      expect(Math.abs(curve.length - exact)).toBeLessThan(0.02);
      expect(faults(field, contest, curve).off).toBeLessThan(1e-6);
    }
  });

  it("moves out with the laminate: the circle at f = t has radius R + t/√2 …", () => {
    const R = 1800;
    const r = 200;
    const guess = roughly(circle(R - 60, -1340, 80), 8);
    for (const t of [0, 6, 30]) {
      const field = offsetField(roundPool(R, 1400, r), t);
      const { curve } = traceContest(field, contestBetween(field, ["wall"], ["floor"]), guess, {
        closed: true,
      });
      const exact = 2 * Math.PI * (R - r * (1 - Math.SQRT1_2) + t * Math.SQRT1_2);
      expect(Math.abs(curve.length - exact)).toBeLessThan(1e-4);
    }
  });

  it("is the same circle from any rough guess, for any cove, draft and offset", () => {
    fc.assert(
      fc.property(
        fc.record({
          R: fc.double({ min: 800, max: 4000, noNaN: true }),
          cove: fc.double({ min: 40, max: 500, noNaN: true }),
          draftDeg: fc.double({ min: 0, max: 10, noNaN: true }),
          t: fc.double({ min: 0, max: 30, noNaN: true }),
          rough: fc.double({ min: 0, max: 12, noNaN: true }),
          count: fc.integer({ min: 40, max: 200 }),
          stepMm: fc.double({ min: 8, max: 60, noNaN: true }),
        }),
        ({ R, cove, draftDeg, t, rough, count, stepMm }) => {
          const draft = (draftDeg * Math.PI) / 180;
          const field = offsetField(roundPool(R, 1400, cove, draft), t);
          // Ball centres lie on a circle, its contacts at the floor's and the wall's normal: the middle on the bisector.
          const ring = R - 1400 * Math.tan(draft) + (cove * Math.sin(draft) - cove) / Math.cos(draft);
          const half = (Math.PI / 2 - draft) / 2;
          const radius = ring + (cove + t) * Math.sin(half);
          const height = -1400 + cove - (cove + t) * Math.cos(half);
          const guess = roughly(circle(radius, height, count), rough);
          const { curve, reason } = traceContest(field, contestBetween(field, ["wall"], ["floor"]), guess, {
            closed: true,
            stepMm,
          });
          expect(reason).toBe("");
          expect(Math.abs(curve.length - 2 * Math.PI * radius)).toBeLessThan(1e-3);
        },
      ),
      { numRuns: 40 },
    );
  });

  it("is right at every step on a drafted wall, whose foot is a circle of lesser radius", () => {
    const draft = (3 * Math.PI) / 180;
    const R = 1700;
    const r = 200;
    const depth = 1400;
    const field = roundPool(R, depth, r, draft);
    // The ball's centre lies r from both; the middle of the blend on the bisector of the two normals.
    const ring = R - depth * Math.tan(draft) + (r * Math.sin(draft) - r) / Math.cos(draft);
    const half = (Math.PI / 2 - draft) / 2;
    const exact = 2 * Math.PI * (ring + r * Math.sin(half));
    const guess = roughly(circle(ring + 130, -depth + 60, 200), 10);
    const error = [200, 100, 50, 25].map((stepMm) => {
      const { curve } = traceContest(field, contestBetween(field, ["wall"], ["floor"]), guess, {
        closed: true,
        stepMm,
      });
      return Math.abs(curve.length - exact);
    });
    for (const e of error) expect(e).toBeLessThan(1e-4);
  });

  it("follows the foot over a step's tread, nose and riser", () => {
    const radii = { cove: 150, step: 60, nose: 30 };
    const field = stepPool(6000, 3000, 1300, 400, radii, 900, 500);
    const contest = contestBetween(field, ["wall"], ["floor", "steps/tread-1", "steps/riser-1"]);
    const guess: [number, number, number][] = [];
    const i = 44;
    for (let x = 500; x < 900; x += 31) guess.push([x, -1500 + i, -500 + i]);
    for (let z = -500; z > -1300; z -= 31) guess.push([900 + i * 0.7, -1500 + i, z]);
    for (let x = 950; x < 3000; x += 37) guess.push([x, -1500 + i, -1300 + i]);
    const { curve, reason } = traceContest(field, contest, roughly(guess, 6), { closed: false, slack: 60 });
    expect(reason).toBe("");
    const { off } = faults(field, contest, curve);
    expect(off).toBeLessThan(1e-6);
    // Half a step gives the same length.
    const finer = traceContest(field, contest, roughly(guess, 6), { closed: false, slack: 60, stepMm: 6 });
    expect(Math.abs(finer.curve.length - curve.length)).toBeLessThan(0.02);
  });

  it("says why where there is no line, and gives the guess back", () => {
    const field = roundPool(2000, 1400, 200);
    const contest = contestBetween(field, ["wall"], ["floor"]);
    const guess = roughly(circle(800, -1400, 60), 1);
    const { curve, exact, reason } = traceContest(field, contest, guess, { closed: true });
    expect(exact).toBe(false);
    expect(reason).not.toBe("");
    expect(curve.points.length).toBe(guess.length);
    expect(curve.length).toBeGreaterThan(4900);
  });

  it("refuses unknown faces and faces on both sides by name", () => {
    const field = roundPool(2000, 1400, 200);
    expect(() => contestBetween(field, ["wall"], ["flor"])).toThrow(/"flor".*wall, floor/);
    expect(() => contestBetween(field, ["wall"], ["wall"])).toThrow(/both sides/);
  });
});

describe("a point on the curve", () => {
  it("lies on the circle between samples, with tangent and normal", () => {
    const R = 1500;
    const r = 200;
    const field = roundPool(R, 1400, r);
    const { curve } = traceContest(
      field,
      contestBetween(field, ["wall"], ["floor"]),
      roughly(circle(1440, -1340, 60), 5),
      { closed: true },
    );
    const radius = R - r * (1 - Math.SQRT1_2);
    const out = new Float64Array(9);
    curvePointAt(curve, 0, out);
    const start = Math.atan2(out[1], out[0]);
    for (const [asked, tolerance] of [
      [undefined, 2e-4],
      [field, 1e-4],
    ] as const) {
      for (let s = -3000; s < 20000; s += 333.3) {
        curvePointAt(curve, s, out, asked);
        const a = start + s / radius;
        expect(Math.hypot(out[0] - radius * Math.cos(a), out[1] - radius * Math.sin(a))).toBeLessThan(
          tolerance,
        );
        expect(Math.hypot(out[3] + Math.sin(a), out[4] - Math.cos(a), out[5])).toBeLessThan(1e-4);
        expect(
          Math.hypot(
            out[6] - Math.cos(a) / Math.SQRT2,
            out[7] - Math.sin(a) / Math.SQRT2,
            out[8] + Math.SQRT1_2,
          ),
        ).toBeLessThan(2e-4);
      }
    }
  });
});
