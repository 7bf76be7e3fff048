/** What refusals say would work does: it is put into the shell that was refused. */
import { describe, expect, test } from "vitest";
import type { FeatureSpec, ShellSpec } from "../../core/project/schema.ts";
import { shell as schema } from "../../core/project/shell-schema.ts";
import { demoProject } from "../project/demo-files.ts";
import { basin, refusals } from "./built.ts";
import { extremeShell } from "./extreme-shell.ts";
import { backAndForth, figuresAtTheirEnds, wrongOffers } from "./offered-figures.ts";
import { randomShell } from "./random-shell.ts";

const seeds = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** Every refused random shell of seeds 1-1000, when this was written. */
const REFUSED = [38, 64, 70, 72, 134, 443, 448, 498, 516, 524, 528, 617, 638, 680, 717, 918, 965, 987];

test.each([
  ["random shells that are refused", REFUSED.map(randomShell)],
  ["extreme shells", seeds(1, 60).map(extremeShell)],
  ["extreme shells", [382, 10208, 10281, 10356, 10491].map(extremeShell)],
  ["each figure of Whimbrel 9 at its ends", figuresAtTheirEnds(demoProject("whimbrel-9"))],
  ["each figure of Dunlin 4 at its ends", figuresAtTheirEnds(demoProject("dunlin-4"))],
])("%s: every figure that is offered is one the project takes, and is not refused again", (_, specs) => {
  const tried = specs.filter((spec) => schema.safeParse(spec).success).map(wrongOffers);
  expect(tried.reduce((sum, { offers }) => sum + offers, 0)).toBeGreaterThan(0);
  expect(tried.flatMap(({ wrong }) => wrong)).toEqual([]);
});

/** Extreme shells whose offers led back and forth once: going against room, flange against edge, corner against side. */
const LED_BACK = [
  45, 93, 106, 155, 161, 190, 192, 199, 231, 251, 289, 304, 438, 443, 501, 531, 562, 601, 650, 1004, 1014,
  1384, 1418, 1615, 1635, 1670,
];

test.each(LED_BACK)(
  "extreme shell %s: what is offered is not refused for another reason, nor led back to",
  (seed) => {
    expect(backAndForth(extremeShell(seed))).toEqual([]);
  },
);

describe("the figure that is offered for", () => {
  const along = (from: number, to: number, more: Partial<FeatureSpec> = {}): FeatureSpec[] => [
    {
      kind: "bench",
      id: "bench",
      place: {
        kind: "along",
        from: { run: "right", part: from },
        to: { run: "deep", part: to },
        endRadius: 150,
      },
      depth: 500,
      width: 450,
      ...more,
    } as FeatureSpec,
  ];
  const offered = (change: Partial<ShellSpec>) => {
    const spec = { ...basin, ...change };
    expect(wrongOffers(spec)).toMatchObject({ wrong: [] });
    return refusals(spec).map(({ path, wouldWork }) => [path, wouldWork]);
  };

  test("a run that is too short outside a tight corner is where its end must be", () => {
    const tight = { kind: "rectangle", length: 6000, width: 3200, cornerRadius: 50 } as const;
    const [[path, wouldWork]] = offered({ outline: tight, features: along(0.97, 0.03) });
    expect(path).toBe("shell.features[0].place.to.part");
    // The corner takes 450 mm of bench and what its foot needs of a side of 3100.
    expect(wouldWork).toMatch(/^a part of at least 0\.\d\d$/);
  });

  test("a slot is how far the riser may reach, this side of it and beyond", () => {
    const features: FeatureSpec[] = [
      ...along(0.2, 0.5, { place: { kind: "end", end: "shallow" } }),
      { kind: "seat", id: "seat", place: { kind: "end", end: "deep" }, depth: 500, reach: 1000 },
      { kind: "ledge", id: "ledge", place: { kind: "end", end: "shallow" }, depth: 300, reach: 4940 },
    ];
    const [[path, wouldWork]] = offered({ features });
    expect(path).toBe("shell.features[2].reach");
    expect(wouldWork).toMatch(/^a reach of at most \d+ mm, or a reach of at least \d+ mm/);
  });

  test("a floor too shallow beside its wall is that of the station, cross fall and slope with it", () => {
    const floor = { ...basin.floor, stations: [{ at: 0, depth: 610 }], crossFall: 60 };
    const outline = { kind: "rectangle", length: 6000, width: 3200, cornerRadius: 800 } as const;
    const [[path, wouldWork]] = offered({ outline, floor, radii: { ...basin.radii, cove: 500 } });
    expect(path).toBe("shell.floor.stations[0].depth");
    // Closed form: 1600 mm from the middle the floor is 96 mm higher than the station says; 540 mm are needed there.
    expect(wouldWork).toBe("at least 636 mm of depth, or a cove of at most 474 mm");
  });

  test("a flange too thin for its edge is a smaller edge, where a reflex corner leaves it no wider", () => {
    const ell = {
      kind: "ell",
      ...{ length: 8000, width: 4000, cutLength: 3000, cutWidth: 1500 },
      ...{ cutAt: "deep-left", cornerRadius: 400 },
    } as const satisfies Partial<ShellSpec["outline"]>;
    const thin = (reflexRadius: number) =>
      offered({
        outline: { ...ell, reflexRadius },
        coping: { flange: 80, rimRadius: 20, edge: { kind: "rolled", radius: 40 } },
      });
    // Twice the edge and 10 mm are 90 mm of flange, which with the edge and 5 mm more reach 135 mm out.
    expect(thin(140)).toEqual([["shell.coping.flange", "a flange of at least 90 mm"]]);
    expect(thin(130)).toEqual([["shell.coping.flange", "an edge radius of at most 35 mm"]]);
  });

  test("a plan corner that has no room beside its neighbour is the cove, and never a radius that is not drawn", () => {
    // Sides of 600 mm at the cut hold no corner of more than 300 mm beside the reflex one.
    const outline = {
      kind: "ell",
      ...{ length: 8000, width: 4000, cutLength: 600, cutWidth: 600 },
      ...{ cutAt: "deep-left", cornerRadius: 25, reflexRadius: 300 },
    } as const satisfies ShellSpec["outline"];
    const found = offered({
      outline,
      floor: { ...basin.floor, stations: [{ at: 0, depth: 700 }] },
      radii: { ...basin.radii, cove: 480 },
    });
    expect(found.map(([path]) => path)).toContain("shell.outline.cornerRadius");
    for (const [, wouldWork] of found) expect(wouldWork).toMatch(/^a cove of at most \d+ mm$/);
  });

  test("a floor that falls too steeply before the next station is its depth", () => {
    const stations = [
      { at: 1000, depth: 700 },
      { at: 1500, depth: 2500 },
      { at: 2000, depth: 2500 },
    ];
    const [[path, wouldWork]] = offered({ floor: { ...basin.floor, stations }, features: [] });
    expect([path, wouldWork]).toEqual(["shell.floor.stations[1].at", "a depth of at most 1200 mm there"]);
  });

  test("a corner with no depth to grow in is enough where it then lies, on a floor that is deeper further in", () => {
    const floor = { ...basin.floor, stations: [{ at: 0, depth: 640 }], crossFall: 60 };
    const [[path, wouldWork]] = offered({ floor, radii: { ...basin.radii, cove: 490 } });
    expect(path).toBe("shell.outline.cornerRadius");
    expect(wouldWork).toMatch(/^a radius of \d+ mm at \w+-\w+/);
  });
});
