import { expect, test } from "vitest";
import type { ShellSpec } from "../../core/project/schema.ts";
import { built } from "./built.ts";
import { randomShell } from "./random-shell.ts";
import { roughestTrack } from "./smoothness.ts";

const NOSE = 70;
const DEPTH = 450;
/** A bench along the middle of the right side, its ends asked with a smaller radius than the nose of its top. */
const shellWith = (width: number, endRadius: number, draftDeg: number): ShellSpec => ({
  outline: { kind: "rectangle", length: 7000, width: 3200, cornerRadius: 600 },
  floor: { stations: [{ at: 0, depth: 1300 }], breakRadius: 800, crossFall: 0 },
  draftDeg,
  radii: { cove: 150, step: 60, nose: NOSE, pairs: [] },
  features: [
    {
      kind: "bench",
      id: "bench",
      place: {
        kind: "along",
        from: { run: "right", part: 0.3 },
        to: { run: "right", part: 0.7 },
        endRadius,
      },
      depth: DEPTH,
      width,
    },
  ],
  coping: { flange: 150, rimRadius: 20, edge: { kind: "rolled", radius: 25 } },
  fittings: [],
  waterLine: 120,
});

test.each([0, 3, 6])(
  "an end tighter than its nose is rounded so that the nose goes round it, at a draft of %s°",
  (draftDeg) => {
    const { field, adjustments } = built(shellWith(500, 40, draftDeg));
    const end = adjustments.find((a) => a.id === "bench/end-radius");
    expect(end?.asked).toBe(40);
    // The centre of the nose's ball is n below the tread and n in from the riser, which leans out by n·tan δ on the way down.
    const delta = (draftDeg * Math.PI) / 180;
    const need = NOSE / Math.cos(delta) - NOSE * Math.tan(delta);
    expect(end?.used).toBeGreaterThan(need);
    expect(end?.used).toBeLessThan(need + 10);
    expect(adjustments.some((a) => a.id === "radius/bench/top|bench/riser")).toBe(false);
    // Where the ball along the foot asks for the nose from far out, its value is whole as well.
    const at = [2200, -1120, -DEPTH - 60];
    for (const offset of [0, -60]) {
      const rough = roughestTrack(field.within(at[0], at[1], at[2], 400, 300), 3, 60, at, 150, offset);
      expect(rough.seen).toBeGreaterThan(300);
      expect(rough.tear, JSON.stringify(rough)).toBe(0);
    }
  },
);

test("where an end finds no room for its nose, the nose is made smaller by name", () => {
  const spec = randomShell(654);
  const { adjustments } = built(spec);
  const end = adjustments.find((a) => a.id === "steps/tread-3/end-radius");
  const nose = adjustments.find((a) => a.id === "radius/steps/tread-3|steps/riser-3");
  expect(nose?.asked).toBe(spec.radii.nose);
  const delta = (spec.draftDeg * Math.PI) / 180;
  const need = (nose?.used ?? Infinity) * (1 / Math.cos(delta) - Math.tan(delta));
  expect(need).toBeLessThan(end?.used ?? 0);
  expect(need).toBeGreaterThan((end?.used ?? 0) - 10);
});
