import { describe, expect, it } from "vitest";
import type { ShellSpec, ZoneSpec } from "../../core/project/schema.ts";
import { basin, basinProject, laid, siteOf } from "./ground.ts";

type StiffenerSpec = Extract<ZoneSpec, { kind: "stiffener" }>;
const spec: StiffenerSpec = {
  kind: "stiffener",
  id: "bar",
  run: "right",
  margin: 100,
  material: "rib-strip",
};
const bevel = 20 / Math.tan((40 * Math.PI) / 180);

describe("a stiffener under the coping", () => {
  it("is as long as its straight run less the margins, in the middle of the flat", () => {
    const zone = laid(siteOf(basinProject()), spec);
    const length = basin.length - 2 * basin.corner - 200;
    expect(zone.lengthMm).toBeCloseTo(length, 9);
    expect(zone.cutLengthMm).toBeCloseTo(length + 2 * bevel, 9);
    expect(zone.areaMm2).toBeCloseTo(100 * length, 6);
    // The flat runs from the rim's radius to the edge of the flange; the right side lies at y = −width/2.
    const out = (basin.rim + basin.flange) / 2;
    const { points } = zone.curve;
    for (let i = 0; i < points.length; i += 3) {
      expect(points[i + 1]).toBeCloseTo(-basin.width / 2 - out, 6);
      expect(points[i + 2]).toBeCloseTo(-6, 6);
    }
    expect(points[0]).toBeCloseTo(basin.corner + 100, 6);
    expect(zone.tape.map(({ from }) => from)).toEqual(["shallow-right", "deep-right"]);
    const halfCorner = (Math.PI / 4) * basin.corner;
    expect(zone.tape[0].alongMm).toBeCloseTo(halfCorner + 100, 6);
    expect(zone.tape[1].alongMm).toBeCloseTo(-halfCorner - 100, 6);
    expect(zone.doubts).toEqual([]);
  });

  it("doubts a strip wider than the flat", () => {
    const edge: ShellSpec["coping"] = { flange: 110, rimRadius: 20, edge: { kind: "rolled", radius: 30 } };
    const zone = laid(siteOf(basinProject({ coping: edge })), spec);
    expect(zone.doubts.join()).toMatch(/100 mm wide and the flat under the coping 60 mm/);
  });
});
