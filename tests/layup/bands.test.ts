import { describe, expect, it } from "vitest";
import type { LaidBand } from "../../core/layup/laid.ts";
import { around } from "../../core/layup/rim-marks.ts";
import { nearest } from "../../core/plan/nearest.ts";
import type { ZoneSpec } from "../../core/project/schema.ts";
import { stripArea } from "../../core/surface/strip.ts";
import { basin, basinProject, groundOf, laid, ledge, openGround } from "./ground.ts";

type BandSpec = Extract<ZoneSpec, { kind: "band" }>;

const t = 6;
const half: [number, number] = [320, 360];
const { length, width, corner, cove } = basin;
/** The foot lies in the middle of the cove: in plan this far inside the rim, on an arc of this radius in the corners. */
const inside = cove - (cove + t) * Math.SQRT1_2;
const footRadius = corner - inside;
const straights = 2 * (length + width - 4 * corner);
const foot = straights + 2 * Math.PI * footRadius;

const band = (more: Partial<BandSpec> = {}): BandSpec => ({
  kind: "band",
  id: "foot",
  on: "foot",
  halfWidths: half,
  plies: 1,
  material: "woven-800",
  ...more,
});

const lay = (spec: BandSpec): LaidBand => laid(openGround(groundOf(basinProject())), spec);

/** Pappus (checks: torus band): a quarter turn of the band through a corner, wall and half the cove and half the cove and floor. */
function cornerArea([up, down]: readonly [number, number]): number {
  const a = cove + t;
  const centre = corner - cove;
  const arc = (a * Math.PI) / 4;
  const turn = Math.PI / 2;
  // Tube angles from the outer equator: the wall's tangent point at 0, the floor's at −90°.
  const tube = (from: number, to: number) =>
    turn * a * (centre * (to - from) + a * (Math.sin(to) - Math.sin(from)));
  const wall = turn * (corner + t) * (up - arc);
  const floor = (turn * (centre ** 2 - (centre - (down - arc)) ** 2)) / 2;
  return wall + tube(0, Math.PI / 4) + tube(Math.PI / 4, Math.PI / 2) + floor;
}

