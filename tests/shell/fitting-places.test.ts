/** Fittings that their wall does not hold. */
import { describe, expect, test } from "vitest";
import { refused } from "../../core/cli/refused.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import type { FeatureSpec, FittingSpec, ShellSpec } from "../../core/project/schema.ts";
import { shell as schema } from "../../core/project/shell-schema.ts";
import { built, refusals } from "./built.ts";
import { wrongOffers } from "./offered-figures.ts";

/**
 * A pool of 7.5 × 3.5 m, 1.2 m deep 1.5 m from the shallow end; cove 200 mm, step radius 50 mm, rim 20 mm. The right side runs from
 * x = 350 to 7150: at x = 1500 its plain wall is from 20 to 1000 mm below the rim.
 */
const { shell } = defaultProject();
const plain: ShellSpec = {
  ...shell,
  floor: { ...shell.floor, stations: [{ at: 0, depth: 1200 }] },
  coping: { ...shell.coping, rimRadius: 20 },
  features: [],
};
const bench = (depth: number, to = 0.6): FeatureSpec => ({
  kind: "bench",
  id: "bench",
  place: { kind: "along", from: { run: "right", part: 0 }, to: { run: "right", part: to }, endRadius: 150 },
  depth,
  width: 450,
});

interface Fitted {
  readonly kind?: FittingSpec["kind"];
  readonly depth: number;
  readonly height: number;
  readonly width?: number;
  readonly features?: FeatureSpec[];
  readonly place?: { part: number } | { distance: number };
}

const withFitting = ({
  kind = "light",
  depth,
  height,
  width = 200,
  features = [],
  place,
}: Fitted): ShellSpec => {
  const at = { wall: { run: "right", ...(place ?? { part: 0.3 }) }, depth };
  return { ...plain, features, fittings: [{ id: kind, kind, at, width, height, clearance: 50 }] };
};

/** The one refusal of a shell: its field, reason and offer. */
function told(fitted: Fitted) {
  const spec = withFitting(fitted);
  const all = refusals(spec);
  expect(all).toHaveLength(1);
  expect(wrongOffers(spec)).toMatchObject({ wrong: [] });
  return all[0];
}

