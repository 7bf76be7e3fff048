import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { arcFromBulge, arcThroughPoints, chainFromBulges } from "../../core/plan/arcs.ts";
import { chainBounds } from "../../core/plan/chain-bounds.ts";
import { crossings } from "../../core/plan/crossings.ts";
import { filletPolygon } from "../../core/plan/fillet-polygon.ts";
import { cutChain, kinks, makeChain, moveChain, reverseChain } from "../../core/plan/make-chain.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { pointAt } from "../../core/plan/point-at.ts";
import { arc, line, segmentEnd, segmentStart } from "../../core/plan/segments.ts";
import { signedArea } from "../../core/plan/signed-area.ts";
import { anyOutline } from "./arbitrary-outlines.ts";

const part = fc.double({ min: 0, max: 1, noNaN: true });

describe("segments and chains", () => {
  test("refuse what has no length, and joints with a gap, by name", () => {
    expect(() => line(1, 2, 1, 2)).toThrow("two different points");
    expect(() => line(0, 0, Number.NaN, 0)).toThrow(RangeError);
    expect(() => arc(0, 0, 0, 0, 1)).toThrow("radius 0");
    expect(() => arc(0, 0, 1, 0, 7)).toThrow("at most 2π");
    expect(() => makeChain([line(0, 0, 1, 0), line(1, 0.1, 2, 0)], false)).toThrow(
      "Segment 1 of 2 ends 0.1 mm",
    );
    expect(() => makeChain([line(0, 0, 1, 0)], true)).toThrow("ends 1 mm from");
    expect(() => makeChain([], false)).toThrow("at least one");
  });

  test("a station is the length travelled: walking a little moves by as much", () => {
    fc.assert(
      fc.property(anyOutline, part, ({ chain }, u) => {
        const station = u * chain.length;
        const [a, b] = [pointAt(chain, station - 0.05), pointAt(chain, station + 0.05)];
        const p = pointAt(chain, station);
        expect(Math.hypot(b.x - a.x, b.y - a.y)).toBeCloseTo(0.1, 5);
        expect(Math.hypot(p.tx, p.ty)).toBeCloseTo(1, 12);
        expect((b.x - a.x) * p.tx + (b.y - a.y) * p.ty).toBeCloseTo(0.1, 5);
      }),
      { numRuns: 80 },
    );
  });

  test("a station goes round: the point at it has it as nearest station", () => {
    fc.assert(
      fc.property(anyOutline, part, fc.integer({ min: -2, max: 2 }), ({ chain }, u, laps) => {
        const p = pointAt(chain, (u + laps) * chain.length);
        const found = nearest(chain, p.x, p.y);
        expect(Math.abs(found.distance)).toBeLessThan(1e-9);
        const apart = Math.abs(found.station - u * chain.length);
        expect(Math.min(apart, chain.length - apart)).toBeLessThan(1e-8);
      }),
      { numRuns: 80 },
    );
  });

  test("the other way round, the length stays and the area and the distance change sign", () => {
    fc.assert(
      fc.property(anyOutline, part, part, ({ chain, extent }, u, v) => {
        const back = reverseChain(chain);
        expect(back.length).toBeCloseTo(chain.length, 8);
        expect(signedArea(back)).toBeCloseTo(-signedArea(chain), 4);
        const [x, y] = [u * extent.length, (v - 0.5) * extent.width];
        expect(nearest(back, x, y).distance).toBeCloseTo(-nearest(chain, x, y).distance, 8);
      }),
      { numRuns: 50 },
    );
  });

  test("the area agrees with the shoelace of many points, and does not care where the chain is", () => {
    fc.assert(
      fc.property(anyOutline, ({ chain }) => {
        const count = 4000;
        let twice = 0;
        for (let i = 0; i < count; i++) {
          const a = pointAt(chain, (i / count) * chain.length);
          const b = pointAt(chain, ((i + 1) / count) * chain.length);
          twice += a.x * b.y - b.x * a.y;
        }
        expect(Math.abs(twice / 2 / signedArea(chain) - 1)).toBeLessThan(1e-5);
        expect(signedArea(moveChain(chain, 7000, -3000))).toBeCloseTo(signedArea(chain), 4);
      }),
      { numRuns: 20 },
    );
  });

  test("the box holds every point, and touches on all four sides", () => {
    fc.assert(
      fc.property(anyOutline, ({ chain }) => {
        const box = chainBounds(chain);
        const points = Array.from({ length: 2000 }, (_, i) => pointAt(chain, (i / 2000) * chain.length));
        const xs = points.map((p) => p.x);
        const ys = points.map((p) => p.y);
        for (const [inside, bound] of [
          [Math.min(...xs), box.minX],
          [-Math.max(...xs), -box.maxX],
          [Math.min(...ys), box.minY],
          [-Math.max(...ys), -box.maxY],
        ]) {
          expect(inside).toBeGreaterThan(bound - 1e-9);
          expect(inside).toBeLessThan(bound + 10);
        }
      }),
      { numRuns: 30 },
    );
  });

  test("a stretch cut out of a closed chain has its length and its ends, across station 0 too", () => {
    fc.assert(
      fc.property(anyOutline, part, part, ({ chain }, u, v) => {
        const [from, to] = [u * chain.length, v * chain.length];
        const wanted = from < to ? to - from : to - from + chain.length;
        if (wanted < 1) return;
        const cut = cutChain(chain, from, to);
        expect(cut.length).toBeCloseTo(wanted, 4);
        for (const [station, s] of [
          [from, 0],
          [to, cut.length],
        ]) {
          const [p, q] = [pointAt(chain, station), pointAt(cut, s)];
          expect(Math.hypot(p.x - q.x, p.y - q.y)).toBeLessThan(1e-5);
        }
      }),
      { numRuns: 80 },
    );
    const open = makeChain([line(0, 0, 10, 0), line(10, 0, 10, 10)], false);
    expect(cutChain(open, 5, 12).segments).toMatchObject([
      { ax: 5, bx: 10 },
      { ay: 0, by: 2 },
    ]);
    expect(() => cutChain(open, 5, 21)).toThrow("no stretch from 5 to 21");
    expect(() => cutChain(open, 5, 4)).toThrow(RangeError);
  });
});

