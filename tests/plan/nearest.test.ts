import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Chain } from "../../core/plan/chain.ts";
import { makeChain } from "../../core/plan/make-chain.ts";
import { blankNearest, nearest } from "../../core/plan/nearest.ts";
import { type ChainPlace, pointAt } from "../../core/plan/point-at.ts";
import { arc, line } from "../../core/plan/segments.ts";
import { anyOutline } from "./arbitrary-outlines.ts";

/**
 * The slow way: the nearest of many points along the chain, then ever closer about the best few. Inside or outside by the
 * winding number of the samples, which knows nothing of segments or normals.
 */
function slowDistance(chain: Chain, samples: readonly ChainPlace[], x: number, y: number): number {
  const step = chain.length / samples.length;
  const away = (p: ChainPlace) => Math.hypot(p.x - x, p.y - y);
  const bound = Math.min(...samples.map(away)) + step;
  let best = Infinity;
  let winding = 0;
  samples.forEach((p, i) => {
    const q = samples[(i + 1) % samples.length];
    const cross = (p.x - x) * (q.y - y) - (p.y - y) * (q.x - x);
    winding += Math.atan2(cross, (p.x - x) * (q.x - x) + (p.y - y) * (q.y - y));
    if (away(p) > bound) return;
    let low = (i - 1) * step;
    let high = (i + 1) * step;
    for (let k = 0; k < 45; k++) {
      const a = low + (high - low) / 3;
      const b = high - (high - low) / 3;
      if (away(pointAt(chain, a)) < away(pointAt(chain, b))) high = b;
      else low = a;
    }
    best = Math.min(best, away(pointAt(chain, (low + high) / 2)));
  });
  return Math.round(winding / (2 * Math.PI)) === 0 ? best : -best;
}

describe("the nearest point of a chain", () => {
  test("agrees with dense sampling, inside and outside", () => {
    const place = fc.double({ min: -0.3, max: 1.3, noNaN: true });
    fc.assert(
      fc.property(
        anyOutline,
        fc.array(fc.tuple(place, place), { minLength: 4, maxLength: 4 }),
        (outline, places) => {
          const { length, width } = outline.extent;
          const samples = Array.from({ length: 1000 }, (_, i) =>
            pointAt(outline.chain, (i * outline.chain.length) / 1000),
          );
          for (const [u, v] of places) {
            const [x, y] = [u * length, (v - 0.5) * width];
            const expected = slowDistance(outline.chain, samples, x, y);
            // Samples so far apart cannot tell the side of a point on the outline itself.
            if (Math.abs(expected) < 10) continue;
            expect(nearest(outline.chain, x, y).distance).toBeCloseTo(expected, 7);
          }
        },
      ),
      { numRuns: 30, endOnFailure: true },
    );
  });

  test("finds the foot it was moved from, at joints too, to 1e-9 mm", () => {
    const offset = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(
        anyOutline,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(),
        offset,
        (outline, part, joint, d) => {
          const { chain } = outline;
          for (const station of [part * chain.length, chain.stations[joint % chain.segments.length]]) {
            const p = pointAt(chain, station);
            const found = nearest(chain, p.x + d * p.ty, p.y - d * p.tx);
            expect(Math.abs(found.distance - d)).toBeLessThan(1e-9);
            expect(Math.hypot(found.x - p.x, found.y - p.y)).toBeLessThan(1e-9);
            const apart = Math.abs(found.station - (station % chain.length));
            expect(Math.min(apart, chain.length - apart)).toBeLessThan(1e-8);
            expect(Math.hypot(found.nx - p.ty, found.ny + p.tx)).toBeLessThan(1e-7);
          }
        },
      ),
      { numRuns: 80 },
    );
  });

  test("has a gradient of unit length that points to the right", () => {
    const place = fc.double({ min: -0.2, max: 1.2, noNaN: true });
    fc.assert(
      fc.property(anyOutline, place, place, (outline, u, v) => {
        const [x, y] = [u * outline.extent.length, (v - 0.5) * outline.extent.width];
        const found = nearest(outline.chain, x, y);
        expect(Math.hypot(found.nx, found.ny)).toBeCloseTo(1, 9);
        expect(
          Math.hypot(x - found.distance * found.nx - found.x, y - found.distance * found.ny - found.y),
        ).toBeLessThan(1e-7);
      }),
      { numRuns: 80 },
    );
  });

  test("takes the sign of the mean direction at a sharp corner, and reaches past the ends of an open chain", () => {
    const square = makeChain(
      [line(0, 0, 10, 0), line(10, 0, 10, 10), line(10, 10, 0, 10), line(0, 10, 0, 0)],
      true,
    );
    expect(nearest(square, 13, -4)).toMatchObject({ distance: 5, x: 10, y: 0, nx: 0.6, ny: -0.8 });
    expect(nearest(square, 9, 1).distance).toBe(-1);
    const notched = makeChain(
      [line(0, 0, 10, 0), line(10, 0, 5, 5), line(5, 5, 10, 10), line(10, 10, 0, 10), line(0, 10, 0, 0)],
      true,
    );
    expect(nearest(notched, 2.5, 5).distance).toBeCloseTo(-2.5, 12);
    expect(nearest(notched, 4, 5).distance).toBe(-1);
    const open = makeChain([line(0, 0, 10, 0)], false);
    expect(nearest(open, 14, 3)).toMatchObject({ distance: -5, x: 10, y: 0, station: 10 });
    expect(nearest(open, -3, -4)).toMatchObject({ distance: 5, x: 0, y: 0, station: 0 });
  });

  test("gives the middle of an arc at its centre, knows arcs of more than half a turn, and fills what it is given", () => {
    const quarter = makeChain([arc(0, 0, 5, 0, Math.PI / 2)], false);
    const found = nearest(quarter, 0, 0);
    expect(found.distance).toBe(-5);
    expect(found.x).toBeCloseTo(5 / Math.SQRT2, 12);
    const most = makeChain([arc(0, 0, 5, 0, -1.5 * Math.PI)], false);
    expect(nearest(most, 7, -1).distance).toBeCloseTo(5 - Math.sqrt(50), 12);
    expect(nearest(most, 6, 2)).toMatchObject({ x: 5, y: 0, station: 0 });
    expect(nearest(most, 2, 6).station).toBeCloseTo(most.length, 12);
    const circle = makeChain([arc(0, 0, 5, 1, 2 * Math.PI)], true);
    const out = blankNearest();
    expect(nearest(circle, 6 * Math.cos(1), 6 * Math.sin(1), out)).toBe(out);
    expect(out.distance).toBeCloseTo(1, 12);
  });
});
