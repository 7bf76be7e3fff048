import { describe, expect, it } from "vitest";
import type { SurfacePlace, ZoneSpec } from "../../core/project/schema.ts";
import { basin, basinProject, groundOf, laid, openGround } from "./ground.ts";

type StrokeSpec = Extract<ZoneSpec, { kind: "stroke" }>;
const stroke = (path: readonly SurfacePlace[], width = 200): StrokeSpec => ({
  kind: "stroke",
  id: "strap",
  path: [...path],
  width,
  plies: 2,
  material: "woven-600",
});
const onWall = (run: string, part: number, downPart: number): SurfacePlace => ({
  wall: { run, part },
  downPart,
});
const t = 6;
const side = basin.length - 2 * basin.corner;

describe("a free band", () => {
  const lay = (spec: StrokeSpec) => laid(openGround(groundOf(basinProject())), spec);

  it("between two places of a wall is straight: length × width", () => {
    const zone = lay(stroke([onWall("right", 0.2, 0.5), onWall("right", 0.8, 0.5)]));
    expect(Math.abs(zone.lengthMm - 0.6 * side)).toBeLessThan(0.1);
    expect(Math.abs(zone.areaMm2 / (0.6 * side * 200) - 1)).toBeLessThan(2e-4);
    expect(zone.plyWidths).toEqual([
      [100, 100],
      [75, 75],
    ]);
    expect(zone.tape.map(({ what }) => what)).toEqual(["start", "middle", "end"]);
  });

  it("runs from the wall over the cove to the floor as one developable strip", () => {
    const floor: SurfacePlace = { face: "floor", alongPart: 0.5, acrossPart: 0.5 };
    const zone = lay(stroke([onWall("right", 0.5, 0.5), floor]));
    // Half of the way from the rim to the foot line; the other half, the rest of the cove, and the floor to the middle.
    const foot =
      ((basin.rim - t) * Math.PI) / 4 +
      basin.depth -
      basin.cove -
      basin.rim +
      ((basin.cove + t) * Math.PI) / 4;
    const exact = foot / 2 + ((basin.cove + t) * Math.PI) / 4 + basin.width / 2 - basin.cove;
    expect(Math.abs(zone.lengthMm - exact)).toBeLessThan(0.1);
    expect(Math.abs(zone.areaMm2 / (exact * 200) - 1)).toBeLessThan(2e-4);
    expect(zone.doubts).toEqual([]);
  });

  it("tells that it climbs over the rim on one side, and what stays below does", () => {
    const high = [onWall("right", 0.2, 0.1), onWall("right", 0.8, 0.1)];
    const over = lay(stroke(high, 600)).doubts.filter((doubt) => doubt.includes("over the rim"));
    expect(over).toHaveLength(1);
    const [, width] = /, over [\d ]+ mm of its length: a width of at most (\d+) mm there/.exec(over[0]) ?? [];
    expect(Number(width)).toBeGreaterThan(100);
    expect(lay(stroke(high, Number(width))).doubts).toEqual([]);
  });

  it("says where a place named on one face lies on another", () => {
    const zone = lay(
      stroke([
        { face: "floor", alongPart: 0, acrossPart: 0.5 },
        { face: "floor", alongPart: 0.5, acrossPart: 0.5 },
      ]),
    );
    expect(zone.lengthMm).toBeGreaterThan(1000);
  });
});
