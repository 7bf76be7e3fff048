import { beforeAll, describe, expect, test } from "vitest";
import { around } from "../../core/layup/rim-marks.ts";
import { placeOnTape } from "../../core/layup/tape.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { strokeLines } from "../../renderer/places/lay-up-floor/tape/draw-ghost.ts";
import type { Point } from "../../renderer/places/lay-up-floor/tape/flat-lines.ts";
import { bandEnd, dragged, type Ground, gripAt } from "../../renderer/places/lay-up-floor/tape/grips.ts";
import { stationOfEnd, withStation } from "../../renderer/places/lay-up-floor/tape/rim-ends.ts";
import { boardOf } from "../../renderer/places/lay-up-floor/tape/shown.ts";
import { aimOnTape } from "../../renderer/places/lay-up-floor/tape/tape-aim.ts";
import {
  partNear,
  partsAlong,
  placeAtPart,
  stretchOn,
  type Track,
  trackOf,
} from "../../renderer/places/lay-up-floor/tape/track.ts";
import { bandTool, slidBand } from "../../renderer/tools/band.ts";
import { freeBandTool } from "../../renderer/tools/free-band.ts";
import { gussetsTool } from "../../renderer/tools/gussets.ts";
import { pointOn } from "../../renderer/tools/line-place.ts";
import { padTool } from "../../renderer/tools/pad.ts";
import { ribTool } from "../../renderer/tools/rib.ts";
import { stationOf } from "../../renderer/tools/rim-places.ts";
import { stiffenerTool } from "../../renderer/tools/stiffener.ts";
import type { Aim } from "../../renderer/tools/tool.ts";
import { demoProject } from "../project/demo-files.ts";
import { tapeOf } from "./tape-of.ts";
import { footBand } from "./tools/foot-band.ts";
import { groundOf } from "./tools/ground.ts";

// The tape is painted on with the very tools of the scene: what is pointed at on it must be the same place of the shell.

const demo = demoProject("dunlin-4");
let known: Awaited<ReturnType<typeof groundOf>>;
let results: ReturnType<typeof tapeOf>;
let onTape: Ground;
let track: Track;
beforeAll(async () => {
  known = await groundOf(demo);
  results = tapeOf(demo, known.stages);
  onTape = groundAt("wall");
  track = trackOf(onTape.board, foot(), known.ground.outline)!;
});

function groundAt(shown: string): Ground {
  const board = boardOf(results, shown);
  if (!board) throw new Error("There is no tape.");
  return { project: demo, outline: known.ground.outline, lines: known.ground.lines, board };
}
const foot = () => known.ground.lines.find(({ id }) => id === "foot")!;
const aimAt = (point: Point, ground = onTape) => aimOnTape(ground.board, point, ground.outline, ground.lines);

describe("a line of the shell on the tape", () => {
  const parts = Array.from({ length: 40 }, (_, i) => (i + 0.5) / 40);

  test("each part of the foot lies below its own station of the rim, and is found again there", () => {
    const { chain } = onTape.outline;
    for (const part of parts) {
      const place = placeAtPart(track, part)!;
      const [x, y] = pointOn(foot().outside, true, part);
      expect(Math.abs(around(nearest(chain, x, y).station - place.along, chain.length))).toBeLessThan(5);
      const found = partNear(track, place);
      expect(found.off).toBeLessThan(1e-6);
      expect(Math.abs(around(found.part - part, 1)) * foot().lengthMm).toBeLessThan(1);
      expect(partsAlong(track, place.along).some((each) => Math.abs(around(each - part, 1)) < 1e-3)).toBe(
        true,
      );
    }
  });

  test("a stretch and the rest of the loop make up the whole, also past the shallow centre", () => {
    const long = (lines: readonly (readonly number[])[]) =>
      lines.reduce((sum, line) => {
        for (let i = 2; i < line.length; i += 2)
          sum += Math.hypot(line[i] - line[i - 2], line[i + 1] - line[i - 1]);
        return sum;
      }, 0);
    const whole = long(stretchOn(track));
    for (const [from, to] of [
      [0.2, 0.55],
      [0.9, 0.1],
    ]) {
      const [some, rest] = [
        long(stretchOn(track, { from, to })),
        long(stretchOn(track, { from: to, to: from })),
      ];
      expect(some + rest).toBeCloseTo(whole, 3);
      expect(some).toBeLessThan(0.5 * whole);
    }
  });
});

