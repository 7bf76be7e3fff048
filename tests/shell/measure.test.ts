import { describe, expect, test } from "vitest";
import { defaultProject } from "../../core/project/defaults.ts";
import type { ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { measureShell } from "../../core/shell/measure.ts";

const radius = 2000;
const depth = 1300;
const cove = 250;
const waterLine = 150;
const flange = 150;

/** A round, plumb, flat-floored pool: a body of revolution throughout. */
const roundPool: ShellSpec = {
  ...defaultProject().shell,
  outline: {
    kind: "path",
    start: [0, 0],
    segments: [
      { kind: "arc", to: [2 * radius, 0], bulge: 1 },
      { kind: "arc", to: [0, 0], bulge: 1 },
    ],
  },
  floor: { stations: [{ at: 0, depth }], breakRadius: 2000, crossFall: 0 },
  draftDeg: 0,
  radii: { cove, step: 50, nose: 30, pairs: [] },
  features: [],
  coping: { flange, rimRadius: 20, edge: { kind: "flat" } },
  waterLine,
};

function measured(spec: ShellSpec) {
  const built = buildShell(spec);
  if (!built.ok) throw new Error(built.refusals.map((refusal) => refusal.why).join("\n"));
  return measureShell(built.shell);
}

describe("a round pool, against Pappus and Guldin", () => {
  const measure = measured(roundPool);
  const off = (figure: number, exact: number) => Math.abs(figure / exact - 1);
  // What a cove takes from the square corner it fills: (1 − π/4) r², its centre (10 − 3π) r / (12 − 3π) from either side.
  const taken = (r: number) => (1 - Math.PI / 4) * r * r;
  const centre = (r: number) => ((10 - 3 * Math.PI) / (12 - 3 * Math.PI)) * r;
  const ring = 2 * Math.PI * (radius - centre(cove)) * taken(cove);

  test("water to the water line within 0.005 %", () => {
    const exact = Math.PI * radius ** 2 * (depth - waterLine) - ring;
    expect(off(measure.volumeToWaterMm3, exact)).toBeLessThan(5e-5);
  });

  test("water to the rim within 0.005 %: the rim's round adds its own ring", () => {
    const flare = 2 * Math.PI * (radius + centre(20)) * taken(20);
    const exact = Math.PI * radius ** 2 * depth - ring + flare;
    expect(off(measure.volumeToRimMm3, exact)).toBeLessThan(5e-5);
  });

  test("area within 0.01 %, the sum of its faces", () => {
    const quarter = (r: number, axis: number) => 2 * Math.PI * axis * (Math.PI / 2) * r;
    // The middle of a quarter round lies 2r/π from its centre.
    const coveArea = quarter(cove, radius - cove + (2 * cove) / Math.PI);
    const rimArea = quarter(20, radius + 20 - (2 * 20) / Math.PI);
    const floorArea = Math.PI * (radius - cove) ** 2;
    const wallArea = 2 * Math.PI * radius * (depth - cove - 20);
    const copingArea = Math.PI * ((radius + flange) ** 2 - (radius + 20) ** 2);
    expect(off(measure.areaMm2, floorArea + coveArea + wallArea + rimArea + copingArea)).toBeLessThan(1e-4);
    const sum = measure.faces.reduce((total, face) => total + face.areaMm2, 0);
    expect(off(sum, measure.areaMm2)).toBeLessThan(1e-12);
    // A blend belongs to either face half and half: of the cove, up to 45°.
    const lowerCove = 2 * Math.PI * cove * ((radius - cove) * (Math.PI / 4) + cove * (1 - Math.SQRT1_2));
    const floor = measure.faces.find(({ id }) => id === "floor");
    expect(off(floor!.areaMm2, floorArea + lowerCove)).toBeLessThan(1e-3);
  });

  test("lines: the rim, and the foot in the middle of the cove", () => {
    expect(measure.rimLengthMm).toBeCloseTo(2 * Math.PI * radius, 6);
    const foot = measure.transitions.find(({ id }) => id === "foot");
    expect(foot?.closed).toBe(true);
    expect(Math.abs(foot!.lengthMm - 2 * Math.PI * (radius - cove * (1 - Math.SQRT1_2)))).toBeLessThan(0.1);
  });

  test("nothing to look at, and no hole but the coping's outer edge", () => {
    expect(measure.doubts).toEqual([]);
    expect(measure.adjustments).toEqual([]);
    expect(measure.flaws).toEqual([]);
    expect(measure.mesh.holeEdges).toBe(0);
    expect(measure.mesh.openEdges).toBeGreaterThan(100);
  });
});