describe("a fitting is held by plain wall over all of its height", () => {
  test.each<[string, Fitted, RegExp, string]>([
    [
      "a skimmer over the rim",
      { kind: "skimmer", depth: 60, height: 160 },
      /reaches 20 mm above the rim$/,
      "a depth of at least 80 mm, or a height of at most 120 mm",
    ],
    [
      "a skimmer with its middle nearly at the rim",
      { kind: "skimmer", depth: 10, height: 160 },
      /reaches 70 mm above the rim$/,
      "a depth of at least 80 mm, or a height of at most 20 mm",
    ],
    [
      "a skimmer with its middle at the rim, half of it in the air",
      { kind: "skimmer", depth: 0, height: 800 },
      /reaches 400 mm above the rim$/,
      "a depth of at least 400 mm",
    ],
    [
      "a light in the radius at the rim",
      { depth: 110, height: 200 },
      /reaches into the radius at the rim$/,
      "a depth of at least 120 mm, or a height of at most 180 mm",
    ],
    [
      "a light in the cove",
      { depth: 901, height: 200 },
      /reaches down to 1001 mm, and its wall ends 1000 mm below the rim in the radius to the floor$/,
      "a depth of at most 900 mm, or a height of at most 198 mm",
    ],
    [
      "a light below its wall",
      { depth: 1150, height: 200 },
      /reaches down to 1250 mm, and its wall ends 1000 mm/,
      "a depth of at most 900 mm",
    ],
    [
      "a light over a bench 550 mm deep with a radius of 50 mm",
      { depth: 401, height: 200, features: [bench(550)] },
      /ends 500 mm below the rim in the radius to bench\/top$/,
      "a depth of at most 400 mm, or a height of at most 198 mm",
    ],
  ])("%s", (_, fitted, why, wouldWork) => {
    const refusal = told(fitted);
    expect(refusal).toMatchObject({ path: "shell.fittings[0].at.depth", value: fitted.depth, wouldWork });
    expect(refusal.why).toMatch(why);
  });

  test("a skimmer's mouth may be cut open up to the coping, a return may not", () => {
    built(withFitting({ kind: "skimmer", depth: 80, height: 160 }));
    expect(told({ kind: "return", depth: 80, height: 160 }).wouldWork).toMatch(/^a depth of at least 100 mm/);
    built(withFitting({ kind: "return", depth: 100, height: 160 }));
  });

  test("also beside a bench that begins under half of it", () => {
    // The bench ends at a part of 0.3, in a rounded end: the fitting's middle is past it, its edge is not.
    const beside = {
      depth: 700,
      height: 200,
      features: [bench(550, 0.3)],
      place: { distance: 0.3 * 6800 + 10 },
    };
    expect(told({ ...beside, width: 800 }).why).toContain("radius to bench/top");
    built(withFitting({ ...beside, place: { distance: 0.3 * 6800 + 500 }, width: 800 }));
  });

  test("one that is taller than its wall is offered a height, and the nearest place", () => {
    // The bench leaves 480 mm of plain wall, from 20 to 500 mm, and ends 4080 mm along; beside it there is wall down to 1000 mm.
    const tall = { depth: 350, height: 600, features: [bench(550)] };
    const [height, place] = told(tall).wouldWork.split(", or ");
    expect(height).toBe("a height of at most 300 mm");
    const part = Number(/^another place, such as a part of (0\.\d\d) on right$/.exec(place)?.[1]);
    expect(part * 6800).toBeGreaterThan(4080 + 50);
    expect(part * 6800).toBeLessThan(4080 + 250);
    built(withFitting({ ...tall, place: { part } }));
    const far = told({ ...tall, place: { distance: 3000 } }).wouldWork;
    const distance = Number(/such as a distance of (\d+) mm on right$/.exec(far)?.[1]);
    built(withFitting({ ...tall, place: { distance } }));
    // With its middle 10 mm below the rim no height would do, nor any place as it is.
    const [lower, elsewhere] = told({ ...tall, depth: 10 }).wouldWork.split(", or ");
    expect(lower).toBe("a height of at most 480 mm at a depth of 260 mm");
    expect(elsewhere).toMatch(/ on right, at a depth of 320 mm$/);
    built(withFitting({ ...tall, height: 480, depth: 260 }));
    built(withFitting({ ...tall, depth: 320, place: { part } }));
  });

  test("one that no wall of the shell holds is told how deep it would have to be", () => {
    const features = [{ ...bench(550), place: { kind: "round" } } as FeatureSpec];
    expect(told({ depth: 250, height: 600, features }).wouldWork).toBe(
      "a height of at most 460 mm, or another place, where bench/top is at least 670 mm deep at the wall, at a depth of 320 mm",
    );
    built(
      withFitting({ depth: 320, height: 600, features: [{ ...features[0], depth: 670 } as FeatureSpec] }),
    );
  });

  test("where the radius below takes up all of the wall no figure is offered", () => {
    const none = refusals({
      ...withFitting({ depth: 30, height: 60, features: [bench(120)] }),
      radii: { ...plain.radii, step: 90 },
      coping: { ...plain.coping, rimRadius: 20 },
    });
    const [refusal] = none.filter(({ path }) => path.startsWith("shell.fittings"));
    expect(refusal.why).toContain("10 mm of plain wall");
    expect(refusal.wouldWork).toMatch(/^another place, /);
  });

  test("whatever its kind, depth and height: each offer builds, and no figure is beyond the file's", () => {
    let offers = 0;
    for (const kind of ["skimmer", "light"] as const)
      for (const features of [[], [bench(300)], [bench(550)]])
        for (const depth of [0, 60, 333.3, 990, 2600])
          for (const height of [20, 95.5, 800]) {
            const spec = withFitting({ kind, depth, height, features });
            expect(schema.safeParse(spec).success).toBe(true);
            const { offers: tried, wrong } = wrongOffers(spec);
            expect(wrong).toEqual([]);
            offers += tried;
          }
    expect(offers).toBeGreaterThan(80);
  });
});

