import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { contestBetween } from "../../core/surface/contest.ts";
import { curvePointAt, reverseCurve, type SurfaceCurve } from "../../core/surface/curve.ts";
import { cutCurve, insertSamples } from "../../core/surface/cut-curve.ts";
import { nearestStation } from "../../core/surface/nearest-station.ts";
import { traceContest } from "../../core/surface/trace.ts";
import { roundPool } from "./pool-fields.ts";

const R = 1500;
const radius = R - 200 * (1 - Math.SQRT1_2);
const field = roundPool(R, 1400, 200);
const guess = Float64Array.from({ length: 3 * 60 }, (_, i) => {
  const a = (2 * Math.PI * Math.floor(i / 3)) / 60;
  return [1440 * Math.cos(a), 1440 * Math.sin(a), -1340][i % 3];
});
const circle = traceContest(field, contestBetween(field, ["wall"], ["floor"]), guess, { closed: true }).curve;
const at = (curve: SurfaceCurve, station: number) => {
  const out = new Float64Array(9);
  curvePointAt(curve, station, out);
  return out;
};
const apart = (a: Float64Array, b: Float64Array, from = 0) =>
  Math.hypot(a[from] - b[from], a[from + 1] - b[from + 1], a[from + 2] - b[from + 2]);
const station = fc.double({ min: 0, max: circle.length, noNaN: true });

describe("a stretch of a closed curve", () => {
  it("has the length and the points of the curve between its stations, over the seam too", () => {
    fc.assert(
      fc.property(station, station, fc.double({ min: 0, max: 1, noNaN: true }), (from, to, part) => {
        fc.pre(Math.abs(to - from) > 1);
        const cut = cutCurve(circle, from, to);
        const length = to > from ? to - from : to + circle.length - from;
        expect(cut.closed).toBe(false);
        expect(cut.length).toBeCloseTo(length, 5);
        const s = part * length;
        expect(apart(at(cut, s), at(circle, from + s))).toBeLessThan(1e-3);
        expect(apart(at(cut, s), at(circle, from + s), 3)).toBeLessThan(1e-3);
        for (let i = 1; i < cut.stations.length; i++)
          expect(cut.stations[i]).toBeGreaterThan(cut.stations[i - 1]);
      }),
      { numRuns: 60 },
    );
  });

  it("shares the curve's own points", () => {
    const cut = cutCurve(circle, 1000, 3000);
    const keys = new Set<number>(circle.points);
    for (let i = 3; i < cut.points.length - 3; i++) expect(keys.has(cut.points[i])).toBe(true);
  });
});

describe("points put into a curve", () => {
  it("become its own, once, without changing its length", () => {
    const places = [circle.stations[5], 777, 1234.5, circle.length - 1];
    const samples = new Float64Array(9 * places.length);
    places.forEach((s, i) => {
      samples.set(at(circle, s), 9 * i);
    });
    const more = insertSamples(circle, samples, places);
    expect(more.stations.length).toBe(circle.stations.length + 3);
    expect(more.length).toBe(circle.length);
    for (const s of places) expect(more.stations).toContain(s);
  });
});

describe("the nearest station", () => {
  it("is that of a point beside the curve", () => {
    fc.assert(
      fc.property(station, fc.double({ min: -50, max: 50, noNaN: true }), (s, aside) => {
        const p = at(circle, s);
        const near = nearestStation(
          circle,
          p[0] * (1 + aside / radius),
          p[1] * (1 + aside / radius),
          p[2] + aside,
        );
        const off = Math.abs(near - s);
        expect(Math.min(off, circle.length - off)).toBeLessThan(1e-2);
      }),
      { numRuns: 60 },
    );
  });
});

describe("a curve turned round", () => {
  it("has the same points at the stations counted from its end, and left for right", () => {
    const back = reverseCurve(circle);
    for (const s of [0, 10, 2000, 8000]) {
      const a = at(circle, s);
      const b = at(back, circle.length - s);
      expect(apart(a, b)).toBeLessThan(1e-6);
      for (let k = 3; k < 6; k++) expect(b[k]).toBeCloseTo(-a[k], 6);
    }
    expect(back.points[0]).toBe(circle.points[0]);
    const twice = reverseCurve(back);
    expect(Array.from(twice.points)).toEqual(Array.from(circle.points));
  });
});
