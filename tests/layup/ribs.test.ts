import { describe, expect, it } from "vitest";
import type { LaidRib } from "../../core/layup/laid.ts";
import type { Project, ShellSpec, ZoneSpec } from "../../core/project/schema.ts";
import { basin, basinProject, laid, ledge, siteOf } from "./ground.ts";

type RibSpec = Extract<ZoneSpec, { kind: "rib" }>;

const over: RibSpec = {
  kind: "rib",
  id: "rib",
  at: { run: "right", part: 0.5 },
  top: 60,
  foot: { kind: "over", onto: 150 },
  material: "rib-strip",
};
const strip = { width: 100, thickness: 20 };
const bevel = 20 / Math.tan((40 * Math.PI) / 180);

const withShop = (project: Project, laidThickness: number): Project => ({
  ...project,
  shop: { ...project.shop, laidThickness },
});

function only(project: Project, spec: RibSpec): LaidRib & { doubts: readonly string[] } {
  const zone = laid(siteOf(project), spec);
  return { ...zone.ribs[0], doubts: zone.doubts };
}

/** From the rim (the middle of its radius) down a plumb wall to the start of the cove. */
const wallLength = (t: number) => ((basin.rim - t) * Math.PI) / 4 + basin.depth - basin.cove - basin.rim;

describe("a rib over a quarter cove", () => {
  it.each([0, 3, 6, 12])(
    "%d mm out: wall, quarter circle of r + t, and its run onto the floor, within 0.1 mm",
    (t) => {
      const rib = only(withShop(basinProject(), t), over);
      const quarter = ((basin.cove + t) * Math.PI) / 2;
      const surface = wallLength(t) - 60 + quarter + 150;
      expect(Math.abs(rib.surfaceLengthMm - surface)).toBeLessThan(0.02);
      // Mid-core lies half a strip further out: half its thickness times the turn longer.
      const cut = surface + (strip.thickness / 2) * (Math.PI / 2) + 2 * bevel;
      expect(Math.abs(rib.cutLengthMm - cut)).toBeLessThan(0.02);
      expect(rib.topDownMm).toBe(60);
      expect(Math.abs(rib.footDownMm - surface - 60)).toBeLessThan(0.02);
      expect(Math.abs(rib.leastBendMm - (basin.cove + t))).toBeLessThan(0.5);
      expect(rib.curve.length).toBeCloseTo(rib.surfaceLengthMm, 6);
      expect(rib.doubts).toEqual([]);
    },
  );

  it.each([100, 200, 300])(
    "gains 9.42 mm over a quarter turn from 6 mm of laminate, on a cove of %d mm",
    (cove) => {
      const project = basinProject({ radii: { cove, step: 50, nose: 30, pairs: [] } });
      // From the cove's start on: whatever the wall above it does to the rim's radius is the same for both.
      const spec: RibSpec = { ...over, foot: { kind: "to", clear: 0 } };
      const arc = (t: number) =>
        only(withShop(project, t), { ...over, foot: { kind: "over", onto: 0 } }).footDownMm -
        only(withShop(project, t), spec).footDownMm;
      expect(Math.abs(arc(6) - arc(0) - (6 * Math.PI) / 2)).toBeLessThan(0.01);
      expect(Math.abs(arc(0) - (cove * Math.PI) / 2)).toBeLessThan(0.01);
    },
  );

  it.each([1, 3, 5])("turns by 90° less the draft on a wall of %d° of draft", (draftDeg) => {
    const draft = (draftDeg * Math.PI) / 180;
    const t = 6;
    const rib = only(basinProject({ draftDeg }), over);
    const turn = Math.PI / 2 - draft;
    // The coping's and the wall's backs meet at 90° − draft of turn, of which the rim's line is the middle. Tangent points on the
    // wall lie r(1 − sin δ)/cos δ along the slope from where its faces would meet, for the rim's ball and for the cove's.
    const rim = ((basin.rim - t) * turn) / 2;
    const wall = (basin.depth - (basin.cove + basin.rim) * (1 - Math.sin(draft))) / Math.cos(draft);
    const surface = rim + wall - 60 + (basin.cove + t) * turn + 150;
    expect(Math.abs(rib.surfaceLengthMm - surface)).toBeLessThan(0.05);
  });

  it("stops short of the cove by as much as is asked", () => {
    const rib = only(basinProject(), { ...over, foot: { kind: "to", clear: 40 } });
    expect(Math.abs(rib.footDownMm - (wallLength(6) - 40))).toBeLessThan(0.02);
    expect(Math.abs(rib.cutLengthMm - (wallLength(6) - 40 - 60 + 2 * bevel))).toBeLessThan(0.02);
    expect(rib.leastBendMm).toBe(Infinity);
  });

  it("runs down to a ledge where one lies below, and no further than its flat", () => {
    const at = (part: number, onto: number) =>
      only(basinProject({ features: [ledge] }), {
        ...over,
        at: { run: "shallow", part },
        foot: { kind: "over", onto },
      });
    const t = 6;
    const step = 50;
    const down = ((basin.rim - t) * Math.PI) / 4 + 400 - step - basin.rim;
    const rib = at(0.5, 150);
    expect(Math.abs(rib.surfaceLengthMm - (down - 60 + ((step + t) * Math.PI) / 2 + 150))).toBeLessThan(0.05);
    expect(Math.abs(rib.leastBendMm - (step + t))).toBeLessThan(0.5);
    expect(rib.doubts.join()).toMatch(/bent to 56 mm.*bends to 120 mm/);
    // The ledge is flat from its wall's tangent line to its nose's: 1500 − 50 − 30 mm; the bevel stays on it.
    const long = at(0.5, 1480);
    expect(Math.abs(long.footDownMm - rib.footDownMm - (1500 - step - 30 - bevel - 150))).toBeLessThan(0.05);
    expect(long.doubts.join()).toMatch(/onto ledge\/top instead of 1480 mm/);
  });

  it("doubts a top on the rim's radius and a strip across a plan corner", () => {
    expect(only(basinProject(), { ...over, top: 20 }).doubts.join()).toMatch(/rim's radius/);
    const corner = { ...over, at: { run: "deep-right", part: 0.5 } };
    expect(only(basinProject(), corner).doubts.join()).toMatch(
      /stands off the shell on the corner deep-right/,
    );
  });

  it("names the fitting on whose keep-out it lies", () => {
    const light: ShellSpec["fittings"][number] = {
      id: "light",
      kind: "light",
      at: { wall: { run: "right", part: 0.52 }, depth: 600 },
      width: 200,
      height: 200,
      clearance: 80,
    };
    const doubtsAt = (part: number) => {
      const spec = { ...over, at: { run: "right", part } };
      return only(basinProject({ fittings: [light] }), spec).doubts;
    };
    expect(doubtsAt(0.5).join()).toMatch(/light \(200 × 200 mm\)/);
    // The run is 3800 mm long: clear from 100 + 80 + 50 mm to each side on.
    expect(doubtsAt(0.52 + 229 / 3800).length).toBe(1);
    expect(doubtsAt(0.52 + 231 / 3800)).toEqual([]);
  });
});