describe("a fitting on the floor lies inside the radius at the foot of the wall", () => {
  /** A suction outlet 200 mm along and 100 mm across the pool of 7500 × 3500 mm, on a level floor with upright walls. */
  const outlet = (alongPart: number, acrossPart: number, more: Partial<ShellSpec> = {}): ShellSpec => ({
    ...plain,
    draftDeg: 0,
    fittings: [
      {
        id: "suction",
        kind: "suction",
        at: { floor: { alongPart, acrossPart } },
        width: 200,
        height: 100,
        clearance: 50,
      },
    ],
    ...more,
  });

  test.each<[string, ShellSpec, string, number, string]>([
    // Half of 100 mm and the cove of 200 mm are 250 mm, 0.0714 of the width; 100 and 200 mm are 0.04 of the length.
    ["at the right side", outlet(0.5, 0.07), "acrossPart", 0.07, "a part of at least 0.08 across"],
    ["across the left wall", outlet(0.5, 1), "acrossPart", 1, "a part of at most 0.92 across"],
    ["at the shallow end", outlet(0.02, 0.5), "alongPart", 0.02, "a part of at least 0.04 along"],
    // At 3 degrees the wall stands 63 mm further in at its foot 1200 mm down, and the cove reaches 190 mm beyond it.
    [
      "under a draft",
      outlet(0.5, 0.08, { draftDeg: 3 }),
      "acrossPart",
      0.08,
      "a part of at least 0.09 across",
    ],
  ])("%s", (_, spec, key, value, wouldWork) => {
    const [refusal, ...more] = refusals(spec);
    expect(more).toEqual([]);
    expect(refusal).toMatchObject({ path: `shell.fittings[0].at.floor.${key}`, value, wouldWork });
    const { at } = structuredClone(spec.fittings[0]);
    if ("floor" in at) at.floor = { ...at.floor, [key]: Number(/[\d.]+/.exec(wouldWork)?.[0]) };
    built({ ...spec, fittings: [{ ...spec.fittings[0], at }] });
  });

  test("outside the pool, in what is cut from an ell", () => {
    const outline: ShellSpec["outline"] = {
      kind: "ell",
      ...{ length: 7500, width: 4000, cutLength: 3000, cutWidth: 1500 },
      ...{ cutAt: "deep-left", cornerRadius: 400, reflexRadius: 400 },
    } as const;
    const [refusal] = refusals(outlet(0.8, 0.9, { outline }));
    // The cut begins 2500 mm from the right: 2250 mm are 0.5625 of the width. That is nearer than along.
    expect(refusal).toMatchObject({ value: 0.9, wouldWork: "a part of at most 0.56 across" });
    built(outlet(0.8, 0.56, { outline }));
  });

  test("one that has to move both ways is told another place; one on a ledge stays", () => {
    expect(refusals(outlet(0, 0))[0].wouldWork).toMatch(/^another place, such as a part of 0\.05 along/);
    const ledge: FeatureSpec = {
      kind: "ledge",
      id: "ledge",
      place: { kind: "end", end: "shallow" },
      depth: 300,
      reach: 2000,
    };
    // The radius there is 50 mm: 150 mm and more from the shallow end.
    built(outlet(0.03, 0.5, { features: [ledge] }));
    expect(refusals(outlet(0.03, 0.5))[0].path).toBe("shell.fittings[0].at.floor.alongPart");
  });
});

test("the sentence of the command line names the fitting", () => {
  const project = { ...defaultProject(), shell: withFitting({ kind: "skimmer", depth: 60, height: 160 }) };
  expect(refused("pool", project, refusals(project.shell)).sentences).toEqual([
    "pool: shell.fittings[0].at.depth (skimmer) is 60: skimmer, 160 mm high with its middle 60 mm below the rim, reaches 20 mm above the rim. What would work: a depth of at least 80 mm, or a height of at most 120 mm.",
  ]);
});
