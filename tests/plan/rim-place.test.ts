import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { resolveRimPlace, runAt } from "../../core/plan/rim-place.ts";
import { anyOutline, built } from "./arbitrary-outlines.ts";

const part = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });

describe("places along the rim", () => {
  test("go from station to run and part, and back", () => {
    fc.assert(
      fc.property(anyOutline, part, fc.integer({ min: -1, max: 1 }), (outline, u, laps) => {
        const station = u * outline.chain.length;
        const { run, part: along, distance } = runAt(outline, station + laps * outline.chain.length);
        expect(along).toBeGreaterThanOrEqual(0);
        expect(along).toBeLessThanOrEqual(1);
        expect(distance).toBeLessThanOrEqual(run.length);
        for (const place of [
          { run: run.id, part: along },
          { run: run.id, distance },
        ]) {
          const resolved = resolveRimPlace(outline, place);
          if ("error" in resolved) throw new Error(resolved.error);
          const apart = Math.abs(resolved.station - station);
          expect(Math.min(apart, outline.chain.length - apart)).toBeLessThan(1e-7);
        }
      }),
      { numRuns: 80 },
    );
  });

  test("every run resolves at its start, middle and end, in order along the rim", () => {
    fc.assert(
      fc.property(anyOutline, (outline) => {
        const { chain, runs } = outline;
        runs.forEach((run, i) => {
          const [start, middle, end] = [0, 0.5, 1].map((p) => {
            const resolved = resolveRimPlace(outline, { run: run.id, part: p });
            if ("error" in resolved) throw new Error(resolved.error);
            expect(resolved.station).toBeGreaterThanOrEqual(0);
            expect(resolved.station).toBeLessThan(chain.length);
            return resolved.station;
          });
          expect(start).toBeCloseTo(run.from, 9);
          expect(runAt(outline, middle).run.id).toBe(run.id);
          const gap = Math.abs(end - runs[(i + 1) % runs.length].from);
          expect(Math.min(gap, chain.length - gap)).toBeLessThan(1e-7);
        });
      }),
      { numRuns: 50 },
    );
  });

  test("a place by part survives a new size; station 0 lies in the middle of the shallow side", () => {
    for (const length of [6000, 9000, 12000]) {
      const outline = built({ kind: "rectangle", length, width: 3800, cornerRadius: 150 });
      expect(resolveRimPlace(outline, { run: "right", part: 0.5 })).toEqual({
        station: expect.closeTo(1900 + length / 2 - 300 + (150 * Math.PI) / 2, 9),
      });
      expect(runAt(outline, 0)).toMatchObject({ run: { id: "shallow" }, part: expect.closeTo(0.5, 12) });
      expect(runAt(outline, 1750)).toMatchObject({
        run: { id: "shallow-right" },
        part: expect.closeTo(0, 9),
      });
    }
  });

  test("an unknown run and a distance past the end are told with what there is", () => {
    const outline = built({ kind: "stadium", length: 8000, width: 4000 });
    expect(resolveRimPlace(outline, { run: "side-1", part: 0.5 })).toEqual({
      error: "The outline has no run side-1; it has shallow, right, deep, left.",
    });
    expect(resolveRimPlace(outline, { run: "right", distance: 4000 })).toEqual({
      station: expect.closeTo(1000 * Math.PI + 4000, 9),
    });
    expect(resolveRimPlace(outline, { run: "right", distance: 4001 })).toEqual({
      error: "right is 4000 mm long, so there is no place 4001 mm from its start.",
    });
  });
});
