import { describe, expect, it } from "vitest";
import type { AdriftZone } from "../../core/layup/laid.ts";
import { layUp } from "../../core/layup/lay-up.ts";
import type { ZoneSpec } from "../../core/project/schema.ts";
import { basinProject, groundOf, ledge } from "./ground.ts";

const { project, shell, transitions } = groundOf(basinProject({ features: [ledge] }));

function adriftOf(spec: ZoneSpec): AdriftZone {
  const { zones, adrift } = layUp({ ...project, layup: [spec] }, shell, { transitions });
  expect(zones).toEqual([]);
  expect(adrift[0].spec).toBe(spec);
  expect(adrift[0].id).toBe(spec.id);
  return adrift[0];
}

const band = (on: string, stretch?: { from: number; to: number }): ZoneSpec => ({
  kind: "band",
  id: "band",
  on,
  halfWidths: [150, 150],
  plies: 1,
  material: "woven-600",
  ...(stretch ? { stretch } : {}),
});
const rib = (run: string, part = 0.5, top = 60): ZoneSpec => ({
  kind: "rib",
  id: "rib",
  at: { run, part },
  top,
  foot: { kind: "to", clear: 0 },
  material: "rib-strip",
});
const sheet = { material: "core-sheet" };
const webs = (under: string, margin = 100): ZoneSpec => ({
  kind: "gussets",
  id: "webs",
  under,
  pitch: 500,
  margin,
  reach: 200,
  drop: 200,
  ...sheet,
});
const pad = (on: string, margin = 60): ZoneSpec => ({ kind: "pad", id: "pad", on, margin, ...sheet });
const bar = (run: string, margin = 100): ZoneSpec => ({
  kind: "stiffener",
  id: "bar",
  run,
  margin,
  material: "rib-strip",
});

/** Zone, what its reason says, and what its mend says. */
const lost: [string, ZoneSpec, RegExp, RegExp][] = [
  ["a face that went", band("floor|bench/riser"), /no bench, so there is no bench\/riser/, /Put bench back/],
  [
    "a transition that is none",
    band("ledge/top|floor"),
    /no transition ledge\/top\|floor/,
    /ledge\/top\|ledge\/riser/,
  ],
  ["a name nearly right", band("foots"), /no transition foots/, /Did you mean foot\?/],
  ["faces the other way round", band("ledge/riser|floor"), /no transition/, /floor\|ledge\/riser/],
  [
    "a second meeting that went",
    band("wall|ledge/top#2"),
    /no transition wall\|ledge\/top#2/,
    /Did you mean wall\|ledge\/top\?/,
  ],
  [
    "a stretch without length",
    band("floor|ledge/riser", { from: 0.4, to: 0.4 }),
    /only 0 mm long/,
    /at least 10 mm/,
  ],
  ["a stretch too short", band("foot", { from: 0.4, to: 0.4001 }), /only \d mm long/, /at least 10 mm/],
  [
    "a stretch that runs back",
    band("floor|ledge/riser", { from: 0.7, to: 0.2 }),
    /open line/,
    /from 0.2 to 0.7/,
  ],
  ["a run that went", rib("side-3"), /no run of the rim side-3/, /right/],
  ["a wall too low", rib("shallow", 0.5, 350), /leaves \d+ mm for the rib above ledge\/top/, /higher top/],
  ["a tread that went", webs("steps/tread-1"), /no steps, so there is no steps\/tread-1/, /ledge\/top/],
  [
    "a part that a feature has not",
    pad("ledge/tread-1"),
    /no tread, bench or ledge top ledge\/tread-1/,
    /ledge\/top/,
  ],
  ["gussets under a riser", webs("ledge/riser"), /is no tread/, /ledge\/top/],
  ["margins that use a nose up", webs("ledge/top", 2000), /margins of 2000 mm use up/, /at most \d+ mm/],
  ["a pad on a riser", pad("ledge/riser"), /not level/, /ledge\/top/],
  ["a pad on a wall", pad("wall"), /not level/, /ledge\/top/],
  ["a pad that its margin uses up", pad("ledge/top", 900), /leaves no pad/, /at most \d+ mm/],
  ["a stiffener round a corner", bar("deep-right"), /curved run/, /right, deep, left/],
  ["a stiffener on a run that went", bar("side-1"), /no run of the rim side-1/, /right/],
  ["a run too short for its margins", bar("deep", 700), /too short for a strip/, /at most \d+ mm/],
];

describe("a zone that finds no place is kept, with the reason and what would mend it", () => {
  it.each(lost)("%s", (_, spec, why, mend) => {
    const zone = adriftOf(spec);
    expect(zone.why).toMatch(why);
    expect(zone.mend).toMatch(mend);
    expect(zone.why).not.toMatch(/could not be worked out/);
  });

  it("beside those that are laid, in the order of the file", () => {
    const layup = [
      band("foot"),
      { ...rib("right"), id: "one" },
      { ...band("none|such"), id: "lost" },
      { ...pad("ledge/top"), id: "pad" },
    ];
    const result = layUp({ ...project, layup }, shell, { transitions });
    expect(result.zones.map(({ id }) => id)).toEqual(["band", "one", "pad"]);
    expect(result.adrift.map(({ id }) => id)).toEqual(["lost"]);
  });

  it("even when a material went", () => {
    const zone = adriftOf({ ...band("foot"), material: "gone" } as ZoneSpec);
    expect(zone.why).toMatch(/no woven material gone/);
    expect(zone.mend).toMatch(/woven-600/);
  });
});
