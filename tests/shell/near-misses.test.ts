import { describe, expect, test } from "vitest";
import { defaultProject } from "../../core/project/defaults.ts";
import type { FeatureSpec, ShellSpec } from "../../core/project/schema.ts";
import { measureShell } from "../../core/shell/measure.ts";
import { built, refusals } from "./built.ts";

/** A pool of 7.5 × 3.5 m, 1.2 m deep 1.5 m from the shallow end, sloping to 1.8 m at the deep end; cove 200 mm, step radius 50 mm. */
const { shell } = defaultProject();
const plain: ShellSpec = { ...shell, features: [] };

const ledge = (reach: number, depth = 400, id = "ledge"): FeatureSpec => ({
  kind: "ledge",
  id,
  place: { kind: "end", end: "shallow" },
  depth,
  reach,
});
const bench = (depth: number): FeatureSpec => ({
  kind: "bench",
  id: "bench",
  place: { kind: "along", from: { run: "right", part: 0 }, to: { run: "right", part: 0.6 }, endRadius: 150 },
  depth,
  width: 450,
});
const flight = (second: number): FeatureSpec => ({
  kind: "steps",
  id: "flight",
  place: { kind: "end", end: "shallow" },
  treads: [
    { depth: 300, going: 350 },
    { depth: second, going: 300 },
    { depth: 900, going: 300 },
  ],
});

describe("faces a few mm apart are refused with figures that work", () => {
  test("treads of one flight without a riser between them", () => {
    const [first] = refusals({ ...plain, features: [flight(301)] });
    expect(first).toMatchObject({ path: "shell.features[0].treads[1].depth", value: 301 });
    expect(first.why).toContain("flight/riser-1 is only 1 mm high");
    const figure = Number(/at least (\d+) mm/.exec(first.wouldWork)?.[1]);
    const shell = built({ ...plain, features: [flight(figure)] });
    // It is seen: the riser meets the tread below it.
    const lines = measureShell(shell, "preview").transitions.map(({ id }) => id);
    expect(lines).toContain("flight/riser-1|flight/tread-2");
  });

  test.each([3, 5, -4])("a bench that lies %i mm below a ledge which it meets", (below) => {
    const [first] = refusals({ ...plain, features: [ledge(1500), bench(400 + below)] });
    expect(first).toMatchObject({ path: "shell.features[1].depth", value: 400 + below });
    expect(first.why).toContain(
      `bench/top lies ${Math.abs(below)} mm ${below > 0 ? "below" : "above"} ledge/top`,
    );
    expect(first.wouldWork).toBe("400 mm, or at most 375 mm, or at least 425 mm");
    for (const depth of [400, 425, 375]) built({ ...plain, features: [ledge(1500), bench(depth)] });
  });

  test("no depth is offered that the file does not take, that leaves no wall or that nearly meets a third tread", () => {
    const offered = (...features: FeatureSpec[]) => refusals({ ...plain, features })[0].wouldWork;
    // A bench lies 100 mm deep at least; above the rim radius of 20 mm and a step radius of 50 mm none lies higher than 75 mm.
    expect(offered(ledge(1500, 102), bench(105))).toBe("102 mm, or at least 127 mm");
    expect(
      offered(ledge(1500, 95), { ...ledge(1500, 98, "other"), place: { kind: "end", end: "shallow" } }),
    ).toBe("95 mm, or at least 120 mm");
    const third: FeatureSpec = { ...ledge(900, 428, "far"), place: { kind: "end", end: "deep" } };
    expect(offered(ledge(1500), bench(403), third)).toBe("400 mm, or at most 375 mm");
  });

  test("figures of many decimals are told to the tenth", () => {
    const [{ why, wouldWork }] = refusals({
      ...plain,
      features: [
        {
          ...flight(600),
          treads: [
            { depth: 300, going: 350 },
            { depth: 600, going: 75.15555555555557 + 25 },
          ],
        } as FeatureSpec,
      ],
      radii: { ...plain.radii, step: 90.0001 },
    });
    expect(why).toContain("100.2 mm from flight/riser-1");
    expect(`${why} ${wouldWork}`).not.toMatch(/\d\.\d{2}/);
  });

  test("levels as near that lie apart are none of that", () => {
    const far: FeatureSpec = {
      ...ledge(900, 403, "far"),
      place: { kind: "end", end: "deep" },
    } as FeatureSpec;
    built({ ...plain, features: [ledge(1500), far] });
  });

  test("risers that run side by side", () => {
    const [first] = refusals({ ...plain, features: [ledge(1500), ledge(1504, 700, "lower")] });
    expect(first).toMatchObject({ path: "shell.features[1].reach", value: 1504 });
    expect(first.why).toContain("lower/riser runs 4 mm beside ledge/riser");
    built({ ...plain, features: [ledge(1500), ledge(1500, 700, "lower")] });
    built({ ...plain, features: [ledge(1500), ledge(1525, 700, "lower")] });
  });
});

describe("what the shell cannot show is named", () => {
  const named = (spec: ShellSpec) => built(spec).adjustments.map(({ id, asked, used }) => [id, asked, used]);
  const floor = (change: Partial<ShellSpec["floor"]>): ShellSpec => ({
    ...plain,
    floor: { ...plain.floor, ...change },
  });

  test("a station beyond the deep end", () => {
    const stations = [
      { at: 1500, depth: 1200 },
      { at: 13500, depth: 2400 },
    ];
    expect(named(floor({ stations }))).toEqual([["floor/station-2-beyond", 13500, 7500]]);
    // 600 mm of fall in the 6 m to the end.
    expect(built(floor({ stations })).adjustments[0].why).toContain("depth of 1800 mm");
    expect(named(floor({ stations: [{ at: 7500, depth: 1500 }] }))).toEqual([]);
  });

  test("a hopper whose sides lie below the floor everywhere", () => {
    expect(named(floor({ hopper: { depthAtWall: 1850, slopeDeg: 30 } }))).toEqual([
      ["floor/hopper-hidden", 1850, 1800],
    ]);
    expect(named(floor({ hopper: { depthAtWall: 1300, slopeDeg: 30 } }))).toEqual([]);
  });

  test("a radius for faces that meet nowhere", () => {
    const pairs: ShellSpec["radii"]["pairs"] = [
      { between: ["ledge/top", "floor"], radius: 80 },
      { between: ["ledge/riser", "floor"], radius: 80 },
      { between: ["floor", "wall"], radius: 150 },
    ];
    const { doubts } = measureShell(
      built({ ...plain, radii: { ...plain.radii, pairs }, features: [ledge(1500)] }),
      "preview",
    );
    expect(doubts).toEqual([
      "ledge/top and floor meet nowhere on this shell: the radius of 80 mm given for them has no place",
    ]);
  });
});
