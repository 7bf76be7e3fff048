import { expect, test } from "vitest";
import { pointAt } from "../../../core/plan/point-at.ts";
import { checkProject } from "../../../core/project/parse.ts";
import type { Project } from "../../../core/project/schema.ts";
import { buildShell } from "../../../core/shell/build-shell.ts";
import { work } from "../../../renderer/document/history.ts";
import { insideLine, levelsOf } from "../../../renderer/places/drawing-office/sheets/drawn-section.ts";
import { type Drawn, drawShell } from "../../../renderer/places/drawing-office/sheets/drawn-shell.ts";
import {
  addingStation,
  floorHandles,
  removingStation,
} from "../../../renderer/places/drawing-office/sheets/floor-handles.ts";
import { onward } from "../../../renderer/places/drawing-office/sheets/handle.ts";
import { treadHandles } from "../../../renderer/places/drawing-office/sheets/tread-handles.ts";
import { demoNames, demoProject } from "../../project/demo-files.ts";

function drawn({ shell }: Project): Drawn {
  const made = drawShell(shell);
  if (!made) throw new Error("The outline cannot be built.");
  return made;
}

test.each(demoNames)("the handles of the section of %s lie where they are put", (name) => {
  const project = demoProject(name);
  const handles = floorHandles(project.shell, drawn(project));
  expect(handles.length).toBeGreaterThan(1);
  for (const handle of handles) {
    const spot = onward(handle.at, handle.along ?? { x: 0.8, y: -0.6 }, 15);
    const moved = work(project, handle.to(spot, 0.001));
    expect(checkProject(moved).ok, handle.name).toBe(true);
    const again = floorHandles(moved.shell, drawn(moved)).find(({ id }) => id === handle.id);
    expect(again?.at.x, handle.name).toBeCloseTo(spot.x, 1);
    expect(again?.at.y, handle.name).toBeCloseTo(spot.y, 1);
  }
});

test.each(demoNames)(
  "the depths of what the section of %s shows of treads, benches and ledges follow their handles",
  (name) => {
    const project = demoProject(name);
    for (const { id: chosen } of project.shell.features) {
      const handles = treadHandles(project.shell, drawn(project), chosen);
      expect(new Set(handles.map(({ id }) => id)).size).toBe(handles.length);
      const own = handles.filter(({ id }) => id.startsWith(`${chosen} `));
      expect(own.length, chosen).toBeGreaterThan(0);
      for (const handle of own) {
        const moved = work(project, handle.to(onward(handle.at, { x: 0.6, y: -0.8 }, 25), 10));
        expect(checkProject(moved).ok, handle.name).toBe(true);
        const again = treadHandles(moved.shell, drawn(moved), chosen).find(({ id }) => id === handle.id);
        // It only goes down, by whole grains; along it stays where the tread is seen.
        expect(again?.value, handle.name).toBe(Math.round((handle.value + 20) / 10) * 10);
        expect(Math.abs((again?.at.x ?? Number.NaN) - handle.at.x), handle.name).toBeLessThan(60);
      }
    }
  },
);

test("every tread of Whimbrel 9 that the centre line cuts has its handle, and its seat", () => {
  const project = demoProject("whimbrel-9");
  const ids = treadHandles(project.shell, drawn(project), null).map(({ id }) => id);
  expect(ids).toEqual(["ledge depth-0", "steps depth-0", "steps depth-1", "steps depth-2", "seat depth-0"]);
});

// The field of the shell itself is what the section is held against: it must be cut where the field is zero.
test.each(demoNames)("the section of %s without its features runs on the shell's own surface", (name) => {
  const project = work(demoProject(name), (draft) => {
    draft.shell.features = [];
    draft.shell.fittings = [];
    draft.shell.radii.pairs = [];
    draft.layup = [];
    // The valleys of a hopper are rounded; the section has them sharp.
    delete draft.shell.floor.hopper;
  });
  const made = drawn(project);
  const built = buildShell(project.shell);
  if (!built.ok || !made.floor) throw new Error("It cannot be built.");
  const inside = insideLine(project.shell, made, made.floor);
  if (!inside) throw new Error("The cove found no room.");
  const rim = project.shell.coping.rimRadius + 20;
  let looked = 0;
  for (let s = 0; s < inside.length; s += 40) {
    const { x, y } = pointAt(inside, s);
    if (y > -rim) continue;
    looked++;
    // A freeform end is not square to the centre line, so that its wall stands a little further along.
    const near = name === "turnstone-7" ? 3 : 0.05;
    expect(Math.abs(built.shell.field.evaluate(x, made.cut.y, y)), `${x}, ${y}`).toBeLessThan(near);
  }
  expect(looked).toBeGreaterThan(60);
});

test("treads show where the centre line cuts them, and those beside it as beside it", () => {
  const whimbrel = levelsOf(drawn(demoProject("whimbrel-9")));
  const { shell } = demoProject("whimbrel-9");
  const ledge = shell.features.find(({ id }) => id === "ledge");
  const top = whimbrel.find(({ block }) => block.top === "ledge/top");
  expect(top?.cut).toBe(true);
  expect(top?.from).toBeCloseTo(0, 0);
  expect(top?.to).toBeCloseTo(ledge && "reach" in ledge ? ledge.reach : Number.NaN, 0);
  const dunlin = levelsOf(drawn(demoProject("dunlin-4")));
  expect(dunlin.filter(({ block }) => block.feature.startsWith("bench")).map(({ cut }) => cut)).toEqual([
    false,
    false,
  ]);
});

test("the section is cut where the pool is long, also where the centre line misses a leg of it", () => {
  expect(drawn(demoProject("whimbrel-9")).cut).toMatchObject({ y: 0 });
  const project = work(demoProject("gannet-11"), ({ shell }) => {
    if (shell.outline.kind === "ell") shell.outline.cutWidth = 2700;
  });
  const { y, from, to } = drawn(project).cut;
  // The cut is on the left, so the pool is whole on the right, where y is negative.
  expect(y).toBeLessThan(-300);
  expect(from).toBeCloseTo(0, 1);
  expect(to).toBeCloseTo(11_000, 1);
});

test("stations come in their order, not too close, and the last one stays", () => {
  const project = demoProject("whimbrel-9");
  const stationsAfter = (recipe: ReturnType<typeof addingStation>) =>
    recipe && work(project, recipe).shell.floor.stations.map(({ at }) => at);
  expect(stationsAfter(addingStation(project.shell.floor, 5000.4, 1600))).toEqual([
    0, 3400, 5000, 6800, 9100,
  ]);
  expect(addingStation(project.shell.floor, 3405, 1400)).toBeNull();
  expect(stationsAfter(removingStation(project.shell.floor, 1))).toEqual([0, 6800, 9100]);
  expect(removingStation(demoProject("dunlin-4").shell.floor, 0)).toBeNull();
});
