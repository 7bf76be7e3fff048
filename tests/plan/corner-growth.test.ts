import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { carrierDistance, carrierOf } from "../../core/plan/carrier.ts";
import type { Chain } from "../../core/plan/chain.ts";
import { cornerGrowth } from "../../core/plan/corner-growth.ts";
import { kinks, makeChain } from "../../core/plan/make-chain.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { arc, line } from "../../core/plan/segments.ts";
import { anyOutline, built } from "./arbitrary-outlines.ts";

/** Every corner of a chain that can grow. */
function corners(chain: Chain) {
  return chain.segments.flatMap((_, i) => {
    const growth = cornerGrowth(chain, i);
    return growth && growth.largest > growth.radius * 1.001 ? [growth] : [];
  });
}

const part = fc.double({ min: 0, max: 0.999, noNaN: true });

describe("a plan corner that grows", () => {
  test("lies as deep inside both neighbours as its radius is long", () => {
    fc.assert(
      fc.property(anyOutline, part, ({ chain }, u) => {
        for (const growth of corners(chain)) {
          const r = growth.radius + u * (growth.largest - growth.radius);
          const { x, y } = growth.at(r);
          for (const neighbour of [growth.before[0], growth.after[0]]) {
            const depth = -carrierDistance(carrierOf(chain.segments[neighbour]), x, y);
            expect(Math.abs(depth - r)).toBeLessThan(1e-6);
          }
        }
      }),
      { numRuns: 50 },
    );
  });

  test("moves its centre at the rate it says, by central differences", () => {
    fc.assert(
      fc.property(anyOutline, part, ({ chain }, u) => {
        for (const growth of corners(chain)) {
          const r = growth.radius + u * (growth.largest - growth.radius);
          const step = 1e-3 * Math.min(1, r, growth.largest - r + 1e-6);
          const [low, high] = [
            growth.at(Math.max(r - step, growth.radius)),
            growth.at(Math.min(r + step, growth.largest)),
          ];
          const here = growth.at(r);
          const run = high.radius - low.radius;
          if (run < 1e-4) continue;
          const error = Math.hypot((high.x - low.x) / run - here.dx, (high.y - low.y) / run - here.dy);
          // Near the widest circle the centre runs away from the radius, and differences with it.
          expect(error).toBeLessThan(1e-4 * (1 + here.dx ** 2 + here.dy ** 2) ** 1.5);
        }
      }),
      { numRuns: 50 },
    );
  });

  test("leaves the one neighbour and joins the other without a kink, on the outline as it was", () => {
    fc.assert(
      fc.property(anyOutline, part, ({ chain }, u) => {
        for (const growth of corners(chain)) {
          const grown = growth.at(growth.radius + u * (growth.largest - growth.radius));
          for (const [nx, ny] of [grown.from, grown.to]) {
            const found = nearest(chain, grown.x + grown.radius * nx, grown.y + grown.radius * ny);
            expect(Math.abs(found.distance)).toBeLessThan(1e-6);
          }
          expect(grown.sweep).toBeGreaterThan(0);
          expect(grown.sweep).toBeLessThanOrEqual(Math.PI + 1e-6);
          expect(grown.takesBefore).toBeGreaterThan(-1e-6);
          expect(grown.takesBefore).toBeLessThan(growth.lengthBefore + 1e-6);
          expect(grown.takesAfter).toBeGreaterThan(-1e-6);
          expect(grown.takesAfter).toBeLessThan(growth.lengthAfter + 1e-6);
        }
      }),
      { numRuns: 50 },
    );
  });

  test("is itself at its own radius", () => {
    fc.assert(
      fc.property(anyOutline, ({ chain }) => {
        for (const growth of corners(chain)) {
          const same = growth.at(growth.radius);
          const near = growth.at(growth.radius * (1 + 1e-9));
          expect(Math.hypot(same.x - near.x, same.y - near.y)).toBeLessThan(1e-3);
          expect(Math.abs(same.takesBefore) + Math.abs(same.takesAfter)).toBeLessThan(1e-6);
        }
      }),
      { numRuns: 50 },
    );
  });

  test("in a square corner: the centre runs along the diagonal until a side is used up", () => {
    const { chain } = built({ kind: "rectangle", length: 9000, width: 4000, cornerRadius: 200 });
    const growth = cornerGrowth(chain, 1)!;
    expect(growth).toMatchObject({
      largest: 3800,
      stoppedBy: "before",
      lengthBefore: 3600,
      lengthAfter: 8600,
    });
    const grown = growth.at(1000);
    expect(grown.x).toBeCloseTo(1000, 9);
    expect(grown.y).toBeCloseTo(-1000, 9);
    expect([grown.dx, grown.dy]).toEqual([1, 1]);
    expect(grown.takesBefore).toBeCloseTo(800, 9);
    expect(grown.sweep).toBeCloseTo(Math.PI / 2, 12);
  });

  test("between an arc and its chord: the widest circle is half the sagitta", () => {
    // A half disc of radius 1000 with corners of radius 100: the circle of radius 100 inside both touches the chord at
    // x = √((1000 − 100)² − 100²).
    const x = Math.sqrt(900 ** 2 - 100 ** 2);
    const lift = Math.atan2(100, x);
    const chain = makeChain(
      [
        line(-x, 0, x, 0),
        arc(x, 100, 100, -Math.PI / 2, Math.PI / 2 + lift),
        arc(0, 0, 1000, lift, Math.PI - 2 * lift),
        arc(-x, 100, 100, Math.PI - lift, Math.PI / 2 + lift),
      ],
      true,
    );
    expect(kinks(chain, 1e-12)).toEqual([]);
    const growth = cornerGrowth(chain, 1)!;
    // Growing alone, it spans from chord to arc at half the radius, before it reaches either far end.
    expect(growth).toMatchObject({ stoppedBy: "span", largest: 500 });
    expect(growth.at(499.9999).x).toBeLessThan(1);
    expect(() => growth.at(501)).toThrow("No arc of radius 501 mm");
  });

  test("between two arcs, in a lens", () => {
    // Two circles of radius 1000 whose centres are 1000 apart, corners of radius 50 between them.
    const y = Math.sqrt(950 ** 2 - 500 ** 2);
    const lean = Math.atan2(y, 500);
    const chain = makeChain(
      [
        arc(-500, 0, 1000, -lean, 2 * lean),
        arc(0, y, 50, lean, Math.PI - 2 * lean),
        arc(500, 0, 1000, Math.PI - lean, 2 * lean),
        arc(0, -y, 50, Math.PI + lean, Math.PI - 2 * lean),
      ],
      true,
    );
    expect(kinks(chain, 1e-12)).toEqual([]);
    const growth = cornerGrowth(chain, 1)!;
    expect(growth).toMatchObject({ stoppedBy: "span", largest: 500 });
    const grown = growth.at(300);
    expect(grown.x).toBeCloseTo(0, 9);
    expect(grown.y).toBeCloseTo(Math.sqrt(700 ** 2 - 500 ** 2), 9);
    expect(grown.dy).toBeCloseTo(-700 / grown.y, 9);
  });

  test("between a line and an arc that turns outwards", () => {
    // The ground above y = 0 and outside a circle of radius 500 about the origin: a corner at x > 500.
    const x = Math.sqrt(600 ** 2 - 100 ** 2);
    const chain = makeChain(
      [
        arc(0, 0, 500, 2, Math.atan2(100, x) - 2),
        arc(x, 100, 100, Math.atan2(100, x) + Math.PI, 1.5 * Math.PI - Math.atan2(100, x) - Math.PI),
        line(x, 0, 5000, 0),
      ],
      false,
    );
    expect(cornerGrowth(chain, 1)).toBeNull();
    const closed = makeChain(
      [
        ...chain.segments,
        line(5000, 0, chain.segments[0].kind === "arc" ? 500 * Math.cos(2) : 0, 500 * Math.sin(2)),
      ],
      true,
    );
    const growth = cornerGrowth(closed, 1)!;
    expect(growth.at(400).x).toBeCloseTo(Math.sqrt(900 ** 2 - 400 ** 2), 9);
    expect(growth.stoppedBy).toBe("after");
  });

  test("does not grow where there is nothing to grow into: a half circle's end, a whole circle, an outward bend", () => {
    const stadium = built({ kind: "stadium", length: 8000, width: 4000 });
    expect(cornerGrowth(stadium.chain, 0)).toMatchObject({ radius: 2000, largest: 2000, stoppedBy: "span" });
    expect(cornerGrowth(built({ kind: "stadium", length: 4000, width: 4000 }).chain, 0)).toBeNull();
    const ell = built({
      kind: "ell",
      ...{ length: 11000, width: 5500, cutLength: 5000, cutWidth: 2000 },
      ...{ cutAt: "deep-right", cornerRadius: 400, reflexRadius: 300 },
    });
    const reflex = ell.chain.segments.findIndex((segment) => segment.kind === "arc" && segment.sweep < 0);
    expect(cornerGrowth(ell.chain, reflex)).toBeNull();
    expect(cornerGrowth(ell.chain, 0)).toBeNull();
  });
});
