import { fc, test as property } from "@fast-check/vitest";
import { FillRule, intersectD } from "clipper2-ts";
import { describe, expect, test } from "vitest";
import { type ExactRing, exact, exactRing, firstOverlap, overlap, within } from "./exact-overlap.ts";
import { decimal, readRecord } from "./record-layout.ts";
import { dataFolder, irregular, readData, whyNoData } from "./shared-data.ts";

const square = (x: number, y: number, size = 1) =>
  exactRing([x, y, x + size, y, x + size, y + size, x, y + size]);
/** A square of 3 with a slot of 1 × 2 from above. */
const slotted = exactRing([0, 0, 3, 0, 3, 3, 2, 3, 2, 1, 1, 1, 1, 3, 0, 3]);

test("touching is no overlap: along edges, at corners, in a slot of the same width", () => {
  expect(overlap(square(0, 0), square(1, 0))).toBe(false);
  expect(overlap(square(0, 0), square(1, 0.5))).toBe(false);
  expect(overlap(square(0, 0), square(1, 1))).toBe(false);
  expect(overlap(slotted, square(1, 1))).toBe(false);
  expect(overlap(slotted, square(1, 2))).toBe(false);
  expect(overlap(exactRing([0, 0, 4, 0, 2, 3]), exactRing([0, 0, 4, 0, 2, -3]))).toBe(false);
});

test("a hair too far is an overlap", () => {
  const hair = 2 ** -40;
  expect(overlap(square(0, 0), square(1 - hair, 0))).toBe(true);
  expect(overlap(square(0, 0), square(1 - hair, 1 - hair))).toBe(true);
  expect(overlap(slotted, square(1 - hair, 1))).toBe(true);
  expect(overlap(slotted, square(1, 1 - hair))).toBe(true);
});

test("overlap without a proper crossing of edges: the same, inside, through corners, along the same edge", () => {
  expect(overlap(slotted, slotted)).toBe(true);
  expect(overlap(square(0, 0, 3), square(1, 1))).toBe(true);
  expect(overlap(square(1, 1), square(0, 0, 3))).toBe(true);
  expect(overlap(square(0, 0, 3), square(0, 0))).toBe(true);
  expect(overlap(square(0, 0, 2), exactRing([0, 0, 2, 2, 0, 2]))).toBe(true);
  // A lozenge whose corners lie on the middles of the sides.
  expect(overlap(square(0, 0, 2), exactRing([1, 0, 2, 1, 1, 2, 0, 1]))).toBe(true);
  // One bar across another, ends flush with it.
  expect(overlap(exactRing([0, 1, 3, 1, 3, 2, 0, 2]), exactRing([1, 1, 2, 1, 2, 2, 1, 2]))).toBe(true);
});

test("numbers are taken as they are", () => {
  expect(exact(0.1) === exact(0.1 + 2 ** -56)).toBe(false);
  expect(() => exact(2 ** -90)).toThrow("more than 80 binary places");
  expect(decimal("-0.5")).toBe(-5n * 10n ** 19n);
  expect(within(square(0, 0), exact(1), exact(1))).toBe(true);
  expect(within(square(0, 0), exact(1 - 2 ** -40), exact(1))).toBe(false);
});

const blob = fc
  .tuple(
    fc.array(fc.integer({ min: 2, max: 12 }), { minLength: 3, maxLength: 9 }),
    fc.integer({ min: -14, max: 14 }),
    fc.integer({ min: -14, max: 14 }),
  )
  .map(([radii, x, y]) =>
    radii.flatMap((radius, i) => {
      const angle = (2 * Math.PI * i) / radii.length;
      return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)].map(
        (at) => Math.round(at * 1024) / 1024,
      );
    }),
  );

property.prop([blob, blob], { seed: 4, numRuns: 300 })(
  "agrees with an area of overlap by clipping",
  (a, b) => {
    const path = (pairs: number[]) =>
      Array.from({ length: pairs.length / 2 }, (_, i) => ({ x: pairs[2 * i], y: pairs[2 * i + 1] }));
    const common = intersectD([path(a)], [path(b)], FillRule.NonZero, 6);
    const area = common.reduce((sum, { length, ...points }) => {
      const list = Array.from({ ...points, length }) as { x: number; y: number }[];
      return (
        sum +
        list.reduce(
          (twice, p, i) => twice + p.x * list[(i + 1) % length].y - p.y * list[(i + 1) % length].x,
          0,
        ) /
          2
      );
    }, 0);
    // The clipper rounds to 1e-6; areas below what that may make say nothing.
    if (Math.abs(area) > 1e-4) expect(overlap(exactRing(a), exactRing(b))).toBe(true);
    if (common.length === 0) expect(overlap(exactRing(a), exactRing(b))).toBe(false);
  },
);

describe.skipIf(dataFolder === null)(
  `published layouts${dataFolder ? "" : ` (skipped: ${whyNoData})`}`,
  () => {
    // Source: the records of Gardeyn, Vanden Berghe, Wauters, arXiv:2509.13329, in the shared data with their licence.
    test.each(irregular)(
      "%s: accepted, with the demand met, the outlines of the instance and the known length",
      (name) => {
        const layout = readRecord(readData(`records/final_best_${name}.svg`));
        const instance = JSON.parse(readData(`irregular/${name}.json`));
        const best = JSON.parse(readData("best_known.json")).instances.find(
          (each: { name: string }) => each.name === name,
        );
        expect(firstOverlap(layout.rings)).toBe(null);
        expect(layout.rings.every((ring) => within(ring, layout.length, layout.width))).toBe(true);
        expect(Number(layout.length) / 1e20).toBeCloseTo(best.best_length, 5);
        expect(Number(layout.width) / 1e20).toBeCloseTo(best.strip_height, 9);
        const counts = instance.items.map(
          (_: unknown, item: number) => layout.items.filter((i) => i === item).length,
        );
        expect(counts).toEqual(instance.items.map(({ demand }: { demand: number }) => demand));
        const area = layout.rings.reduce((sum, ring) => sum + areaOf(ring), 0);
        expect(area).toBeCloseTo(best.total_area, best.total_area > 1e6 ? 0 : 6);
      },
    );

    test("a published layout with one piece moved by a hundredth of a unit is refused", () => {
      const { rings } = readRecord(readData("records/final_best_shirts.svg"));
      const shift = 10n ** 18n;
      const refused = rings.filter((ring) => {
        const moved = ring.map(([x, y]) => [x + shift, y] as const);
        return rings.some((other) => other !== ring && overlap(moved, other));
      });
      expect(refused.length).toBeGreaterThan(rings.length / 2);
    });
  },
);

function areaOf(ring: ExactRing): number {
  const twice = ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length];
    return sum + x * nextY - y * nextX;
  }, 0n);
  return Number(twice) / 2e40;
}
