/** Features that stand in a plan corner, against what a square and a quarter round measure. */
import { expect, test } from "vitest";
import type { ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { measureShell } from "../../core/shell/measure.ts";

const REACH = 800;
const FLOOR = 1400;
const SEAT = 500;

const pool = (corner: string, shape: "round" | "square"): ShellSpec => ({
  outline: { kind: "rectangle", length: 6000, width: 3000, cornerRadius: 100 },
  floor: { stations: [{ at: 0, depth: FLOOR }], breakRadius: 2000, crossFall: 0 },
  draftDeg: 0,
  radii: { cove: 60, step: 30, nose: 20, pairs: [] },
  features: [
    { kind: "seat", id: "seat", place: { kind: "corner", corner, shape }, depth: SEAT, reach: REACH },
  ],
  coping: { flange: 150, rimRadius: 20, edge: { kind: "flat" } },
  fittings: [],
  waterLine: 150,
});

const volume = (spec: ShellSpec): number => {
  const built = buildShell(spec);
  if (!built.ok) throw new Error(built.refusals[0].why);
  const measured = measureShell(built.shell, "preview");
  expect(measured.flaws).toEqual([]);
  return measured.volumeToRimMm3;
};

test.each(["shallow-right", "deep-right", "deep-left", "shallow-left"])(
  "a seat in the corner %s takes the water of a square or a quarter round",
  (corner) => {
    const plain = volume({ ...pool(corner, "square"), features: [] });
    const height = FLOOR - SEAT;
    const square = (plain - volume(pool(corner, "square"))) / height;
    const round = (plain - volume(pool(corner, "round"))) / height;
    // The square's inner corner is rounded by up to 250 mm; fillets and noses are worth about a hundredth.
    const rounding = (1 - Math.PI / 4) * 250 ** 2;
    expect(square).toBeGreaterThan(0.97 * (REACH ** 2 - rounding));
    expect(square).toBeLessThan(1.03 * REACH ** 2);
    expect(Math.abs(round / ((Math.PI / 4) * REACH ** 2) - 1)).toBeLessThan(0.04);
  },
);
