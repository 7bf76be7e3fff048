/** Shapes that break shell modellers: each is right, or refused by name with a figure that then works. */
import { describe, expect, test } from "vitest";
import type { FeatureSpec, ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { basin, built, refusals } from "./built.ts";
import { faultsOf } from "./check-random.ts";
import { roughestSpot } from "./smoothness.ts";

const build = (change: Partial<ShellSpec>): Shell => built({ ...basin, ...change });
const refused = (change: Partial<ShellSpec>) => refusals({ ...basin, ...change });
/** Over 0.02 mm a 10 mm radius turns by 0.002; a kink of 1° by 0.017. */
const expectSmooth = (shell: Shell, box?: Parameters<typeof roughestSpot>[3], offset = 0) => {
  const spot = roughestSpot(shell.field, 7, 1200, box, offset);
  expect(spot.seen).toBeGreaterThan(300);
  expect(spot.turn, JSON.stringify(spot)).toBeLessThan(0.01);
  expect(spot.miss, JSON.stringify(spot)).toBeLessThan(0.03);
};
const ledge: FeatureSpec = {
  kind: "ledge",
  id: "ledge",
  place: { kind: "end", end: "shallow" },
  depth: 350,
  reach: 1500,
};
const bench: FeatureSpec = {
  kind: "bench",
  id: "bench",
  place: {
    kind: "along",
    from: { run: "right", part: 0.2 },
    to: { run: "right", part: 0.8 },
    endRadius: 150,
  },
  depth: 500,
  width: 450,
};

describe("tight plan corners", () => {
  const shell = build({
    outline: { ...basin.outline, cornerRadius: 100 } as ShellSpec["outline"],
    radii: { ...basin.radii, cove: 200 },
  });

  test("grow from the rim to their foot, by a named figure", () => {
    const grown = shell.adjustments.filter((a) => a.id.startsWith("corner/"));
    expect(grown.map((a) => a.id).sort()).toEqual([
      "corner/deep-left",
      "corner/deep-right",
      "corner/shallow-left",
      "corner/shallow-right",
    ]);
    for (const a of grown) {
      expect(a.asked).toBe(100);
      // Draft takes h·tan δ and the cove r/cos δ: 1200·tan 3° + 200/cos 3°.
      expect(a.used).toBeGreaterThan(1200 * Math.tan(Math.PI / 60) + 200 / Math.cos(Math.PI / 60));
      expect(a.used).toBeLessThan(290);
    }
  });
  test("keep the rim as drawn and stay smooth", () => {
    // On the corner's bisector, just below the rim radius: 100 mm from the corner's centre, closing in by draft only.
    const depth = 30;
    const r = 100 - depth * Math.tan(Math.PI / 60);
    const c = 100 - r * Math.SQRT1_2;
    expect(Math.abs(shell.field.evaluate(c, -1600 + c, -depth))).toBeLessThan(0.05);
    expectSmooth(shell, { min: [-50, -1650, -1230], max: [500, -1000, -40] });
    expectSmooth(shell, { min: [-50, -1650, -1230], max: [500, -1000, -40] }, 6);
  });
  test("with no depth to grow in are refused, and the figure named works", () => {
    const shallow = (cornerRadius: number) => ({
      outline: { ...basin.outline, cornerRadius } as ShellSpec["outline"],
      radii: { ...basin.radii, cove: 480 },
      floor: { ...basin.floor, stations: [{ at: 0, depth: 620 }] },
    });
    const [first] = refused(shallow(40));
    expect(first.path).toMatch(/^shell\.(outline|floor)/);
    expect(first.why).toMatch(/\d+ mm/);
    const figure = Number(/(\d+) mm/.exec(first.wouldWork)?.[1]);
    expect(buildShell({ ...basin, ...shallow(figure) }).ok).toBe(true);
  });
});

test("a ledge against three walls meets them with its own radius", () => {
  const shell = build({ features: [ledge] });
  // Ball of 60 in the corner of wall (draft 3°) and ledge top at 350: its centre, then the surface 60 away down at 45°.
  const delta = Math.PI / 60;
  const z = -350 + 60;
  const y = -1600 + (60 + -z * Math.sin(delta)) / Math.cos(delta);
  const n = [-Math.cos(delta) * 0 - 0, -Math.cos(delta), -Math.sin(delta)];
  const mid = [0, n[1], n[2] - 1];
  const l = Math.hypot(...mid);
  expect(Math.abs(shell.field.evaluate(800, y + (60 * mid[1]) / l, z + (60 * mid[2]) / l))).toBeLessThan(
    1e-6,
  );
  expectSmooth(shell);
  expectSmooth(shell, undefined, 6);
});

test("an end that barely reaches into another feature is carried on into it, its end round as asked", () => {
  // The right side's run begins at x = 400: the bench at 1490, 10 mm inside the ledge. 5 mm from either face the ground
  // between them would be a sheet thinner than the laminate.
  const along = { from: { run: "right", distance: 1090 }, to: { run: "right", part: 0.8 }, endRadius: 150 };
  const shell = build({
    draftDeg: 0,
    features: [ledge, { ...bench, place: { kind: "along", ...along } } as FeatureSpec],
  });
  expect(shell.adjustments.map((a) => a.id)).toEqual(["bench/start-carried-on"]);
  expect(shell.field.evaluate(1495, -1400, -800)).toBeGreaterThan(25);
  expectSmooth(shell);
});

test("a tread over a bench keeps both, with one radius where they meet", () => {
  const shell = build({
    features: [
      {
        kind: "steps",
        id: "steps",
        place: { kind: "end", end: "shallow" },
        treads: [
          { depth: 300, going: 600 },
          { depth: 700, going: 900 },
        ],
      },
      {
        ...bench,
        place: {
          kind: "along",
          from: { run: "right", part: 0 },
          to: { run: "right", part: 0.8 },
          endRadius: 150,
        },
      } as FeatureSpec,
    ],
  });
  const seen = new Set<string>();
  for (let x = 100; x < 3000; x += 50)
    for (let y = -1500; y < 0; y += 50) {
      let z = -20;
      while (shell.field.evaluate(x, y, z) < 0) z -= Math.max(1, -shell.field.evaluate(x, y, z));
      seen.add(shell.field.faces[shell.field.owner(shell.field.shares(x, y, z))]);
    }
  for (const face of ["steps/tread-1", "steps/tread-2", "bench/top", "floor"]) expect(seen).toContain(face);
  expectSmooth(shell, { min: [0, -1600, -1250], max: [2200, 0, -60] });
});

test("a bench dies into a rising floor without a tear", () => {
  const shell = build({
    floor: {
      stations: [
        { at: 0, depth: 900 },
        { at: 6000, depth: 1600 },
      ],
      breakRadius: 800,
      crossFall: 0,
    },
    features: [
      {
        ...bench,
        depth: 1150,
        place: {
          kind: "along",
          from: { run: "right", part: 0.05 },
          to: { run: "right", part: 0.95 },
          endRadius: 150,
        },
      } as FeatureSpec,
    ],
  });
  // The floor is 1150 deep at x = 2143: the bench shows beyond it and not before.
  const top = (x: number) => {
    let z = -700;
    while (shell.field.evaluate(x, -1600 + 300, z) < -1e-6) z += shell.field.evaluate(x, -1600 + 300, z);
    return shell.field.faces[shell.field.owner(shell.field.shares(x, -1600 + 300, z))];
  };
  expect(top(1500)).toBe("floor");
  expect(top(3500)).toBe("bench/top");
  expectSmooth(shell, { min: [1500, -1600, -1500], max: [3200, -900, -800] });
  expectSmooth(shell, { min: [1500, -1600, -1500], max: [3200, -900, -800] }, 6);
});

describe("a reflex corner", () => {
  const ell = (reflexRadius: number) => ({
    outline: {
      kind: "ell",
      length: 8000,
      width: 4500,
      cutLength: 3500,
      cutWidth: 1800,
      cutAt: "deep-left",
      cornerRadius: 300,
      reflexRadius,
    } as ShellSpec["outline"],
  });
  test("with a bench running through it is smooth", () => {
    const shell = build({
      ...ell(400),
      features: [{ ...bench, place: { kind: "round" } } as FeatureSpec],
    });
    expectSmooth(shell);
  });
  test("too tight for the coping is refused, and the radius named works", () => {
    const [first] = refused(ell(60));
    expect(first.path).toBe("shell.coping.flange");
    const radius = Number(/reflex radius of at least (\d+)/.exec(first.wouldWork)?.[1]);
    expect(radius).toBeGreaterThan(150);
    expect(buildShell({ ...basin, ...ell(radius) }).ok).toBe(true);
    // One of 60 mm would do, which is less than a flange can be.
    expect(first.wouldWork).not.toMatch(/flange/);
    const [wider] = refused(ell(150));
    const flange = Number(/flange of at most (\d+)/.exec(wider.wouldWork)?.[1]);
    expect(buildShell({ ...basin, ...ell(150), coping: { ...basin.coping, flange } }).ok).toBe(true);
  });
});

test("unequal radii for each pair of faces hold, each to its figure", () => {
  const shell = build({
    draftDeg: 0,
    features: [ledge],
    radii: {
      ...basin.radii,
      pairs: [
        { between: ["wall", "ledge/top"], radius: 90 },
        { between: ["ledge/riser", "wall"], radius: 120 },
        { between: ["floor", "ledge/riser"], radius: 80 },
        { between: ["ledge/top", "ledge/riser"], radius: 45 },
      ],
    },
  });
  const s = Math.SQRT1_2;
  const at = (x: number, y: number, z: number) => Math.abs(shell.field.evaluate(x, y, z));
  // Each fillet's middle lies r(1 − 1/√2) from both faces.
  const off = (r: number) => r * (1 - s);
  expect(at(700, -1600 + off(90), -350 + off(90))).toBeLessThan(1e-6);
  expect(at(1500 + off(120), -1600 + off(120), -700)).toBeLessThan(1e-6);
  expect(at(1500 + off(80), 0, -1200 + off(80))).toBeLessThan(1e-6);
  expect(at(1500 - off(45), 0, -350 - off(45))).toBeLessThan(1e-6);
  expect(at(3000, -1600 + off(150), -1200 + off(150))).toBeLessThan(1e-6);
  expectSmooth(shell);
});

test.each([
  [250, 20],
  [60, 35],
])(
  "a tread with %s mm to the wall and its riser with %s mm are whole, as the smallest radius of all",
  (tread, riser) => {
    const shell = build({
      features: [bench],
      radii: {
        ...basin.radii,
        pairs: [
          { between: ["wall", "bench/top"], radius: tread },
          { between: ["wall", "bench/riser"], radius: riser },
        ],
      },
    });
    expect(faultsOf(shell)).toEqual([]);
  },
);

test("a nose too large to go over two unequal radii to the wall is refused, and the nose named works", () => {
  const shell = (nose: number): Partial<ShellSpec> => ({
    features: [ledge],
    radii: {
      ...basin.radii,
      nose,
      pairs: [
        { between: ["wall", "ledge/top"], radius: 155 },
        { between: ["wall", "ledge/riser"], radius: 25 },
      ],
    },
  });
  const [first] = refused(shell(95));
  expect([first.path, first.value]).toEqual(["shell.radii.nose", 95]);
  const nose = Number(/nose of at most (\d+) mm/.exec(first.wouldWork)?.[1]);
  expect(faultsOf(build(shell(nose)))).toEqual([]);
});

test("a nose given for a pair is no larger than noses are, or refused by its pair, and the figure named works", () => {
  const shell = (radius: number): Partial<ShellSpec> => ({
    features: [ledge],
    radii: { ...basin.radii, pairs: [{ between: ["ledge/riser", "ledge/top"], radius }] },
  });
  const [first] = refused(shell(215));
  expect([first.path, first.value]).toEqual(["shell.radii.pairs[0].radius", 215]);
  const nose = Number(/at most (\d+) mm/.exec(first.wouldWork)?.[1]);
  expect(faultsOf(build(shell(nose)))).toEqual([]);
});

test("a wide bench fills the tight corner that it goes round", () => {
  const shell = build({
    outline: { ...basin.outline, cornerRadius: 50 } as ShellSpec["outline"],
    features: [
      {
        ...bench,
        width: 900,
        place: {
          kind: "along",
          from: { run: "right", part: 0.4 },
          to: { run: "deep", part: 0.9 },
          endRadius: 100,
        },
      } as FeatureSpec,
    ],
  });
  // 5 mm inside the corner of the pool's plan and 50 mm below the bench there is ground, and water above it.
  const [x, y] = [6000 - 50 * (1 - Math.SQRT1_2) - 5, -1600 + 50 * (1 - Math.SQRT1_2) + 5];
  const away = 0.9 * 500 * Math.tan((3 * Math.PI) / 180);
  expect(shell.field.evaluate(x - away, y + away, -550)).toBeGreaterThan(40);
  expect(faultsOf(shell)).toEqual([]);
});

test("the valleys of a hopper are rounder than every ball that rolls along them, by a named figure", () => {
  const shell = build({
    floor: { ...basin.floor, breakRadius: 100, hopper: { depthAtWall: 1000, slopeDeg: 30 } },
    radii: { ...basin.radii, cove: 60, step: 100 },
    features: [bench],
  });
  const raised = shell.adjustments.find(({ id }) => id === "floor/break-radius");
  expect(raised?.why).toContain("foot of bench/riser");
  // The valley itself is 1.25 times less round than the breaks, and 5 % rounder than the ball.
  expect(raised?.used).toBeCloseTo(100 * 1.05 * 1.25, 9);
  expect(faultsOf(shell)).toEqual([]);
});

describe("a bench that comes round to its own start", () => {
  const round = (to: number, more: Partial<FeatureSpec> = {}): Partial<ShellSpec> => {
    const place = { from: { run: "right", part: 0.5 }, to: { run: "right", part: to }, endRadius: 30 };
    return { features: [{ ...bench, ...more, place: { kind: "along", ...place } } as FeatureSpec] };
  };
  // The right side's run is 5200 mm long; a slot takes 2·60/cos 3° at the foot, 2·700·tan 3° of draft and 60 mm.
  test.each([0.49, 0.48, 0.46])("is carried on all round, by name, where it ends at %s of it", (to) => {
    const shell = build(round(to));
    const [joined] = shell.adjustments;
    expect(joined.id).toBe("bench/ends-joined");
    expect(joined.asked).toBeCloseTo((0.5 - to) * 5200, 6);
    expect(shell.field.evaluate(2950, -1400, -600)).toBeGreaterThan(0);
  });
  test("keeps a gap that is wide enough for the balls, and is whole beside it", () => {
    const shell = build(round(0.45));
    expect(shell.adjustments.map((a) => a.id)).not.toContain("bench/ends-joined");
    expect(shell.field.evaluate(2870, -1400, -600)).toBeLessThan(0);
    expectSmooth(shell, { min: [2500, -1600, -1250], max: [3300, -1000, -400] });
  });
  test("joins its ends in a way that is smooth", () => {
    expectSmooth(build(round(0.48)), { min: [2500, -1600, -1250], max: [3300, -1000, -400] });
  });
});

test("a tread that its radius and its nose take up is refused, and both figures named work", () => {
  const seat = (reach: number, step: number): Partial<ShellSpec> => ({
    features: [
      { kind: "seat", id: "seat", place: { kind: "end", end: "deep" }, depth: 550, reach },
    ] as FeatureSpec[],
    radii: { ...basin.radii, step },
  });
  const [first] = refused(seat(260, 290));
  expect([first.path, first.value]).toEqual(["shell.features[0].reach", 260]);
  const [reach, step] = [...first.wouldWork.matchAll(/(\d+) mm/g)].map((found) => Number(found[1]));
  expect([reach, step]).toEqual([290 + 30 + 10, 260 - 30 - 10]);
  expectSmooth(build(seat(reach, 290)), { min: [5400, -1600, -1250], max: [6000, 1600, -200] });
  expectSmooth(build(seat(260, step)), { min: [5400, -1600, -1250], max: [6000, 1600, -200] });
});

describe("thin dams and slots", () => {
  test("a flange thinner than its two radii is refused, and the figure named works", () => {
    const coping = { flange: 80, rimRadius: 45, edge: { kind: "rolled", radius: 40 } } as const;
    const [first] = refused({ coping });
    expect(first.path).toBe("shell.coping.flange");
    const flange = Number(/(\d+) mm/.exec(first.wouldWork)?.[1]);
    expect(buildShell({ ...basin, coping: { ...coping, flange } }).ok).toBe(true);
  });
  test("a flange in which the ball under its edge meets the wall is refused, however small the rim's own radius", () => {
    const coping = { flange: 80, rimRadius: 5, edge: { kind: "rolled", radius: 52 } } as const;
    const [first] = refused({ coping, draftDeg: 0 });
    expect(first.path).toBe("shell.coping.flange");
    const flange = Number(/(\d+) mm/.exec(first.wouldWork)?.[1]);
    expect(flange).toBe(2 * 52 + 10);
    expectSmooth(build({ coping: { ...coping, flange }, draftDeg: 0 }), {
      min: [500, -1800, -80],
      max: [2000, -1590, 5],
    });
  });
  test("a peninsula thinner than two flanges is refused by the runs beside it", () => {
    const gap = 250;
    const outline: ShellSpec["outline"] = {
      kind: "polygon",
      points: [
        [0, 0],
        [7000, 0],
        [7000, 4000],
        [3600 + gap, 4000],
        [3600 + gap, 2200],
        [3600, 2200],
        [3600, 4000],
        [0, 4000],
      ],
      cornerRadius: [300, 300, 300, 300, 120, 120, 300, 300],
    };
    const [first] = refused({ outline });
    expect(first.path).toBe("shell.coping.flange");
    expect(first.why).toMatch(/corner-5|corner-6|side-4|side-5|side-6/);
    expect(first.wouldWork).toMatch(/\d+ mm/);
  });
  test("a slot between a bench and a ledge narrower than the ball is refused with its width", () => {
    const facing = (reach: number): FeatureSpec => ({
      kind: "bench",
      id: "facing",
      place: {
        kind: "along",
        from: { run: "left", part: 0.25 },
        to: { run: "left", part: 0.75 },
        endRadius: 150,
      },
      depth: 500,
      width: reach,
    });
    // 3200 wide: 450 on one side leaves 2750; a slot of 60 at the tread, less by draft at the floor.
    const [first] = refused({ features: [bench, facing(2690)].map((f) => ({ ...f })) as FeatureSpec[] });
    expect(first.path).toMatch(/^shell\.features\[[01]\]/);
    expect(first.why).toMatch(/slot|room/);
    expect(buildShell({ ...basin, features: [bench, facing(1500)] }).ok).toBe(true);
  });
});

test("a flange is measured against the radius that the rim really has", () => {
  const coping = { flange: 80, rimRadius: 20, edge: { kind: "rolled", radius: 25 } } as const;
  const rim = (radius: number) => ({
    draftDeg: 0,
    coping,
    radii: { ...basin.radii, pairs: [{ between: ["wall", "coping/top"] as [string, string], radius }] },
  });
  const [first] = refused(rim(60));
  expect(first.path).toBe("shell.coping.flange");
  expect(first.why).toContain("rim radius 60 mm");
  const flange = Number(/(\d+) mm/.exec(first.wouldWork)?.[1]);
  const wide = build({ ...rim(60), coping: { ...coping, flange } });
  // Middle of the rim's round, 60 mm about y = -1660, z = -60.
  const off = 60 * (1 - Math.SQRT1_2);
  expect(Math.abs(wide.field.evaluate(3000, -1600 - off, -off))).toBeLessThan(1e-6);
  expect(build(rim(45)).field).toBeDefined();
});

describe("a fitting on the wall", () => {
  const skimmer = (wall: ShellSpec["fittings"][number]["at"] & object) => ({
    fittings: [{ id: "skimmer", kind: "skimmer", at: wall, width: 200, height: 150, clearance: 60 } as const],
  });
  test("on a run that the outline does not have is refused, with the runs there are", () => {
    const [first] = refused(skimmer({ wall: { run: "side-9", part: 0.5 }, depth: 120 }));
    expect(first.path).toBe("shell.fittings[0].at.wall.run");
    expect(first.value).toBe("side-9");
    const run = /: ([\w-]+),/.exec(first.wouldWork)?.[1] ?? "";
    expect(build(skimmer({ wall: { run, part: 0.5 }, depth: 120 })).spec.fittings).toHaveLength(1);
  });
  test("past the end of its run is refused, with a distance that works", () => {
    const at = (distance: number) => skimmer({ wall: { run: "right", distance }, depth: 120 });
    const [first] = refused(at(5900));
    expect(first.path).toBe("shell.fittings[0].at.wall.distance");
    expect(first.wouldWork).toBe("at most 5200 mm");
    expect(build(at(5200)).spec.fittings).toHaveLength(1);
  });
});
