import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { claimOf } from "../../core/packing/claim.ts";
import { convexParts } from "../../core/packing/convex-parts.ts";
import { depthOf, noFit } from "../../core/packing/no-fit.ts";
import { boxOf, ringArea, tidyRing } from "../../core/packing/ring.ts";
import { turned, variantsOf } from "../../core/packing/variant.ts";
import { leastDistance } from "./distance.ts";
import { exactRing, overlap } from "./exact-overlap.ts";

/** A star-shaped outline with hollows, corners on whole numbers over 16. */
const outline = fc.array(fc.integer({ min: 30, max: 160 }), { minLength: 5, maxLength: 14 }).map((radii) =>
  tidyRing(
    radii.flatMap((radius, i) => {
      const angle = (2 * Math.PI * i) / radii.length;
      return [radius * Math.cos(angle), radius * Math.sin(angle)].map((at) => Math.round(16 * at) / 16);
    }),
  ),
);
const place = fc.tuple(fc.integer({ min: -300, max: 300 }), fc.integer({ min: -300, max: 300 }));
const cases = { seed: 7, numRuns: 200 };

describe("convex parts", () => {
  property.prop([outline], cases)("are convex and have the outline's area together", (ring) => {
    const parts = convexParts(ring) ?? [];
    expect(parts.reduce((sum, part) => sum + ringArea(part), 0)).toBeCloseTo(ringArea(ring), 6);
    for (const part of parts) {
      for (let i = 0; i < part.length; i += 2) {
        const at = (k: number) => [part[(i + k) % part.length], part[(i + k + 1) % part.length]];
        const [[ax, ay], [bx, by], [cx, cy]] = [at(0), at(2), at(4)];
        expect((bx - ax) * (cy - by) - (by - ay) * (cx - bx)).toBeGreaterThanOrEqual(-1e-9);
      }
    }
  });

  test("a convex outline is one part, an L two, a U three", () => {
    const count = (pairs: number[]) => convexParts(tidyRing(pairs))?.length;
    expect(count([0, 0, 4, 0, 5, 2, 4, 4, 0, 4])).toBe(1);
    expect(count([0, 0, 4, 0, 4, 1, 1, 1, 1, 4, 0, 4])).toBe(2);
    expect(count([0, 0, 4, 0, 4, 4, 3, 4, 3, 1, 1, 1, 1, 4, 0, 4])).toBe(3);
  });

  test("an outline that crosses itself, or is a line, has none", () => {
    expect(convexParts(tidyRing([0, 0, 9, 9, 9, 0, 0, 5]))).toBe(null);
    expect(convexParts(tidyRing([0, 0, 1, 0, 2, 0]))).toBe(null);
  });
});

describe("no-fit polygons", () => {
  property.prop([outline, outline, place], cases)(
    "there is depth exactly where outlines overlap",
    (a, b, [x, y]) => {
      const table = noFit(convexParts(a) ?? [], convexParts(b) ?? [], 0);
      const moved = b.map((at, i) => at + (i % 2 === 0 ? x : y));
      const depth = depthOf(table, x, y);
      // A depth within rounding of nought says nothing.
      if (depth === 0 || depth > 1e-6) expect(depth > 0).toBe(overlap(exactRing(a), exactRing(moved)));
    },
  );

  test("the depth of two squares is the least way out of them, and the clearance keeps them apart", () => {
    const square = tidyRing([0, 0, 10, 0, 10, 10, 0, 10]);
    const table = noFit([square], [square], 0);
    expect(depthOf(table, 3, 4)).toBe(6);
    expect(depthOf(table, 10, 0)).toBe(0);
    expect(depthOf(table, 9.75, 2)).toBe(0.25);
    expect(depthOf(noFit([square], [square], 0.5), 10, 0)).toBe(0.5);
  });
});

describe("claims", () => {
  property.prop([outline, fc.integer({ min: 0, max: 20 })], { seed: 7, numRuns: 100 })(
    "keep half the gap all round, and little more beside long edges",
    (ring, gap) => {
      const claim = claimOf(ring, gap);
      if (gap > 0) expect(leastDistance([ring, claim])).toBeGreaterThanOrEqual(gap / 2);
      const [own, grown] = [boxOf(ring), boxOf(claim)];
      // A mitred corner reaches twice the distance at the most.
      for (const side of ["left", "right", "low", "high"] as const)
        expect(Math.abs(grown[side] - own[side])).toBeLessThanOrEqual(2 * (gap / 2 + 0.6) + 1e-3);
    },
  );

  test("many corners become fewer, and none of the piece is left out", () => {
    const circle = tidyRing(
      Array.from({ length: 360 }, (_, i) => (i * Math.PI) / 180).flatMap((a) => [
        500 * Math.cos(a),
        500 * Math.sin(a),
      ]),
    );
    const claim = claimOf(circle, 4);
    expect(claim.length).toBeLessThan(circle.length / 3);
    expect(leastDistance([circle, claim])).toBeGreaterThanOrEqual(2);
    expect(boxOf(claim).right).toBeLessThan(503.6);
  });
});

test("turning keeps every figure: four quarter turns, or two turnings over, are none", () => {
  const ring = tidyRing([0, 0, 7, 1, 3.3, 5]);
  let round = turned(ring, { quarters: 1, mirrored: false });
  expect([...round]).toEqual([0, 0, -1, 7, -5, 3.3]);
  for (let i = 0; i < 3; i++) round = turned(round, { quarters: 1, mirrored: false });
  expect([...round]).toEqual([...ring]);
  const over = turned(ring, { quarters: 0, mirrored: true });
  expect(ringArea(over)).toBe(-ringArea(ring));
  expect([...turned(over, { quarters: 0, mirrored: true })]).toEqual([...ring]);
});

test("ways to lie that are the same count once", () => {
  const turns = ([0, 1, 2, 3] as const).flatMap((quarters) =>
    [false, true].map((mirrored) => ({ quarters, mirrored })),
  );
  const count = (pairs: number[]) => variantsOf(tidyRing(pairs), tidyRing(pairs), turns).length;
  expect(count([0, 0, 2, 0, 2, 2, 0, 2])).toBe(1);
  expect(count([0, 0, 3, 0, 3, 2, 0, 2])).toBe(2);
  expect(count([0, 0, 3, 0, 3, 1, 1, 1, 1, 2, 0, 2])).toBe(8);
});
