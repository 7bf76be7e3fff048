import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inwardClearance } from "../../core/plan/clearance.ts";
import { cornerGrowth } from "../../core/plan/corner-growth.ts";
import { growCorners } from "../../core/plan/grow-corners.ts";
import { kinks } from "../../core/plan/make-chain.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { pointAt } from "../../core/plan/point-at.ts";
import { signedArea } from "../../core/plan/signed-area.ts";
import { anyOutline, built } from "./arbitrary-outlines.ts";

const radius = fc.double({ min: 100, max: 1500, noNaN: true });

describe("corners that grow all together", () => {
  test("leave a smooth outline inside the old one, nowhere tighter than the radius reached", () => {
    fc.assert(
      fc.property(anyOutline, radius, ({ chain }, asked) => {
        const grown = growCorners(chain, asked);
        expect(kinks(grown.chain, 2e-5)).toEqual([]);
        for (const segment of grown.chain.segments) {
          if (segment.kind === "arc" && segment.sweep > 0)
            expect(segment.radius).toBeGreaterThan(grown.radius * (1 - 1e-9));
        }
        const distances = Array.from({ length: 60 }, (_, i) => {
          const p = pointAt(grown.chain, (i / 60) * grown.chain.length);
          return nearest(chain, p.x, p.y).distance;
        });
        expect(Math.max(...distances)).toBeLessThan(1e-5);
        expect(signedArea(grown.chain)).toBeLessThan(signedArea(chain) + 1e-3);
        expect(grown.radius).toBe(Math.min(asked, grown.largest));
      }),
      { numRuns: 80 },
    );
  });

  test("take away just what a disc of that radius cannot reach", () => {
    fc.assert(
      fc.property(anyOutline, radius, (outline, asked) => {
        const { chain } = outline;
        const grown = growCorners(chain, asked);
        const r = grown.radius;
        // Where the outline is narrower than the disc there is more to be lost than corners.
        if (inwardClearance(outline, r * 1.001)) return;
        for (const segment of grown.chain.segments) {
          if (segment.kind !== "arc" || Math.abs(segment.radius - r) > 1e-6 || segment.sweep < 0) continue;
          expect(nearest(chain, segment.cx, segment.cy).distance).toBeLessThan(-r + 1e-4);
          // Halfway from the new corner out to the old one: no disc inside the outline covers it.
          const middle = segment.start + segment.sweep / 2;
          const [nx, ny] = [Math.cos(middle), Math.sin(middle)];
          const [x, y] = [segment.cx + r * nx, segment.cy + r * ny];
          const gap = -nearest(chain, x, y).distance;
          if (gap < 1) continue;
          const [px, py] = [x + (gap / 2) * nx, y + (gap / 2) * ny];
          let deepest = 0;
          for (let i = 0; i < 400; i++) {
            const reach = r * (1 - 1e-6) * Math.sqrt((i + 0.5) / 400);
            const angle = i * 2.399963;
            const disc = nearest(chain, px + reach * Math.cos(angle), py + reach * Math.sin(angle));
            deepest = Math.min(deepest, disc.distance);
          }
          expect(deepest).toBeGreaterThan(-r);
        }
      }),
      { numRuns: 30, endOnFailure: true },
    );
  });

  test("agree with each corner growing alone, until the first neighbour is used up", () => {
    fc.assert(
      fc.property(anyOutline, radius, ({ chain }, asked) => {
        const r = Math.min(asked, growCorners(chain, asked).firstMerge * 0.999);
        const grown = growCorners(chain, r);
        chain.segments.forEach((segment, i) => {
          const growth = cornerGrowth(chain, i);
          if (!growth || growth.radius >= grown.radius || segment.kind === "line") return;
          const corner = growth.at(grown.radius);
          const same = grown.chain.segments.some(
            (one) => one.kind === "arc" && Math.hypot(one.cx - corner.x, one.cy - corner.y) < 1e-6,
          );
          expect(same).toBe(true);
        });
      }),
      { numRuns: 50 },
    );
  });

  test("a triangle grows into its inscribed circle", () => {
    const points: [number, number][] = [
      [0, 0],
      [6000, 0],
      [3000, 5000],
    ];
    const { chain } = built({ kind: "polygon", points, cornerRadius: 100 });
    // Radius 2·area/perimeter of the sharp triangle.
    const inscribed = (6000 * 5000) / (6000 + 2 * Math.hypot(3000, 5000));
    const grown = growCorners(chain, 5000);
    expect(grown.largest).toBeCloseTo(inscribed, 6);
    expect(signedArea(grown.chain)).toBeCloseTo(Math.PI * inscribed ** 2, 0);
  });

  test("a bevelled corner: the two corners meet on the bevel and grow on as one", () => {
    const points: [number, number][] = [
      [0, 0],
      [8000, 0],
      [8000, 3700],
      [7700, 4000],
      [0, 4000],
    ];
    const { chain } = built({ kind: "polygon", points, cornerRadius: 60 });
    // The bevel, 300√2 long, is used up by two turns of 45°: 2 r tan 22.5°.
    const meet = (300 * Math.SQRT2) / (2 * Math.tan(Math.PI / 8));
    expect(growCorners(chain, 1000).firstMerge).toBeCloseTo(meet, 6);
    expect(growCorners(chain, meet - 1).chain.segments).toHaveLength(10);
    const grown = growCorners(chain, 1000);
    const square = built({ kind: "rectangle", length: 8000, width: 4000, cornerRadius: 1000 });
    expect(signedArea(grown.chain)).toBeCloseTo(signedArea(square.chain), 4);
    expect(grown.chain.length).toBeCloseTo(square.chain.length, 6);
  });

  test("a rectangle ends as a stadium, a stadium and a circle as they are", () => {
    const rectangle = built({ kind: "rectangle", length: 9000, width: 4000, cornerRadius: 150 });
    const grown = growCorners(rectangle.chain, 9999);
    expect(grown.largest).toBeCloseTo(2000, 6);
    const stadium = built({ kind: "stadium", length: 9000, width: 4000 });
    expect(signedArea(grown.chain)).toBeCloseTo(signedArea(stadium.chain), 2);
    expect(growCorners(stadium.chain, 9999)).toMatchObject({ largest: 2000, radius: 2000 });
    expect(growCorners(stadium.chain, 1999).largest).toBe(Infinity);
    const circle = built({ kind: "stadium", length: 4000, width: 4000 });
    expect(growCorners(circle.chain, 9999)).toMatchObject({ largest: 2000, radius: 2000 });
  });
});
