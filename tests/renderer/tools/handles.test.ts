import { beforeAll, expect, test } from "vitest";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { type Handle, handlesOf } from "../../../renderer/tools/handles.ts";
import { figureNear, pointAtFigure } from "../../../renderer/tools/ruler.ts";
import { demoProject } from "../../project/demo-files.ts";
import { footBand } from "./foot-band.ts";
import { groundOf } from "./ground.ts";

const demo = demoProject("dunlin-4");
let known: Awaited<ReturnType<typeof groundOf>>;
beforeAll(async () => {
  known = await groundOf(demo);
});

function handles(zone: ZoneSpec): Handle[] {
  const [tried] = known.trials.lay(demo, [zone]);
  if (!tried.ok) throw new Error(tried.why);
  const { shell, ground } = known;
  return handlesOf(zone, tried.zone, { project: demo, shell, lines: ground.lines, eye: [0, -9000, -3000] });
}
const called = (all: readonly Handle[], id: string): Handle => {
  const found = all.find((each) => each.id === id);
  if (!found) throw new Error(`No handle ${id}.`);
  return found;
};
test("a whole loop has a handle for each edge, a part of it one for each end as well", () => {
  expect(handles(footBand()).map(({ id }) => id)).toEqual(["edge 0", "edge 1"]);
  expect(handles(footBand({ from: 0.2, to: 0.4 })).map(({ id }) => id)).toEqual([
    "edge 0",
    "edge 1",
    "from",
    "to",
  ]);
});

test("on a short band the handles of its edges keep clear of those of its ends, from wherever one looks", () => {
  const all = handles(footBand({ from: 0.2, to: 0.24 }));
  const place = (id: string) => {
    const { ruler, value } = called(all, id);
    return pointAtFigure(ruler, value);
  };
  const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((p, k) => p - b[k]));
  const length = apart(place("from"), place("to"));
  const line = pointAtFigure(called(all, "edge 0").ruler, 0);
  for (const end of ["from", "to"]) expect(apart(line, place(end))).toBeGreaterThan(0.2 * length);
});

test("the ruler across a band is as long as its half widths, along the surface", () => {
  const { ruler } = called(handles(footBand()), "edge 0");
  let length = 0;
  let before = pointAtFigure(ruler, -310);
  for (let figure = -309; figure <= 260; figure++) {
    const at = pointAtFigure(ruler, figure);
    length += Math.hypot(...at.map((p, k) => p - before[k]));
    before = at;
  }
  // Chords of the drawing's columns, 30 mm and less on a radius of some 200 mm.
  expect(length / 570).toBeGreaterThan(0.99);
  expect(length / 570).toBeLessThanOrEqual(1.0001);
});

test("an edge dragged to a place has the half width of that place, on steps of 5 mm unless fine", () => {
  const zone = footBand();
  const [up, onto] = handles(zone);
  expect(up.moved(zone, 187.2, false)).toMatchObject({ halfWidths: [185, 310] });
  expect(up.moved(zone, 187.2, true)).toMatchObject({ halfWidths: [187, 310] });
  expect(onto.moved(zone, -412, false)).toMatchObject({ halfWidths: [260, 410] });
  expect(up.moved(zone, 9000, false)).toMatchObject({ halfWidths: [1500, 310] });
});

test("an edge catches on the half width of another band", () => {
  const zone = footBand();
  const other = demo.layup.flatMap((each) => (each.kind === "band" ? each.halfWidths : []))[0];
  const [up] = handles(zone);
  expect(up.moved(zone, other + 4, false)).toMatchObject({ halfWidths: [other, 310] });
});

test("ends of a part move along the line, also past its beginning, and not past each other", () => {
  const zone = footBand({ from: 0.2, to: 0.4 });
  const to = called(handles(zone), "to");
  const moved = to.moved(zone, 1.05, true);
  expect(moved.kind === "band" && moved.stretch?.from).toBe(0.2);
  expect(to.moved(zone, 0.2, true)).toBe(zone);
  expect(to.mm(1.25)).toBeCloseTo(to.mm(0.25), 6);
});

test("a rib slides along the tape, and a row by its ends and as a whole", () => {
  const rib: ZoneSpec = {
    kind: "rib",
    id: "z",
    at: { run: "left", part: 0.5 },
    top: 60,
    foot: { kind: "over", onto: 100 },
    material: "rib-strip",
  };
  const [at] = handles(rib);
  const there = at.moved(rib, at.value + 333, false);
  const [after] = handles(there);
  expect(after.value % 10).toBeCloseTo(0, 1);
  expect(after.value - at.value).toBeGreaterThan(325);
  expect(after.value - at.value).toBeLessThan(341);
  const row: ZoneSpec = {
    kind: "rib-row",
    id: "z",
    from: { run: "left", part: 0.1 },
    to: { run: "left", part: 0.9 },
    pitch: 500,
    clear: 100,
    top: 60,
    foot: { kind: "over", onto: 100 },
    material: "rib-strip",
  };
  const knobs = handles(row);
  expect(knobs.map(({ id }) => id)).toEqual(["from", "to", "whole"]);
  const shorter = called(knobs, "to").moved(row, called(knobs, "to").value - 400, false);
  expect(shorter).toMatchObject({ from: row.from });
  const slid = called(knobs, "whole").moved(row, called(knobs, "whole").value + 200, false);
  const [from, to] = handles(slid);
  expect(to.value - from.value).toBeCloseTo(called(knobs, "to").value - called(knobs, "from").value, 0);
});

test("on a round ruler the far side is never caught", () => {
  // A square seen edge on: both long sides fall on one line of the picture.
  const ruler = {
    points: Float32Array.from([0, 0, 0, 100, 0, 0, 100, 100, 0, 0, 100, 0]),
    figures: Float64Array.from([0, 100, 200, 300]),
    round: 400,
  };
  const seen = Float64Array.from([0, 0, 100, 0, 100, 0, 0, 0]);
  expect(figureNear(ruler, seen, { x: 30, y: 0 }, 40, 60)).toBeCloseTo(30);
  expect(figureNear(ruler, seen, { x: 30, y: 0 }, 260, 60)).toBeCloseTo(270);
  expect(figureNear(ruler, seen, { x: 30, y: 0 }, 440, 60)).toBeCloseTo(430);
  expect(pointAtFigure(ruler, 350)).toEqual([0, 50, 0]);
  expect(pointAtFigure(ruler, -50)).toEqual([0, 50, 0]);
});
