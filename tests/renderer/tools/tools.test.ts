import { beforeAll, describe, expect, test } from "vitest";
import { pointAt } from "../../../core/plan/point-at.ts";
import { bandTool, movedEnd } from "../../../renderer/tools/band.ts";
import { gussetsTool } from "../../../renderer/tools/gussets.ts";
import { nearestOn, pointOn } from "../../../renderer/tools/line-place.ts";
import { padTool } from "../../../renderer/tools/pad.ts";
import { ribTool } from "../../../renderer/tools/rib.ts";
import { stiffenerTool } from "../../../renderer/tools/stiffener.ts";
import type { Aim, Place, Tool } from "../../../renderer/tools/tool.ts";
import { named } from "../../../renderer/tools/zone-edits.ts";
import { demoProject } from "../../project/demo-files.ts";
import { groundOf } from "./ground.ts";

const demo = demoProject("whimbrel-9");
let known: Awaited<ReturnType<typeof groundOf>>;
beforeAll(async () => {
  known = await groundOf(demo);
});

const lineOf = (id: string) => {
  const line = known.ground.lines.find((each) => each.id === id);
  if (!line) throw new Error(`No line ${id}.`);
  return line;
};
const onLine = (id: string, part: number): Aim => {
  const { outside, closed } = lineOf(id);
  return { point: pointOn(outside, closed, part), face: "wall" };
};
/** A point of the wall below a place of a run, as far in as the draft asks. */
const onWall = (run: string, part: number, down = 500): Aim => {
  const { chain, runs } = known.ground.outline;
  const found = runs.find(({ id }) => id === run);
  if (!found) throw new Error(`No run ${run}.`);
  const { x, y, tx, ty } = pointAt(chain, found.from + part * found.length);
  const inwards = down * Math.tan((demo.shell.draftDeg * Math.PI) / 180);
  return { point: [x - inwards * ty, y + inwards * tx, -down], face: "wall" };
};
const along = (tool: Tool, from: Aim, to: Aim) => tool.along?.(known.ground, from, to, [from, to]);

describe("places on a line", () => {
  test("a point of a line is found again at its own part", () => {
    const { outside, closed } = lineOf("foot");
    for (const part of [0, 0.1, 0.37, 0.5, 0.93]) {
      const found = nearestOn(outside, closed, pointOn(outside, closed, part));
      expect(found.distance).toBeLessThan(1e-3);
      expect(found.part).toBeCloseTo(part, 6);
    }
  });
});

describe("band", () => {
  test("a click near the foot offers the whole loop as the house rules lay it, and core lays just that", () => {
    const place = bandTool.at(known.ground, onLine("foot", 0.3));
    if (place?.zone.kind !== "band") throw new Error("No band was offered.");
    const byRule = known.trials.automatic(demo).find((zone) => zone.kind === "band" && zone.on === "foot");
    const [own] = named({ layup: [] }, [place.zone]);
    expect(own).toEqual(byRule);
  });
  test("far from any transition there is none", () => {
    expect(bandTool.at(known.ground, onWall("left", 0.6, 400))).toBeNull();
  });
  test("a drag lays the stretch between its ends, whichever way it was drawn, the shorter way round", async () => {
    const stretchOf = async (a: number, b: number) => {
      const place = await along(bandTool, onLine("foot", a), onLine("foot", b));
      if (place?.zone.kind !== "band") throw new Error("No band was offered.");
      return place.zone.stretch;
    };
    const there = await stretchOf(0.3, 0.4);
    expect(there?.from).toBeCloseTo(0.3, 2);
    expect(there?.to).toBeCloseTo(0.4, 2);
    expect(await stretchOf(0.4, 0.3)).toEqual(there);
    const past = await stretchOf(0.05, 0.95);
    expect(past?.from).toBeCloseTo(0.95, 2);
    expect(past?.to).toBeCloseTo(0.05, 2);
  });
  test("an end near a corner of the rim stands on it", async () => {
    const { chain, runs } = known.ground.outline;
    const corner = runs.find(({ id }) => id === "shallow-right");
    if (!corner) throw new Error("No corner.");
    const { x, y, tx, ty } = pointAt(chain, corner.from);
    const foot = lineOf("foot");
    /** How far a point of the foot lies along the rim from the corner's beginning, if it lies below it. */
    const off = (part: number) => {
      const p = pointOn(foot.outside, true, part);
      const aside = Math.abs((p[0] - x) * ty - (p[1] - y) * tx);
      return aside < 500 ? Math.abs((p[0] - x) * tx + (p[1] - y) * ty) : Infinity;
    };
    const parts = Array.from({ length: 4000 }, (_, i) => i / 4000);
    const there = parts.reduce((best, part) => (off(part) < off(best) ? part : best));
    const past = there - 30 / foot.lengthMm;
    const place = await along(bandTool, onLine("foot", there + 0.08), onLine("foot", past));
    if (place?.zone.kind !== "band" || !place.zone.stretch) throw new Error("No stretch was offered.");
    expect(off(past)).toBeGreaterThan(10);
    expect(off(place.zone.stretch.from)).toBeLessThan(1);
  });
  test("an end is not moved past the other", () => {
    const zone = {
      kind: "band" as const,
      id: "z",
      on: "a|b",
      stretch: { from: 0.2, to: 0.5 },
      halfWidths: [100, 100] as [number, number],
      plies: 1,
      material: "woven-600",
    };
    const open = { closed: false, lengthMm: 4000 };
    expect(movedEnd(zone, "from", 0.3, open).stretch).toEqual({ from: 0.3, to: 0.5 });
    expect(movedEnd(zone, "from", 0.6, open)).toBe(zone);
    expect(movedEnd(zone, "from", 0.6, { closed: true, lengthMm: 4000 }).stretch).toEqual({
      from: 0.6,
      to: 0.5,
    });
  });
});

