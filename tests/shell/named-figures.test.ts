import { describe, expect, test } from "vitest";
import { refused } from "../../core/cli/refused.ts";
import { fieldAt } from "../../core/project/branch.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import { type FeatureSpec, type ShellSpec, project as schema } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";

const { shell } = defaultProject();
type Refusals = Extract<ReturnType<typeof buildShell>, { ok: false }>["refusals"];

/** What is said of a changed shell; every refusal names a figure of the file and what stands there. */
function told(change: Partial<ShellSpec>): Refusals {
  const changed = { ...defaultProject(), shell: { ...shell, ...change } };
  const result = buildShell(changed.shell);
  if (result.ok) throw new Error("was built");
  for (const { path, value } of result.refusals) {
    const keys = path.split(/[.[\]]+/).filter(Boolean);
    const field = fieldAt(schema, changed, keys);
    expect(field, path).toBeDefined();
    expect(field?.value, path).toEqual(value);
  }
  for (const sentence of refused("pool", changed, result.refusals).sentences) {
    expect(sentence).not.toMatch(/\.\.|\d\.\d{3}|an object/);
  }
  return result.refusals;
}

const bench = (place: FeatureSpec["place"], width = 400): FeatureSpec[] => [
  { kind: "bench", id: "bench", place, depth: 450, width },
];
const steps = (place: FeatureSpec["place"], ...goings: number[]): FeatureSpec[] => [
  { kind: "steps", id: "flight", place, treads: goings.map((going, i) => ({ depth: 350 + 250 * i, going })) },
];
const right = (from: number, to: number, run = "right") =>
  ({ kind: "along", from: { run, part: from }, to: { run, distance: to }, endRadius: 150 }) as const;

