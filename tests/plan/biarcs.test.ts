import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Point } from "../../core/plan/arcs.ts";
import { biarcs } from "../../core/plan/biarcs.ts";
import type { Chain } from "../../core/plan/chain.ts";
import { kinks } from "../../core/plan/make-chain.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { pointAt } from "../../core/plan/point-at.ts";
import { curvatureOf } from "../../core/plan/segments.ts";
import { signedArea } from "../../core/plan/signed-area.ts";

/** How often the sign changes going round; zeros are passed over. */
function signChanges(values: readonly number[]): number {
  const signs = values.filter((value) => value !== 0).map(Math.sign);
  return signs.filter((sign, i) => sign !== signs[(i + 1) % signs.length]).length;
}

const bends = (chain: Chain) => chain.segments.map(curvatureOf);

/** Sine of the turn at each point. */
function turns(points: readonly Point[]): number[] {
  return points.map(([x, y], i) => {
    const [px, py] = points[(i + points.length - 1) % points.length];
    const [qx, qy] = points[(i + 1) % points.length];
    const cross = (x - px) * (qy - y) - (y - py) * (qx - x);
    return cross / Math.hypot(x - px, y - py) / Math.hypot(qx - x, qy - y);
  });
}

/** Points on an ellipse at uneven angles: convex. */
const convexRing = fc
  .record({
    a: fc.double({ min: 2000, max: 7000, noNaN: true }),
    b: fc.double({ min: 1200, max: 3000, noNaN: true }),
    steps: fc.array(fc.double({ min: 0.3, max: 1.5, noNaN: true }), { minLength: 4, maxLength: 14 }),
  })
  .map(({ a, b, steps }): Point[] => {
    const total = steps.reduce((sum, step) => sum + step, 0);
    let angle = 0;
    return steps.map((step) => {
      angle += (step / total) * 2 * Math.PI;
      return [a * Math.cos(angle), b * Math.sin(angle)];
    });
  });

/** A ring with dents. */
const dentedRing = fc
  .array(fc.double({ min: 0.6, max: 1, noNaN: true }), { minLength: 4, maxLength: 14 })
  .map((radial) =>
    radial.map((r, i): Point => {
      const angle = (2 * Math.PI * i) / radial.length;
      return [5000 * r * Math.cos(angle), 2500 * r * Math.sin(angle)];
    }),
  );

describe("a smooth outline of arcs through points", () => {
  test("passes through its points and has no kink", () => {
    fc.assert(
      fc.property(fc.oneof(convexRing, dentedRing), (points) => {
        const { chain, spans } = biarcs(points);
        expect(kinks(chain, 1e-5)).toEqual([]);
        for (const [x, y] of points) expect(Math.abs(nearest(chain, x, y).distance)).toBeLessThan(1e-7);
        expect(spans).toHaveLength(chain.segments.length);
        expect([...new Set(spans)]).toEqual(points.map((_, i) => i));
      }),
      { numRuns: 80 },
    );
  });

  test("is convex when the points are", () => {
    fc.assert(
      fc.property(convexRing, (points) => {
        for (const bend of bends(biarcs(points).chain)) expect(bend).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 80 },
    );
  });

  test("bends to and fro no oftener than its points do", () => {
    fc.assert(
      fc.property(dentedRing, (points) => {
        // At a point that is all but straight there is no telling which way a fair curve bends.
        fc.pre(turns(points).every((sine) => Math.abs(sine) > 0.02));
        expect(signChanges(bends(biarcs(points).chain))).toBeLessThanOrEqual(signChanges(turns(points)));
      }),
      { numRuns: 80 },
    );
  });

  test("is the circle when the points are on one, whichever way round", () => {
    const points = [0, 0.4, 1.3, 2.9, 3.3, 5].map((t): Point => [1000 * Math.cos(t), 1000 * Math.sin(t)]);
    for (const ring of [points, [...points].reverse()]) {
      const { chain } = biarcs(ring);
      expect(Math.abs(signedArea(chain))).toBeCloseTo(Math.PI * 1e6, 4);
      expect(chain.segments).toHaveLength(6);
    }
  });

  test("comes nearer an ellipse with more points, with the third power of their distance", () => {
    const worst = (count: number) => {
      const points = Array.from({ length: count }, (_, i): Point => {
        const t = (2 * Math.PI * i) / count;
        return [4000 * Math.cos(t), 2000 * Math.sin(t)];
      });
      const { chain } = biarcs(points);
      const errors = Array.from({ length: 400 }, (_, i) => {
        const t = (2 * Math.PI * i) / 400;
        return Math.abs(nearest(chain, 4000 * Math.cos(t), 2000 * Math.sin(t)).distance);
      });
      return Math.max(...errors);
    };
    expect(worst(16)).toBeLessThan(30);
    expect(worst(32) / worst(16)).toBeLessThan(1 / 6);
    expect(worst(64) / worst(32)).toBeLessThan(1 / 6);
  });

  test("runs straight through three points in a row, without swinging out on either side of them", () => {
    const points: Point[] = [
      [0, 0],
      [3000, 0],
      [6000, 0],
      [8000, 1700],
      [6000, 3400],
      [3000, 3400],
      [0, 3400],
      [-2000, 1700],
    ];
    const { chain, spans } = biarcs(points);
    for (const bend of bends(chain)) expect(bend).toBeGreaterThanOrEqual(0);
    chain.segments.forEach((segment, i) => {
      if ([0, 1, 4, 5].includes(spans[i])) expect(segment.kind).toBe("line");
    });
  });

  test("moves a little when a point moves a little, also as it passes through a straight line", () => {
    const outlineAt = (y: number) =>
      biarcs([
        [0, 0],
        [3000, y],
        [6000, 0],
        [8000, 1700],
        [3000, 3400],
        [-2000, 1700],
      ]).chain;
    let worst = 0;
    for (let y = -200; y < 200; y += 2) {
      const [a, b] = [outlineAt(y), outlineAt(y + 2)];
      for (let i = 0; i < 100; i++) {
        const p = pointAt(a, (i / 100) * a.length);
        worst = Math.max(worst, Math.abs(nearest(b, p.x, p.y).distance));
      }
    }
    expect(worst).toBeLessThan(20);
  });

  test("refuses too few points, and points given twice, by number", () => {
    expect(() =>
      biarcs([
        [0, 0],
        [1, 1],
      ]),
    ).toThrow("three points or more");
    expect(() =>
      biarcs([
        [0, 0],
        [1, 1],
        [1, 1],
        [0, 5],
      ]),
    ).toThrow("Points 2 and 3");
  });
});