describe("rib", () => {
  test("a click on the wall offers a rib at the tape's place above it", () => {
    const place = ribTool.at(known.ground, onWall("left", 0.5));
    if (place?.zone.kind !== "rib" || !("part" in place.zone.at)) throw new Error("No rib was offered.");
    expect(place.zone.at.run).toBe("left");
    // Ribs stand on whole steps of 10 mm.
    const run = known.ground.outline.runs.find(({ id }) => id === "left");
    expect(Math.abs(place.zone.at.part - 0.5) * (run?.length ?? 0)).toBeLessThanOrEqual(5.01);
    expect(ribTool.at(known.ground, { point: [4000, 0, -1700], face: "floor" })).toBeNull();
  });
  test("a drag offers a row at the pitch of the rules, also past the tape's beginning", async () => {
    const row = await along(ribTool, onWall("right", 0.2), onWall("right", 0.7));
    expect(row?.zone).toMatchObject({
      kind: "rib-row",
      pitch: demo.rules.ribs.pitch,
      from: { run: "right" },
    });
    const past = await along(ribTool, onWall("shallow", 0.2), onWall("shallow", 0.8));
    expect(past?.zone).toMatchObject({ kind: "rib-row", from: { run: "shallow" }, to: { run: "shallow" } });
    if (past?.zone.kind !== "rib-row" || !("part" in past.zone.from) || !("part" in past.zone.to)) return;
    expect(past.zone.from.part).toBeLessThan(past.zone.to.part);
  });
});

test.each<[string, Tool, Aim, object | null]>([
  [
    "gussets on a riser stand under its tread",
    gussetsTool,
    { point: [0, 0, 0], face: "steps/riser-1" },
    { under: "steps/tread-1" },
  ],
  ["gussets on a ledge's top", gussetsTool, { point: [0, 0, 0], face: "ledge/top" }, { under: "ledge/top" }],
  ["no gussets on the wall", gussetsTool, { point: [0, 0, 0], face: "wall" }, null],
  ["a pad on a tread", padTool, { point: [0, 0, 0], face: "steps/tread-2" }, { on: "steps/tread-2" }],
  ["no pad on a riser", padTool, { point: [0, 0, 0], face: "steps/riser-2" }, null],
  [
    "a stiffener on a straight run of the coping",
    stiffenerTool,
    { point: [4000, -1950, 0], face: "coping/top" },
    { run: "right" },
  ],
  ["none far down the wall", stiffenerTool, { point: [4000, -1850, -900], face: "wall" }, null],
])("%s", (_, tool, aim, zone) => {
  const place = tool.at(known.ground, aim);
  if (zone === null) expect(place).toBeNull();
  else expect(place?.zone).toMatchObject(zone);
});

test("every place that a tool names is found by pointing as well, and most are laid by core", () => {
  const tools: Record<string, Tool> = { bandTool, ribTool, gussetsTool, padTool, stiffenerTool };
  const offered = Object.values(tools).flatMap((tool): readonly Place[] => tool.places(known.ground));
  expect(new Set(offered.map(({ id, zone }) => `${zone.kind} ${id}`)).size).toBe(offered.length);
  const zones = named(
    { layup: [] },
    offered.map(({ zone }) => zone),
  );
  const tried = known.trials.lay(demo, zones);
  const laid = tried.filter(({ ok }) => ok).length;
  expect(laid / tried.length).toBeGreaterThan(0.75);
  for (const one of tried) if (!one.ok) expect(one.why).toMatch(/\.$/);
});