describe("a refusal names the figure that is wrong, not the first one of its feature", () => {
  test.each<[string, Partial<ShellSpec>, string, RegExp]>([
    [
      "a run that is spelt wrongly",
      { features: bench({ ...right(0.1, 2000), from: { run: "rihgt", part: 0.1 } }) },
      "shell.features[0].place.from.run",
      / is on rihgt, which is no run of this outline$/,
    ],
    [
      "a distance past the end of a run",
      { features: bench(right(0.1, 9000)) },
      "shell.features[0].place.to.distance",
      /6800 mm long/,
    ],
    [
      "a corner that is a side",
      { features: steps({ kind: "corner", corner: "deep", shape: "round" }, 400, 300) },
      "shell.features[0].place.corner",
      /"deep", which is not an inward corner/,
    ],
    [
      "a tread that goes further than the pool is long",
      { features: steps({ kind: "end", end: "deep" }, 3000, 3000, 3000) },
      "shell.features[0].treads[2].going",
      /reaches 9000 mm into a pool 7500 mm long/,
    ],
    [
      "a ledge that reaches further than the pool is long",
      {
        outline: { kind: "rectangle", length: 4000, width: 3000, cornerRadius: 300 },
        features: [
          { kind: "ledge", id: "ledge", place: { kind: "end", end: "deep" }, depth: 400, reach: 5000 },
        ],
      },
      "shell.features[0].reach",
      /reaches 5000 mm/,
    ],
    [
      "a bench too wide to go round",
      { features: bench({ kind: "round" }, 2400) },
      "shell.features[0].width",
      /finds no room/,
    ],
    [
      "a bench without a run",
      { features: bench(right(0.1, 700)) },
      "shell.features[0].place.to.distance",
      /run/,
    ],
    [
      "a floor too shallow for its cove",
      {
        floor: {
          ...shell.floor,
          stations: [
            { at: 0, depth: 1500 },
            { at: 4000, depth: 610 },
          ],
        },
        radii: { ...shell.radii, cove: 500 },
        coping: { ...shell.coping, flange: 300, rimRadius: 80 },
        features: [],
      },
      "shell.floor.stations[1].depth",
      /no wall/,
    ],
    [
      "one of four corners too tight to grow",
      {
        outline: { kind: "rectangle", length: 6000, width: 3200, cornerRadius: [900, 900, 40, 900] },
        radii: { ...shell.radii, cove: 480 },
        floor: { ...shell.floor, stations: [{ at: 0, depth: 620 }] },
        features: [],
      },
      "shell.outline.cornerRadius[2]",
      /deep-left has a radius of 40 mm/,
    ],
    [
      "an outline too large by its points",
      {
        outline: {
          kind: "polygon",
          cornerRadius: 300,
          points: [
            [0, 0],
            [7123.4567, 0],
            [7123.4567, 6123.4567],
            [0, 6123.4567],
          ],
        },
        features: [],
      },
      "",
      /6123\.5 mm/,
    ],
  ])("%s", (_, change, path, why) => {
    if (path === "") {
      // A size that is measured on the outline stands nowhere in the file: told to the tenth.
      const result = buildShell({ ...shell, ...change });
      expect(result.ok ? [] : refused("pool", defaultProject(), result.refusals).sentences).toEqual([
        expect.stringMatching(
          /^pool: shell\.outline\.points is 6123\.5: The outline's width .* 6000 mm\. What would work/,
        ),
      ]);
      return;
    }
    const refusals = told(change);
    expect(refusals.map((each) => each.path)).toContain(path);
    expect(refusals.find((each) => each.path === path)?.why).toMatch(why);
    if (path.endsWith("run"))
      expect(refusals.find((each) => each.path === path)?.wouldWork).toMatch(
        /^right, if that is meant, or another of/,
      );
  });

  const seat: FeatureSpec = {
    kind: "seat",
    id: "seat",
    place: { kind: "end", end: "deep" },
    depth: 500,
    reach: 400,
  };
  const paired = (radius: number, ...between: [string, string]): Partial<ShellSpec> => ({
    features: [seat],
    radii: { ...shell.radii, step: 40, nose: 20, pairs: [{ between, radius }] },
  });

  test("a radius that is given for a pair of faces is named as that pair's, and changes what it is said to change", () => {
    const nose = paired(100, "seat/top", "seat/riser");
    const apart = {
      ...nose.radii!,
      pairs: [...nose.radii!.pairs, { between: ["wall", "seat/riser"] as [string, string], radius: 20 }],
    };
    const [unequal] = told({ ...nose, radii: apart });
    expect(unequal).toMatchObject({ path: "shell.radii.pairs[0].radius", value: 100 });
    expect(unequal.wouldWork).toMatch(/^a nose of at most 40 mm/);

    const behind = paired(380, "wall", "seat/top");
    const [{ wouldWork }] = told(behind).filter(({ path }) => path === "shell.features[0].reach");
    expect(wouldWork).toBe("at least 410 mm, or a radius between seat/top and wall of at most 370 mm");
    expect(buildShell({ ...shell, ...paired(370, "wall", "seat/top") }).ok).toBe(true);
  });

  test("a corner too tight for a pair's radius is not said to fit with a smaller step radius", () => {
    const tight = (radius: number): Partial<ShellSpec> => ({
      ...paired(radius, "wall", "seat/top"),
      outline: { kind: "rectangle", length: 7000, width: 3000, cornerRadius: 150 },
      features: [{ ...seat, depth: 420, reach: 600 }],
    });
    const [{ path, wouldWork }] = told(tight(330));
    expect(path).toBe("shell.outline.cornerRadius");
    const most = Number(
      /^a radius of \d+ mm at .*, or radii to the wall of at most (\d+) mm$/.exec(wouldWork)?.[1],
    );
    expect(buildShell({ ...shell, ...tight(most) }).ok).toBe(true);
    expect(buildShell({ ...shell, ...tight(most + 2) }).ok).toBe(false);
  });

  test("no flange and no reach are offered that the project does not take", () => {
    const ell = {
      outline: {
        kind: "ell",
        ...{ length: 8000, width: 4000, cutLength: 3000, cutWidth: 1500 },
        ...{ cutAt: "deep-left", cornerRadius: 300, reflexRadius: 60 },
      },
      features: [],
    } satisfies Partial<ShellSpec>;
    const [coping] = told(ell);
    expect(coping.path).toBe("shell.coping.flange");
    expect(coping.wouldWork).toMatch(/^a reflex radius of at least \d+ mm$/);
    const least = Number(/\d+/.exec(coping.wouldWork));
    expect(buildShell({ ...shell, ...ell, outline: { ...ell.outline, reflexRadius: least } }).ok).toBe(true);

    const round: FeatureSpec = { ...seat, place: { kind: "round" }, reach: 390 };
    const narrow: ShellSpec["outline"] = {
      ...ell.outline,
      cutWidth: 3300,
      cornerRadius: 40,
      reflexRadius: 215,
    };
    // Half of it, below what a seat may reach, was offered once.
    const [{ path, wouldWork }] = told({ features: [round], outline: narrow });
    const reach = Number(/^a reach of at most (\d+) mm$/.exec(wouldWork)?.[1]);
    expect([path, reach >= 200]).toEqual(["shell.features[0].reach", true]);
    const smaller = buildShell({ ...shell, outline: narrow, features: [{ ...round, reach }] });
    expect(smaller.ok ? [] : smaller.refusals.filter((other) => other.path === path)).toEqual([]);
  });

  test("what is wrong with a place is said once, not for every tread", () => {
    const wrong = steps({ kind: "corner", corner: "deep", shape: "round" }, 400, 300, 300);
    expect(told({ features: wrong })).toHaveLength(1);
  });
});