describe("arcs from points", () => {
  const coordinate = fc.double({ min: -5000, max: 5000, noNaN: true });
  const point = fc.tuple(coordinate, coordinate);

  test("through three points: all three are on it, in order", () => {
    fc.assert(
      fc.property(point, point, point, (a, b, c) => {
        const sides = [a, b, c].map((p, i) => Math.hypot(p[0] - [b, c, a][i][0], p[1] - [b, c, a][i][1]));
        const twice = Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
        // Within a hair of one line the radius is kilometres, and rounding counts for more than 1e-6 mm.
        if (Math.min(...sides) < 1 || twice < 1e4) return;
        const chain = makeChain([arcThroughPoints(a, b, c)], false);
        const stations = [a, b, c].map(([x, y]) => {
          const found = nearest(chain, x, y);
          expect(Math.abs(found.distance)).toBeLessThan(1e-6);
          return found.station;
        });
        expect(stations[0]).toBeLessThan(1e-6);
        expect(stations[1]).toBeGreaterThan(0);
        expect(stations[2]).toBeCloseTo(chain.length, 6);
      }),
      { numRuns: 80 },
    );
    expect(arcThroughPoints([0, 0], [1, 1], [3, 3])).toMatchObject({ kind: "line", bx: 3 });
    expect(() => arcThroughPoints([0, 0], [4, 4], [3, 3])).toThrow("No arc runs from (0,0)");
    expect(() => arcThroughPoints([0, 0], [0, 0], [3, 3])).toThrow(RangeError);
  });

  test("by bulge: tan of a quarter of the turn, 1 is a half circle to the left of travel's right", () => {
    const half = arcFromBulge([0, 0], [10, 0], 1);
    expect(half).toMatchObject({ kind: "arc", radius: 5, sweep: Math.PI });
    expect(segmentStart(half).ty).toBeCloseTo(-1, 12);
    const bulge = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(point, point, bulge, (a, b, value) => {
        if (Math.hypot(a[0] - b[0], a[1] - b[1]) < 1 || Math.abs(value) < 1e-4) return;
        const segment = arcFromBulge(a, b, value);
        const [start, end] = [segmentStart(segment), segmentEnd(segment)];
        expect(Math.hypot(start.x - a[0], start.y - a[1])).toBeLessThan(1e-6);
        expect(Math.hypot(end.x - b[0], end.y - b[1])).toBeLessThan(1e-6);
        expect(segment.kind === "arc" && Math.tan(segment.sweep / 4)).toBeCloseTo(value, 9);
      }),
      { numRuns: 80 },
    );
    const vertices = [
      { x: 0, y: 0, bulge: 0 },
      { x: 10, y: 0, bulge: 1 },
      { x: 10, y: 10, bulge: 0 },
      { x: 0, y: 10, bulge: 1 },
    ];
    expect(signedArea(chainFromBulges(vertices, true))).toBeCloseTo(100 + 25 * Math.PI, 9);
    expect(chainFromBulges(vertices, false).segments).toHaveLength(3);
  });
});

