import { describe, expect, it } from "vitest";
import { signedArea } from "../../core/layup/flat-shape.ts";
import type { ShellSpec, ZoneSpec } from "../../core/project/schema.ts";
import { basin, basinProject, groundOf, laid, ledge, openGround } from "./ground.ts";

type PadSpec = Extract<ZoneSpec, { kind: "pad" }>;
const pad = (on: string, margin: number): PadSpec => ({
  kind: "pad",
  id: "pad",
  on,
  margin,
  material: "core-sheet",
});

const rounded = (length: number, width: number, radius: number) =>
  length * width - (4 - Math.PI) * radius ** 2;
const { length, width, corner, depth, cove } = basin;

describe("a flat pad", () => {
  it.each([0, 60, 200])(
    "on a level floor is the plan within the cove's tangent line, %d mm in, within 0.01 %",
    (margin) => {
      const zone = laid(openGround(groundOf(basinProject())), pad("floor", margin));
      const inside = cove + margin;
      const exact = rounded(length - 2 * inside, width - 2 * inside, corner - inside);
      expect(zone.shapes.length).toBe(1);
      expect(Math.abs(zone.areaMm2 / exact - 1)).toBeLessThan(1e-4);
      expect(zone.shapes[0].z).toBe(-depth - 6);
      expect(signedArea(zone.shapes[0].shape.points)).toBeCloseTo(zone.areaMm2, 6);
    },
  );

  it("keeps out of a fitting, cut in two so that no part has a hole", () => {
    const drain: ShellSpec["fittings"][number] = {
      id: "drain",
      kind: "suction",
      at: { floor: { alongPart: 0.5, acrossPart: 0.5 } },
      width: 300,
      height: 200,
      clearance: 50,
    };
    const whole = laid(openGround(groundOf(basinProject())), pad("floor", 60));
    const zone = laid(openGround(groundOf(basinProject({ fittings: [drain] }))), pad("floor", 60));
    expect(zone.shapes.length).toBe(2);
    expect(zone.areaMm2).toBeCloseTo(whole.areaMm2 - 400 * 300, 0);
    for (const { shape } of zone.shapes) expect(shape.areaMm2).toBeCloseTo(zone.areaMm2 / 2, 0);
  });

  it("under a ledge ends at its nose's and its walls' tangent lines", () => {
    const zone = laid(openGround(groundOf(basinProject({ features: [ledge] }))), pad("ledge/top", 60));
    // Up to the wall on three sides (the step radius), to the nose on the fourth; the two back corners are plan corners.
    const [step, nose, margin] = [50, 30, 60];
    const inside = step + margin;
    const exact =
      (1500 - nose - margin - inside) * (width - 2 * inside) - ((4 - Math.PI) / 2) * (corner - inside) ** 2;
    expect(Math.abs(zone.areaMm2 / exact - 1)).toBeLessThan(1e-4);
    expect(zone.shapes[0].z).toBe(-406);
  });
});
