import { describe, expect, test } from "vitest";
import { buildOutline } from "../../core/plan/build-outline.ts";
import { kinks } from "../../core/plan/make-chain.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { pointAt } from "../../core/plan/point-at.ts";
import { signedArea } from "../../core/plan/signed-area.ts";

describe("a rectangle with rounded corners", () => {
  const built = buildOutline({ kind: "rectangle", length: 9100, width: 3800, cornerRadius: 150 });
  if (!built.ok) throw new Error("The rectangle was refused.");
  const { chain, runs, extent } = built.outline;

  test("has the area and length of its closed form", () => {
    expect(signedArea(chain)).toBeCloseTo(9100 * 3800 - (4 - Math.PI) * 150 ** 2, 6);
    expect(chain.length).toBeCloseTo(2 * (9100 + 3800) - (8 - 2 * Math.PI) * 150, 9);
    expect(extent).toEqual({ length: 9100, width: 3800 });
    expect(kinks(chain, 1e-12)).toEqual([]);
  });

  test("begins at the shallow end's centre line and runs along the right side first", () => {
    const start = pointAt(chain, 0);
    expect(start.x).toBeCloseTo(0, 9);
    expect(start).toMatchObject({ y: 0, tx: 0, ty: -1 });
    expect(runs.map((run) => run.id)).toEqual([
      "shallow",
      "shallow-right",
      "right",
      "deep-right",
      "deep",
      "deep-left",
      "left",
      "shallow-left",
    ]);
    expect(runs[0]).toMatchObject({ kind: "straight", length: 3500, from: chain.length - 1750 });
  });

  test("is negative inside", () => {
    expect(nearest(chain, 4000, 0).distance).toBeCloseTo(-1900, 9);
    const outside = nearest(chain, -20, 30);
    expect(outside.distance).toBeCloseTo(20, 9);
    expect(outside.nx).toBe(-1);
    expect(nearest(chain, 0, -1900).distance).toBeCloseTo(150 * Math.SQRT2 - 150, 9);
  });
});
