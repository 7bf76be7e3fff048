import { test as property } from "@fast-check/vitest";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layUp } from "../../core/layup/lay-up.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { buildOutline } from "../../core/plan/build-outline.ts";
import type { Project } from "../../core/project/schema.ts";
import { anotherSize, type ModelSize, sizeOfModel } from "../../core/shell/another-size.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { demoNames, demoProject } from "../project/demo-files.ts";

const whimbrel = demoProject("whimbrel-9");

function resized(project: Project, size: Partial<ModelSize>): Project {
  const now = sizeOfModel(project.shell)!;
  const made = anotherSize(project, { ...now, ...size }, "Another");
  if (!made.ok) throw new Error(made.problems.join("\n"));
  return made.project;
}

/** The lay-up on the shell that comes out. The mesh only tells which faces meet where, so a coarse one does. */
function laidOn(project: Project) {
  const built = buildShell(project.shell);
  if (!built.ok) throw new Error(built.refusals.map(({ why }) => why).join("\n"));
  const mesh = meshSurface(built.shell.field, { quality: "preview", edgeMm: 80, chordMm: 6 });
  return layUp(project, built.shell, { mesh });
}

describe("another size of a model", () => {
  test("Whimbrel 9 at 7.9 m: nothing is lost, every zone is laid or adrift with its reason and mend", () => {
    const smaller = resized(whimbrel, { length: 7900 });
    expect(smaller.shell.outline).toMatchObject({ length: 7900, width: 3800, cornerRadius: 150 });
    expect(smaller.layup.map(({ id }) => id)).toEqual(whimbrel.layup.map(({ id }) => id));
    const { zones, adrift } = laidOn(smaller);
    expect([...zones, ...adrift].map(({ id }) => id).sort()).toEqual(
      whimbrel.layup.map(({ id }) => id).sort(),
    );
    for (const { why, mend } of adrift) {
      expect(why.length).toBeGreaterThan(20);
      expect(mend.length).toBeGreaterThan(10);
    }
    // Its ledge, steps, seat and straight walls are all still there: so is all that lies on them.
    expect(zones.length).toBeGreaterThan(25);
  });

  test("a narrow Whimbrel with no room for its seat says which zones went adrift", () => {
    const narrow = resized(whimbrel, { width: 2400, length: 6000 });
    const { zones, adrift } = laidOn(narrow);
    expect(zones.length + adrift.length).toBe(whimbrel.layup.length);
  });

  test("the depth is the floor's own where it is deepest, past the last station too", () => {
    const turnstone = demoProject("turnstone-7");
    // Closed form: from 1150 at 1600 to 1650 at 6000, and on at that slope to the deep end of the rim.
    const { length, depth } = sizeOfModel(turnstone.shell)!;
    expect(depth).toBeCloseTo(1650 + (500 / 4400) * (length - 6000), 6);
    for (const wanted of [1500, 1800, 2000])
      expect(sizeOfModel(resized(turnstone, { depth: wanted }).shell)!.depth).toBeCloseTo(wanted, -0.5);
  });

  test("stations keep their part of the length; the shallow depth stays and the deep one becomes what was asked for", () => {
    const { stations } = resized(whimbrel, { length: 4550, depth: 1625 }).shell.floor;
    // Closed form: 1300 … 1950 becomes 1300 … 1625, half the fall: 1330 → 1315, 1900 → 1600.
    expect(stations).toEqual([
      { at: 0, depth: 1300 },
      { at: 1700, depth: 1315 },
      { at: 3400, depth: 1600 },
      { at: 4550, depth: 1625 },
    ]);
  });

  test("a depth above the shallow end's makes the floor level", () => {
    const { stations } = resized(whimbrel, { depth: 1250 }).shell.floor;
    expect(stations.map(({ depth }) => depth)).toEqual([1250, 1250, 1250, 1250]);
  });

  test("people do not change size: treads, ledges and benches keep theirs, zones their widths and pitches", () => {
    const smaller = resized(whimbrel, { length: 7900, width: 3400, depth: 1700 });
    expect(smaller.shell.features).toEqual(whimbrel.shell.features);
    expect(smaller.layup).toEqual(whimbrel.layup);
    expect(smaller.shell.radii).toEqual(whimbrel.shell.radii);
  });

  test("a place told by distance keeps its part of its run", () => {
    const light = whimbrel.shell.fittings.find(({ id }) => id === "light-1")!;
    const project: Project = {
      ...whimbrel,
      shell: {
        ...whimbrel.shell,
        fittings: [{ ...light, at: { wall: { run: "right", distance: 4400 }, depth: 600 } }],
      },
      layup: [
        {
          kind: "rib",
          id: "rib",
          at: { run: "right", distance: 8800 },
          top: 60,
          foot: { kind: "to", clear: 20 },
          material: "rib-strip",
        },
      ],
    };
    const smaller = resized(project, { length: 7900 });
    // The right side is as long as the pool less two corners of 150 mm: 8800 becomes 7600.
    expect(smaller.shell.fittings[0].at).toMatchObject({ wall: { run: "right", distance: 3800 } });
    expect(smaller.layup[0]).toMatchObject({ at: { run: "right", distance: 7600 } });
  });

  test("a size out of its limits is refused by its figure", () => {
    const made = anotherSize(whimbrel, { length: 21_000, width: 3800, depth: 1950 }, "Long");
    expect(made).toMatchObject({ ok: false });
    if (!made.ok) expect(made.problems.join(" ")).toMatch(/length.*21000|21000.*length/);
  });

  /** A bare pool along a path: a half circle of 1500 at the shallow end, two sides, corners of 400 at the deep end. */
  const onPath = (outline: Extract<Project["shell"]["outline"], { kind: "path" }>): Project => ({
    ...whimbrel,
    shell: {
      ...whimbrel.shell,
      outline,
      radii: { ...whimbrel.shell.radii, pairs: [] },
      features: [],
      fittings: [],
    },
    layup: [],
  });
  const quarter = Math.tan(Math.PI / 8);
  const path = onPath({
    kind: "path",
    start: [1500, 0],
    segments: [
      { kind: "line", to: [7600, 0] },
      { kind: "arc", to: [8000, 400], bulge: quarter },
      { kind: "line", to: [8000, 2600] },
      { kind: "arc", to: [7600, 3000], bulge: quarter },
      { kind: "line", to: [1500, 3000] },
      { kind: "arc", to: [1500, 0], bulge: 1 },
    ],
  });

  test("a path of lines and arcs comes out in the size asked for, with its corners' radii and no kink", () => {
    for (const size of [
      { length: 9000, width: 3000 },
      { length: 7000, width: 3600 },
      { length: 8000, width: 2500 },
    ]) {
      const made = resized(path, size);
      const built = buildOutline(made.shell.outline);
      if (!built.ok) throw new Error(built.refusals.map(({ why }) => why).join(" "));
      expect(Math.abs(built.outline.extent.length - size.length)).toBeLessThanOrEqual(1);
      expect(Math.abs(built.outline.extent.width - size.width)).toBeLessThanOrEqual(1);
      const radii = built.outline.chain.segments.flatMap((each) =>
        each.kind === "arc" ? [each.radius] : [],
      );
      expect(radii.filter((radius) => Math.abs(radius - 400) < 0.1)).toHaveLength(2);
      // Closed form: the sides stay parallel, so the round end is still a half circle.
      expect(radii.some((radius) => Math.abs(radius - size.width / 2) < 1)).toBe(true);
    }
  });

  test("a path that cannot have a size says so, with one that it can have", () => {
    const round = onPath({
      kind: "path",
      start: [0, 0],
      segments: [
        { kind: "arc", to: [4000, 0], bulge: 1 },
        { kind: "arc", to: [0, 0], bulge: 1 },
      ],
    });
    for (const [project, wanted] of [
      [round, { length: 5000, width: 4000 }],
      [path, { length: 8000, width: 600 }],
    ] as const) {
      const made = anotherSize(project, { depth: 1950, ...wanted }, "Another");
      if (made.ok) throw new Error("It was made.");
      const [sentence] = made.problems;
      const would = /(\d+) mm long and (\d+) mm wide would work\.$/.exec(sentence);
      if (!would) throw new Error(sentence);
      expect(sentence).toContain(`${wanted.length} mm long and ${wanted.width} mm wide`);
      resized(project, { length: Number(would[1]), width: Number(would[2]) });
    }
  });

  property.prop([
    fc.constantFrom(...demoNames),
    fc.integer({ min: 4500, max: 12_000 }),
    fc.integer({ min: 2500, max: 5000 }),
    fc.integer({ min: 1100, max: 2500 }),
  ])(
    "comes out in the size asked for, and back again in its own, whatever the outline",
    (name, length, width, depth) => {
      const project = demoProject(name);
      const now = sizeOfModel(project.shell)!;
      const made = anotherSize(project, { length, width, depth }, "Another");
      if (!made.ok) return;
      const size = sizeOfModel(made.project.shell);
      // An outline whose radii no longer fit is refused later, by name.
      if (!size) return;
      // Points come to whole millimetres; the arcs through a freeform's points bulge by a little more or less.
      const slack = made.project.shell.outline.kind === "freeform" ? 5 : 2;
      expect(Math.abs(size.length - length)).toBeLessThanOrEqual(slack);
      expect(Math.abs(size.width - width)).toBeLessThanOrEqual(slack);
      // A hopper's sides may meet above the depth asked for; then its stations have it.
      const { stations, hopper } = made.project.shell.floor;
      const station = Math.max(...stations.map((each) => each.depth));
      if (!hopper || size.depth > depth) expect(Math.abs(size.depth - depth)).toBeLessThanOrEqual(2);
      else if (depth - size.depth > 2) expect(station).toBe(depth);
      const back = anotherSize(made.project, now, project.name);
      if (!back.ok || project.shell.outline.kind === "freeform") return;
      expect(back.project.shell.outline).toMatchObject({ length: now.length, width: now.width });
      expect(back.project.layup.map(({ id }) => id)).toEqual(project.layup.map(({ id }) => id));
    },
  );
});
