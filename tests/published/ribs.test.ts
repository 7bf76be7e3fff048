/**
 * Ribs down a wall and over the cove: lengths of sections of the whole kernel's lay-up surface against a straight piece, an
 * arc that turns 90° less the draft, and a straight piece. h mm further out (mid-core) the arc is h·turn longer.
 */
import { describe, expect, it } from "vitest";
import { pointAt } from "../../core/plan/point-at.ts";
import { resolveRimPlace } from "../../core/plan/rim-place.ts";
import { offsetField } from "../../core/surface/field.ts";
import { offsetLength, type Plane, type Section, section } from "../../core/surface/section.ts";
import { basinSpec, box, builtAsAsked, type KnownOutline, kidney, round } from "./basins.ts";
import { mmOff, printConvergence } from "./figures.ts";
import { arcLength, type SideFigures, type SideProfile, sideProfile } from "./side-profile.ts";

const figures: SideFigures = { depth: 1400, draftDeg: 3, cove: 200, rim: 20, flange: 150, lip: 25 };
const turn = Math.PI / 2 - (figures.draftDeg * Math.PI) / 180;
/** Half of a 20 mm strip. */
const midCore = 10;
/** The rib begins 100 mm below the rim and ends this far past the cove's tangent line on the floor, mm. */
const onto = 150;

interface Place {
  readonly name: string;
  readonly outline: KnownOutline;
  readonly run: string;
}
const [rectangle, bean] = [box(7000, 3500, 700), kidney(1500, 1200, 3500, 4500, 2500)];
const places: readonly Place[] = [
  { name: "a straight side", outline: rectangle, run: "right" },
  { name: "a plan corner", outline: rectangle, run: "deep-right" },
  { name: "a round pool", outline: round(2000), run: "segment-1" },
  { name: "the waist of a kidney", outline: bean, run: "segment-3" },
];

/** A rib in the upright plane square to the rim, at the middle of a run. */
function rib({ outline, run }: Place, offset: number, stepMm?: number): Section {
  const shell = builtAsAsked(basinSpec(outline, figures));
  const place = resolveRimPlace(shell.outline, { run, part: 0.5 });
  if (!("station" in place)) throw new Error(place.error);
  const { x, y, tx, ty } = pointAt(shell.outline.chain, place.station);
  const plane: Plane = { origin: [x, y, 0], u: [ty, -tx, 0], v: [0, 0, 1] };
  const end = sideProfile(figures).floorEdge - onto;
  const found = section(offsetField(shell.field, offset), plane, [x, y, -100], {
    direction: [0, 0, -1],
    stop: (px, py) => end - ((px - x) * ty - (py - y) * tx),
    ...(stepMm ? { stepMm } : {}),
  });
  if (found?.ended !== "stop") throw new Error(`the rib ended as ${found?.ended}`);
  return found;
}

/** Its exact length, from the depth at which it begins. */
function lengthFrom(z: number, side: SideProfile): number {
  const [, wall] = side.pieces;
  if (wall.kind !== "line") throw new Error("the wall follows the cove");
  return (z - wall.z0) / Math.cos(Math.PI / 2 - turn) + arcLength(side.cove) + onto;
}

describe("a rib over an arc, within 0.1 mm", () => {
  it.each(places)("on $name: on the gel coat, on the laminate laid, and at mid-core", (place) => {
    for (const offset of [0, 6]) {
      const found = rib(place, offset);
      const exact = lengthFrom(found.points[2], sideProfile({ ...figures, offset }));
      const off = mmOff(`rib on ${place.name}, ${offset} mm out`, found.length, exact);
      expect(off).toBeLessThan(0.1);
      const core = offsetLength(found, midCore);
      const coreOff = mmOff(`  its core ${midCore} mm further out`, core, exact + midCore * turn);
      expect(coreOff).toBeLessThan(0.1);
    }
  });

  it("is as exact at any greatest step: steps are halved where the curvature jumps", () => {
    const steps = [80, 40, 20, 10];
    const errors = steps.map((step) => {
      const found = rib(places[0], 0, step);
      return Math.abs(found.length - lengthFrom(found.points[2], sideProfile(figures)));
    });
    printConvergence("rib on a straight side", steps, errors, "mm");
    for (const error of errors) expect(error).toBeLessThan(3e-3);
  });
});
