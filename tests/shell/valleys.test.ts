import { expect, test } from "vitest";
import type { FeatureSpec, ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { built, refusals } from "./built.ts";
import { randomShell } from "./random-shell.ts";
import { roughestTrack } from "./smoothness.ts";

const NOSE = 20;
/** Laminate under the reinforcement. */
const LAID = 6;
const STEP = 60;
const bench = (depth: number): FeatureSpec => ({
  kind: "bench",
  id: "bench",
  place: {
    kind: "along",
    from: { run: "right", part: 0 },
    to: { run: "right", part: 0.8 },
    endRadius: 150,
  },
  depth,
  width: 450,
});
/** A bench along the right side runs out from under a ledge across the shallow end: their risers meet square at (1500, -1150). */
const shellWith = (benchDepth: number): ShellSpec => ({
  outline: { kind: "rectangle", length: 6000, width: 3200, cornerRadius: 400 },
  floor: { stations: [{ at: 0, depth: 1200 }], breakRadius: 800, crossFall: 0 },
  draftDeg: 0,
  radii: { cove: 150, step: STEP, nose: NOSE, pairs: [] },
  features: [
    { kind: "ledge", id: "ledge", place: { kind: "end", end: "shallow" }, depth: 400, reach: 1500 },
    bench(benchDepth),
  ],
  coping: { flange: 150, rimRadius: 20, edge: { kind: "rolled", radius: 25 } },
  fittings: [],
  waterLine: 120,
});
const build = (spec: ShellSpec) => built(spec, LAID);
const radiusUsed = (spec: ShellSpec) =>
  build(spec).adjustments.find((a) => a.id === "radius/ledge/riser|bench/riser");

test("level treads over a square valley: the radius is made what a ball over both noses can be, by name", () => {
  const spec = shellWith(400);
  const used = radiusUsed(spec);
  // The ball's centre leaves the valley on an ellipse whose sharpest radius is (n + r)·sin 45°; the ridge keeps 1 mm of it
  // under the laminate.
  const most = (NOSE * Math.SQRT1_2 - LAID - 1) / (1 - Math.SQRT1_2);
  expect(used?.asked).toBe(STEP);
  expect(used?.used).toBeLessThan(1.01 * most);
  expect(used?.used).toBeGreaterThan(most - 1);
  const at = [1500, -1150, -440];
  for (const offset of [0, LAID]) {
    const rough = roughestTrack(build(spec).field.within(1500, -1150, -440, 250, 250), 5, 60, at, 60, offset);
    expect(rough.seen).toBeGreaterThan(400);
    expect(rough.tear, JSON.stringify(rough)).toBe(0);
    expect(rough.kink, JSON.stringify(rough)).toBeLessThan(Math.PI / 180);
  }
});

test("a riser against a wall that closes in at 45°: the radius is made what a ball over the nose can be, by name", () => {
  // The ball's centre leaves the valley on the ellipse in which an upright plane cuts the nose's cylinder of n + r at 45°:
  // its sharpest radius is b²/a = (n + r)·sin 45°, at the foot.
  const spec: ShellSpec = {
    ...shellWith(400),
    outline: {
      kind: "polygon",
      points: [
        [0, -2500],
        [1500, -2500],
        [3500, -500],
        [7000, -500],
        [7000, 2500],
        [0, 2500],
      ],
      cornerRadius: 400,
    },
    features: [
      { kind: "ledge", id: "ledge", place: { kind: "end", end: "shallow" }, depth: 400, reach: 2500 },
    ],
  };
  const shell = build(spec);
  const used = shell.adjustments.find((a) => a.id === "radius/ledge/riser|wall");
  const most = (NOSE * Math.SQRT1_2 - LAID - 1) / (1 - Math.SQRT1_2);
  expect(used?.asked).toBe(STEP);
  expect(used?.used).toBeLessThan(1.01 * most);
  expect(used?.used).toBeGreaterThan(most - 1);
  const at = [2500, -1500, -440];
  const rough = roughestTrack(shell.field.within(2500, -1500, -440, 250, 250), 5, 60, at, 60);
  expect(rough.seen).toBeGreaterThan(500);
  expect(rough.tear, JSON.stringify(rough)).toBe(0);
  expect(rough.kink, JSON.stringify(rough)).toBeLessThan(Math.PI / 180);
});

test("treads a nose and a ball apart in depth keep the radius asked for", () => {
  // Over one nose alone the way out bends with n + r, more than r.
  expect(radiusUsed(shellWith(400 + NOSE + STEP + 20))).toBeUndefined();
  expect(radiusUsed(shellWith(400 - NOSE - STEP - 20))).toBeUndefined();
});

test("a valley that no ball leaves is refused, and the nose named works", () => {
  const spec = randomShell(717);
  const [{ why, wouldWork }] = refusals(spec);
  expect(why).toMatch(/steps\/riser-1 and ledge\/riser meet in a valley/);
  const nose = Number(/at least (\d+) mm/.exec(wouldWork)?.[1]);
  expect(buildShell({ ...spec, radii: { ...spec.radii, nose } }).ok).toBe(true);
  expect(buildShell({ ...spec, radii: { ...spec.radii, nose: nose - 1 } }).ok).toBe(false);
});
