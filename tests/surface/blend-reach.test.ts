import { describe, expect, it } from "vitest";
import { blendReach } from "../../core/surface/blend-reach.ts";
import { contestBetween } from "../../core/surface/contest.ts";
import { offsetField } from "../../core/surface/field.ts";
import { traceContest } from "../../core/surface/trace.ts";
import { roundPool, stepPool } from "./pool-fields.ts";

const ring = (radius: number, z: number) =>
  Float64Array.from({ length: 3 * 60 }, (_, i) => {
    const a = (2 * Math.PI * Math.floor(i / 3)) / 60;
    return [radius * Math.cos(a), radius * Math.sin(a), z][i % 3];
  });

describe("how far a blend reaches", () => {
  it("is an eighth of a turn of the cove to each side, also on the surface moved out", () => {
    for (const [cove, t] of [
      [200, 0],
      [200, 8],
      [60, 0],
    ]) {
      const field = offsetField(roundPool(2000, 1400, cove), t);
      const contest = contestBetween(field, ["wall"], ["floor"]);
      const { curve } = traceContest(field, contest, ring(2000 - 0.3 * cove, -1400 + 0.3 * cove), {
        closed: true,
      });
      for (const side of [0, 1] as const)
        for (const station of [0, 1234, 9999])
          expect(
            Math.abs(blendReach(field, contest, curve, station, side)! - (Math.PI / 4) * (cove + t)),
          ).toBeLessThan(0.01);
    }
  });

  it("is half the turn between a drafted wall and the floor", () => {
    const draft = (5 * Math.PI) / 180;
    const field = roundPool(2000, 1400, 150, draft);
    const contest = contestBetween(field, ["wall"], ["floor"]);
    const foot = 2000 - 1400 * Math.tan(draft);
    const { curve } = traceContest(field, contest, ring(foot - 45, -1355), { closed: true });
    const exact = ((Math.PI / 2 - draft) / 2) * 150;
    for (const side of [0, 1] as const)
      expect(Math.abs(blendReach(field, contest, curve, 500, side)! - exact)).toBeLessThan(0.01);
  });

  it("works over a nose", () => {
    const field = stepPool(6000, 3000, 1300, 400, { cove: 150, step: 60, nose: 30 }, 900, 500);
    const contest = contestBetween(field, ["steps/tread-1"], ["steps/riser-1"]);
    const guess = Float64Array.from(
      { length: 3 * 40 },
      (_, i) => [890, -1000 + 50 * Math.floor(i / 3), -508][i % 3],
    );
    const { curve, exact } = traceContest(field, contest, guess, { closed: false });
    expect(exact).toBe(true);
    for (const side of [0, 1] as const)
      expect(Math.abs(blendReach(field, contest, curve, 800, side)! - (Math.PI / 4) * 30)).toBeLessThan(0.01);
  });

  it("is null where it is longer than any blend of a shell", () => {
    const field = roundPool(6000, 4000, 3000);
    const contest = contestBetween(field, ["wall"], ["floor"]);
    const { curve } = traceContest(field, contest, ring(5100, -3100), { closed: true });
    expect(blendReach(field, contest, curve, 0, 0)).toBeNull();
  });
});