describe("what is pointed at on the tape", () => {
  test("at the foot it is the foot: a click offers the whole loop, a drag the stretch between its ends", async () => {
    const at = (part: number) => aimAt(placeAtPart(track, part)!)!;
    for (const part of [0.1, 0.35, 0.6, 0.85]) {
      const off = pointOn(foot().outside, true, part).map((p, k) => p - at(part).point[k]);
      expect(Math.hypot(...off)).toBeLessThan(8);
    }
    expect(bandTool.at(known.ground, at(0.35))?.zone).toMatchObject({ kind: "band", on: "foot" });
    const [from, to] = [at(0.3), at(0.4)];
    const place = await bandTool.along?.(known.ground, from, to, [from, to]);
    if (place?.zone.kind !== "band" || !place.zone.stretch) throw new Error("No stretch was offered.");
    // Ends stand on steps of 10 mm, or on what they catch on.
    expect(Math.abs(place.zone.stretch.from - 0.3) * foot().lengthMm).toBeLessThan(85);
    expect(Math.abs(place.zone.stretch.to - 0.4) * foot().lengthMm).toBeLessThan(85);
  });

  test("on the wall a rib stands where the tape is pointed at, wherever along it", () => {
    for (let along = 340; along < onTape.board.wall.rimLengthMm; along += 800) {
      const place = ribTool.at(known.ground, aimAt({ along, down: 350 })!);
      if (place?.zone.kind !== "rib") throw new Error("No rib was offered.");
      expect(stationOf(onTape.outline, place.zone.at)).toBeCloseTo(along, 1);
    }
  });

  test("on the coping it is the run below: a stiffener is offered there; beyond it there is nothing", () => {
    const run = onTape.board.wall.runs.find(({ id }) => id === "right")!;
    const along = run.from + run.length / 2;
    expect(stiffenerTool.at(known.ground, aimAt({ along, down: -60 })!)?.zone).toMatchObject({
      run: "right",
    });
    expect(aimAt({ along, down: -5000 })).toBeNull();
  });

  test("a stroke of the free band is told by the places of the tape, and core finds the same points there", async () => {
    const run = onTape.board.wall.runs.find(({ id }) => id === "left")!;
    const path = [0.2, 0.5, 0.8].map((part, i) => {
      const along = run.from + part * run.length;
      return { along, down: [200, 350, 200][i] };
    });
    const aims = path.map((point) => aimAt(point)!);
    const ground = { ...known.ground, placesOf: () => Promise.reject(new Error("The places are known.")) };
    const place = await freeBandTool.along?.(ground, aims[0], aims[2], aims);
    if (place?.zone.kind !== "stroke") throw new Error("No free band was offered.");
    expect(place.zone.path).toHaveLength(3);
    const points = known.trials.points(demo, place.zone.path);
    points.forEach((point, i) => {
      if (!point) throw new Error("A place was lost.");
      const read = placeOnTape(results.site, point);
      expect(read.station).toBeCloseTo(path[i].along, 0);
      // The tape's foot is drawn within 2 mm.
      expect(Math.abs(read.downMm! - path[i].down)).toBeLessThan(2.5);
    });
  });

  test("a stroke drawn in the scene is shown where the tape has its places, on past the shallow centre, and left out where it has none", async () => {
    const { rimLengthMm, runs } = onTape.board.wall;
    const middle = runs.find(({ id }) => id === "left")!;
    const along = middle.from + middle.length / 2;
    const shell = [-300, 0, 250].map((by, i) => ({ along: along + by, down: [200, 350, 260][i] }));
    // As the scene knows them: points of the surface, with no place by name yet.
    const points = known.trials.points(
      demo,
      shell.map((point) => aimAt(point)!.place!),
    );
    const aims = points.map((point) => ({ point: point!, face: "wall" }));
    const placesOf = async (asked: readonly Aim[]) => known.trials.places(demo, asked);
    const offered = await freeBandTool.along?.({ ...known.ground, placesOf }, aims[0], aims[2], aims);
    if (offered?.zone.kind !== "stroke") throw new Error("No free band was offered.");
    const [line, ...others] = strokeLines(onTape, offered.zone);
    expect(others).toEqual([]);
    expect(line).toHaveLength(3);
    line.forEach((point, i) => {
      expect(Math.abs(point.along - shell[i].along)).toBeLessThan(1);
      expect(Math.abs(point.down - shell[i].down)).toBeLessThan(3);
    });
    const wall = (at: number) => aimAt({ along: at, down: 200 })!.place!;
    const tread = results.tape!.faces[0];
    const onTread = { face: tread.id, alongPart: 0.25, acrossPart: 0.5 };
    const [round] = strokeLines(onTape, { path: [wall(rimLengthMm - 100), wall(150)] });
    expect(round[1].along - round[0].along).toBeCloseTo(250, 0);
    expect(
      strokeLines(onTape, { path: [wall(9000), wall(9200), onTread, wall(9400), wall(9500)] }),
    ).toHaveLength(2);
    const ground = groundAt(tread.id);
    const [flat] = strokeLines(ground, { path: [onTread, { ...onTread, alongPart: 0.75 }] });
    for (const [i, point] of flat.entries()) {
      const aim = aimAt(point, ground)!;
      expect(aim.place).toMatchObject({ alongPart: [0.25, 0.75][i], acrossPart: 0.5 });
    }
  });

  test("on a level face laid flat it is that face, and its edges are lines of the shell", () => {
    let edges = 0;
    for (const face of results.tape!.faces) {
      const ground = groundAt(face.id);
      const middle = { along: face.alongMm / 2, down: face.acrossMm / 2 };
      const aim = aimAt(middle, ground);
      if (!aim) continue;
      expect(padTool.at(known.ground, aim)?.zone).toMatchObject({ kind: "pad", on: face.id });
      expect(gussetsTool.at(known.ground, aim)?.zone).toMatchObject({ under: face.id });
      expect(aimAt({ along: -900, down: -900 }, ground)).toBeNull();
      for (const { id } of face.bounds) {
        const view = known.ground.lines.find((each) => each.id === id)!;
        if (view.kind === "stretch" || !known.ground.bands[id]) continue;
        const own = trackOf(ground.board, view, ground.outline)!;
        const at = placeAtPart(own, 0.5)!;
        const point = pointOn(view.outside, view.closed, 0.5);
        const there = aimAt(at, ground)!.point;
        expect(Math.hypot(point[0] - there[0], point[1] - there[1])).toBeLessThan(10);
        edges++;
      }
    }
    expect(edges).toBeGreaterThan(3);
  });
});