describe("polygons with rounded corners", () => {
  const square = (radius: number) =>
    [
      [0, 0],
      [100, 0],
      [100, 100],
      [0, 100],
    ].map(([x, y]) => ({ x, y, radius }));

  test("say which segment came from what; sides and corners that vanish are left out", () => {
    const rounded = filletPolygon(square(20));
    expect(rounded.ok && rounded.parts.map(({ of, index }) => `${of} ${index}`)).toEqual([
      ...["side 0", "corner 1", "side 1", "corner 2", "side 2", "corner 3", "side 3", "corner 0"],
    ]);
    const full = filletPolygon(square(50));
    expect(full.ok && full.chain.segments.map((segment) => segment.kind)).toEqual([
      "arc",
      "arc",
      "arc",
      "arc",
    ]);
    const sharp = filletPolygon(square(0));
    expect(sharp.ok && sharp.chain.length).toBe(400);
  });

  test("an open one keeps its ends: a floor's profile", () => {
    const profile = [
      { x: 0, y: -1000, radius: 0 },
      { x: 3000, y: -1100, radius: 500 },
      { x: 6000, y: -2000, radius: 500 },
      { x: 9000, y: -2000, radius: 0 },
    ];
    const rounded = filletPolygon(profile, false);
    if (!rounded.ok) throw new Error("misfit");
    expect(rounded.parts.map((one) => one.of)).toEqual(["side", "corner", "side", "corner", "side"]);
    expect(kinks(rounded.chain, 1e-12)).toEqual([]);
    expect(pointAt(rounded.chain, 0)).toMatchObject({ x: 0, y: -1000 });
    expect(pointAt(rounded.chain, 1e9)).toMatchObject({ x: 9000, y: -2000 });
  });

  test("misfits tell a radius for each that fits when all take it; nothing larger does", () => {
    const corner = fc.record({
      reach: fc.double({ min: 200, max: 1000, noNaN: true }),
      radius: fc.double({ min: 1, max: 800, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(corner, { minLength: 3, maxLength: 8 }), (rays) => {
        const corners = rays.map(({ reach, radius }, i) => {
          const angle = (2 * Math.PI * i) / rays.length;
          return { x: reach * Math.cos(angle), y: reach * Math.sin(angle), radius };
        });
        const rounded = filletPolygon(corners);
        if (rounded.ok) {
          expect(kinks(rounded.chain, 1e-7)).toEqual([]);
          return;
        }
        const scaled = (by: number) => {
          const radii = corners.map((one) => one.radius);
          for (const misfit of rounded.misfits) radii[misfit.corner] = misfit.largest * by;
          return filletPolygon(corners.map((one, i) => ({ ...one, radius: radii[i] })));
        };
        expect(scaled(1 - 1e-9).ok).toBe(true);
        expect(scaled(1.001).ok).toBe(false);
      }),
      { numRuns: 80 },
    );
  });

  test("refuse what no radius can help", () => {
    const [a, b, c] = square(10);
    expect(() => filletPolygon([a, b])).toThrow("more than 2 points");
    expect(() => filletPolygon([a, b, b, c])).toThrow("two different points");
    expect(() => filletPolygon([a, b, { x: 50, y: 0, radius: 1 }, c])).toThrow("doubles back at corner 2");
    expect(() => filletPolygon([a, b, { ...c, radius: -1 }])).toThrow("radius -1");
  });
});

describe("crossings", () => {
  test("are found between lines, line and arc, two arcs, and where parts run along each other", () => {
    const eight = makeChain(
      [line(0, 0, 10, 10), line(10, 10, 10, 0), line(10, 0, 0, 10), line(0, 10, 0, 0)],
      true,
    );
    expect(crossings(eight)).toMatchObject([{ first: 0, second: 2, x: 5, y: 5 }]);
    const lineAndArc = makeChain([arc(0, 0, 5, Math.PI, Math.PI), line(5, 0, -5, -2)], false);
    expect(crossings(lineAndArc)).toMatchObject([{ first: 0, second: 1 }]);
    const arcs = makeChain(
      [arc(0, 0, 5, 0, 6), arc(5 * Math.cos(6) + 3, 5 * Math.sin(6), 3, Math.PI, -3)],
      false,
    );
    expect(crossings(arcs)).toHaveLength(0);
    const looped = makeChain(
      [arc(0, 0, 5, 0, 6), arc(5 * Math.cos(6), 5 * Math.sin(6) + 3, 3, -Math.PI / 2, 6)],
      false,
    );
    expect(crossings(looped)).toMatchObject([{ first: 0, second: 1 }]);
    const back = makeChain(
      [line(0, 0, 10, 0), arc(10, 1, 1, -Math.PI / 2, Math.PI), line(10, 2, 10, 0), line(10, 0, 4, 0)],
      false,
    );
    expect(crossings(back).map(({ first, second }) => [first, second])).toContainEqual([0, 3]);
  });

  test("outlines that were built have none", () => {
    fc.assert(
      fc.property(anyOutline, ({ chain }) => {
        expect(crossings(chain)).toEqual([]);
      }),
      { numRuns: 50 },
    );
  });
});