describe("a band on the foot of a basin", () => {
  it("is as long as four straights and a circle, within 0.1 mm", () => {
    expect(Math.abs(lay(band()).lengthMm - foot)).toBeLessThan(0.1);
  });

  it("covers exactly length × width on a straight stretch, within 0.02 %", () => {
    // Along the right side, 100 mm clear of its corners' ends.
    const from = width / 2 - corner + (Math.PI / 2) * footRadius + 100;
    const to = from + length - 2 * corner - 200;
    const zone = lay(band({ stretch: { from: from / foot, to: to / foot } }));
    expect(Math.abs(zone.lengthMm - (to - from))).toBeLessThan(0.1);
    expect(Math.abs(zone.areaMm2 / ((to - from) * (half[0] + half[1])) - 1)).toBeLessThan(2e-4);
  });

  it("covers what Pappus says in a plan corner, within 0.1 %", () => {
    const from = width / 2 - corner;
    const to = from + (Math.PI / 2) * footRadius;
    const zone = lay(band({ stretch: { from: from / foot, to: to / foot } }));
    expect(Math.abs(zone.areaMm2 / cornerArea(half) - 1)).toBeLessThan(1e-3);
  });

  it("covers straights and four corners all round, within 0.02 %, ply by ply", () => {
    const zone = lay(band({ plies: 3 }));
    const whole = (w: readonly [number, number]) => straights * (w[0] + w[1]) + 4 * cornerArea(w);
    expect(zone.plyWidths).toEqual([half, [295, 335], [270, 310]]);
    zone.plyWidths.forEach((widths, ply) => {
      expect(Math.abs(zone.plyAreasMm2[ply] / whole(widths) - 1)).toBeLessThan(2e-4);
    });
    expect(zone.areaMm2).toBeCloseTo(zone.plyAreasMm2[0], 3);
    expect(zone.doubts).toEqual([]);
  });

  it("tells that it climbs over the rim, and what stays below does", () => {
    const over = lay(band({ halfWidths: [2600, 100] }));
    const said = over.doubts.find((doubt) => doubt.includes("over the rim")) ?? "";
    const [, along, most] =
      /over ([\d.]+) mm of its length: a half width of at most (\d+) mm/.exec(said) ?? [];
    expect(Math.abs(Number(along) - foot)).toBeLessThan(2);
    expect(lay(band({ halfWidths: [Number(most), 100] })).doubts).toEqual([]);
    const little = lay(band({ halfWidths: [Number(most) + 60, 100] }));
    expect(little.doubts.join()).toContain("climbs over the rim on one side");
    // Along the rim itself a band is meant to lie on both sides of it.
    expect(lay(band({ on: "rim", halfWidths: [120, 60] })).doubts.join()).not.toContain("over the rim");
  });

  it("runs past the start of a closed line", () => {
    const across = lay(band({ stretch: { from: 0.9, to: 0.1 } }));
    expect(Math.abs(across.lengthMm - 0.2 * foot)).toBeLessThan(0.1);
    const { strip } = across;
    expect(strip.to - strip.from).toBeCloseTo(0.2 * across.curve.length, 6);
    expect(stripArea(strip, strip.from, strip.to, ...half)).toBeCloseTo(across.areaMm2, 3);
  });

  it.each([
    { from: 0.4, to: 0.4 },
    { from: 1, to: 0 },
  ])("goes all round a closed line from $from to $to, which are one place", (stretch) => {
    const round = lay(band({ stretch }));
    const whole = lay(band());
    expect(round.strip.closed).toBe(true);
    expect(round.strip.from).toBeCloseTo((stretch.from % 1) * round.curve.length, 6);
    expect(Math.abs(round.lengthMm - foot)).toBeLessThan(0.1);
    expect(Math.abs(round.areaMm2 / whole.areaMm2 - 1)).toBeLessThan(1e-4);
  });

  it("tells where it begins, and its line and its upper edge at every rim mark", () => {
    const ground = openGround(groundOf(basinProject()));
    const { tape: all, strip }: LaidBand = laid(ground, band());
    const [start, ...tape] = all;
    // Down to the middle of the cove: half the rim's radius, the plain wall, half the cove.
    const line =
      ((basin.rim - t) * Math.PI) / 4 + basin.depth - cove - basin.rim + ((cove + t) * Math.PI) / 4;
    const marks = [
      "shallow centre",
      "deep centre",
      "shallow-right",
      "deep-right",
      "deep-left",
      "shallow-left",
    ];
    expect(start.what).toBe("start");
    expect(Math.abs(start.downMm! - line)).toBeLessThan(0.05);
    // As far from its mark along the rim as the line's first point lies; from there the line runs counter-clockwise.
    const { chain } = ground.shell.outline;
    const [first, next] = [0, 3 * strip.left.columns * (strip.stations.length >> 3)].map((at) => {
      const [x, y] = strip.left.points.subarray(at);
      return nearest(chain, x, y).station;
    });
    const from = ground.marks.find(({ name }) => name === start.from)!.station;
    expect(Math.abs(around(first - from - start.alongMm!, chain.length))).toBeLessThan(1e-6);
    expect(around(next - first, chain.length)).toBeGreaterThan(1000);
    expect(tape.map(({ what, from }) => `${what} at ${from}`)).toEqual(
      marks.flatMap((mark) => [`upper edge at ${mark}`, `line at ${mark}`]),
    );
    for (const { what, alongMm, downMm } of tape) {
      expect(alongMm).toBe(0);
      expect(Math.abs(downMm! - (what === "line" ? line : line - half[0]))).toBeLessThan(0.05);
    }
  });
});

describe("a band on a step's transition", () => {
  it("lies along the foot of a ledge's riser, first half width on its first face", () => {
    const ground = groundOf(basinProject({ features: [ledge] }));
    const zone = laid(
      openGround(ground),
      band({ id: "rise", on: "floor|ledge/riser", halfWidths: [150, 200] }),
    );
    // Between the feet of the side walls' coves; the line itself runs up into them.
    expect(zone.lengthMm).toBeGreaterThan(width - 2 * cove);
    expect(zone.lengthMm).toBeLessThan(width + 200);
    const { strip } = zone;
    const middle = strip.stations.findIndex((station) => station > zone.lengthMm / 2);
    const edge = (side: "left" | "right") => {
      const { points, columns } = strip[side];
      return points.subarray(3 * (middle * columns + columns - 1), 3 * (middle + 1) * columns);
    };
    // Left, on the floor: at floor level; right, up the riser.
    expect(edge("left")[2]).toBeCloseTo(-basin.depth - t, 4);
    const up = 200 - ((50 + t) * Math.PI) / 4;
    expect(edge("right")[2]).toBeCloseTo(-basin.depth + 50 + up, 2);
  });
});