describe("the ends of a part of a band", () => {
  test("are got hold of where they lie, and go where they are dragged", () => {
    const zone = footBand({ from: 0.3, to: 0.42 });
    const ground = { ...onTape, project: { ...demo, layup: [...demo.layup, zone] } };
    const end = bandEnd(zone, "to", ground)!;
    expect(gripAt(ground, ["z"], { along: end.along + 3, down: end.down - 2 }, 10)).toEqual({
      kind: "end",
      zone: "z",
      end: "to",
    });
    expect(gripAt(ground, [], end, 10)).toBeNull();
    const wanted = placeAtPart(track, 0.47)!;
    const free = dragged({ kind: "end", zone: "z", end: "to" }, zone, ground, end, wanted, true);
    if (free.kind !== "band" || !free.stretch) throw new Error("No part of a band.");
    expect(free.stretch.from).toBe(0.3);
    expect(free.stretch.to * foot().lengthMm).toBeCloseTo(0.47 * foot().lengthMm, 0);
    const passed = placeAtPart(track, 0.25)!;
    const grip = { kind: "end", zone: "z", end: "from" } as const;
    expect(dragged(grip, zone, ground, end, placeAtPart(track, 0.419)!, true)).toBe(zone);
    expect(dragged(grip, zone, ground, end, passed, true)).toMatchObject({ stretch: { to: 0.42 } });
  });

  test("move together where its middle is dragged: round a loop, as long as before, in whole steps", () => {
    const zone = footBand({ from: 0.93, to: 0.04 });
    const ground = { ...onTape, project: { ...demo, layup: [...demo.layup, zone] } };
    const { lengthMm } = foot();
    const middle = placeAtPart(track, 0.985)!;
    const grip = { kind: "slide", zone: "z" } as const;
    for (const [free, wanted] of [
      [true, 0.1234],
      [false, 0.4],
      [true, 0.8],
    ] as const) {
      const after = dragged(grip, zone, ground, middle, placeAtPart(track, wanted)!, free);
      if (after.kind !== "band" || !after.stretch) throw new Error("No part of a band.");
      const { from, to } = after.stretch;
      expect(around(to - from, 1) * lengthMm).toBeCloseTo(0.11 * lengthMm, 1);
      const by = around(from - 0.93, 1) * lengthMm;
      // What is read off the tape is as fine as its drawing.
      expect(Math.abs(by - around(wanted - 0.985, 1) * lengthMm)).toBeLessThan(free ? 2 : 7);
      if (!free) expect(Math.abs(by - 10 * Math.round(by / 10))).toBeLessThan(0.1);
    }
    // It is got hold of where it is drawn, once it is chosen; a whole loop is not.
    const { along, down } = middle;
    const box = { x0: along - 300, x1: along + 300, y0: down - 200, y1: down + 200 };
    const outline = [box.x0, box.y0, box.x1, box.y0, box.x1, box.y1, box.x0, box.y1];
    const cloth = {
      name: "",
      pattern: "weave",
      upright: false,
      outline,
      line: [],
      edges: null,
      plies: [],
      box,
      shifts: [0],
    } as const;
    const board = { ...onTape.board, placed: [{ ...cloth, zone: "z" }] };
    const held = (band: typeof zone, chosen: string[]) =>
      gripAt({ ...onTape, board, project: { ...demo, layup: [band] } }, chosen, middle, 10);
    expect(held(zone, ["z"])).toEqual(grip);
    expect(held(zone, [])).toBeNull();
    expect(held(footBand(), ["z"])).toBeNull();
    // On an open line it goes no further than that.
    const open = { closed: false };
    expect(slidBand(footBand({ from: 0.2, to: 0.7 }), 0.5, open).stretch).toEqual({ from: 0.5, to: 1 });
    expect(slidBand(footBand({ from: 0.2, to: 0.7 }), -0.5, open).stretch).toEqual({ from: 0, to: 0.5 });
    expect(slidBand(footBand(), 0.5, open)).toEqual(footBand());
  });

  test("a whole loop has none", () => {
    expect(bandEnd(footBand(), "from", onTape)).toBeNull();
    expect(stationOfEnd(footBand(), "from", onTape)).toBeNull();
  });

  test("stand where they are typed along the rim; where there is no such place it is said", () => {
    const zone = footBand({ from: 0.3, to: 0.42 });
    for (const by of [-400, 250, 700]) {
      const station = stationOfEnd(zone, "to", onTape)! + by;
      const moved = withStation(zone, "to", station, onTape);
      if (moved?.kind !== "band") throw new Error("The end was not moved.");
      expect(stationOfEnd(moved, "to", onTape)).toBeCloseTo(station, 1);
      expect(moved.stretch?.from).toBe(0.3);
    }
    const start = stationOfEnd(zone, "from", onTape)!;
    expect(withStation(zone, "to", start + 10, onTape)).toBeNull();
  });
});
