import { expect, test } from "vitest";
import { buildOutline } from "../../../core/plan/build-outline.ts";
import { checkProject } from "../../../core/project/parse.ts";
import type { OutlineSpec, Project } from "../../../core/project/schema.ts";
import { work } from "../../../renderer/document/history.ts";
import {
  startingFeature,
  startingOutline,
} from "../../../renderer/places/drawing-office/figures/starting.ts";
import { featureHandles } from "../../../renderer/places/drawing-office/sheets/feature-handles.ts";
import { fittingHandles } from "../../../renderer/places/drawing-office/sheets/fitting-handles.ts";
import { type Handle, onward } from "../../../renderer/places/drawing-office/sheets/handle.ts";
import { nudged } from "../../../renderer/places/drawing-office/sheets/moving.ts";
import { outlineHandles } from "../../../renderer/places/drawing-office/sheets/outline-handles.ts";
import { demoNames, demoProject } from "../../project/demo-files.ts";

/** Finer than any figure that a person sees, mm. */
const FINE = 0.001;

/**
 * A handle lies where it is put: moved by some way that it can go, the project stays valid and the handle made of the changed
 * project is found at that very spot.
 */
function expectToFollow(project: Project, handlesOf: (project: Project) => Handle[], by: number): void {
  const handles = handlesOf(project);
  expect(handles.length).toBeGreaterThan(0);
  expect(new Set(handles.map(({ id }) => id)).size).toBe(handles.length);
  for (const handle of handles) {
    const spot = handle.along
      ? onward(handle.at, handle.along, by)
      : onward(handle.at, { x: 0.8, y: 0.6 }, by);
    const moved = work(project, handle.to(spot, FINE));
    expect(checkProject(moved).ok, handle.name).toBe(true);
    const again = handlesOf(moved).find(({ id }) => id === handle.id);
    expect(again?.at.x, handle.name).toBeCloseTo(spot.x, 1);
    expect(again?.at.y, handle.name).toBeCloseTo(spot.y, 1);
  }
}

const kinds = ["rectangle", "stadium", "round-ended", "ell", "polygon", "freeform", "path"] as const;

function withOutline(outline: (project: Project) => OutlineSpec): Project {
  const project = demoProject("whimbrel-9");
  return work(project, (draft) => {
    draft.shell.outline = outline(project);
  });
}

test.each(kinds)("the handles of a %s outline lie where they are put", (kind) => {
  const project = withOutline(({ shell }) => startingOutline(kind, shell));
  expectToFollow(project, ({ shell }) => outlineHandles(shell), 40);
});

test.each(kinds)("a pool that becomes a %s keeps its length and width", (kind) => {
  const sizeOf = ({ shell }: Project) => {
    const built = buildOutline(shell.outline);
    if (!built.ok) throw new Error("The outline cannot be built.");
    return built.outline.extent;
  };
  const before = sizeOf(demoProject("whimbrel-9"));
  const after = sizeOf(withOutline(({ shell }) => startingOutline(kind, shell)));
  expect(Math.abs(after.length - before.length)).toBeLessThanOrEqual(1);
  expect(Math.abs(after.width - before.width)).toBeLessThanOrEqual(1);
});

test.each(["shallow-right", "deep-right", "deep-left", "shallow-left"] as const)(
  "the handles of an L cut at the %s lie where they are put, and on its rim",
  (cutAt) => {
    const project = withOutline(
      ({ shell }) => ({ ...(startingOutline("ell", shell) as object), cutAt }) as OutlineSpec,
    );
    expectToFollow(project, ({ shell }) => outlineHandles(shell), 40);
  },
);

test("each corner of a rectangle with four radii has its own", () => {
  const project = withOutline(() => ({
    kind: "rectangle",
    length: 8000,
    width: 4000,
    cornerRadius: [200, 300, 400, 500],
  }));
  const radii = outlineHandles(project.shell).filter(({ id }) => id.startsWith("radius"));
  expect(radii.map(({ value }) => value)).toEqual([200, 300, 400, 500]);
  expectToFollow(project, ({ shell }) => outlineHandles(shell), 40);
});

function inPlan(project: Project, handles: (project: Project, outline: never) => Handle[]): Handle[] {
  const built = buildOutline(project.shell.outline);
  if (!built.ok) throw new Error("The outline cannot be built.");
  return handles(project, built.outline as never);
}

test.each(demoNames)("reaches and fittings of %s lie where they are put", (name) => {
  const project = demoProject(name);
  const reaches = (p: Project) =>
    inPlan(p, ({ shell }, outline) =>
      shell.features
        .flatMap((_, i) => featureHandles(shell, outline, i))
        .filter(({ along, id }) => along && id.includes("reach-0")),
    );
  expectToFollow(project, reaches, 30);
  for (const handle of inPlan(project, ({ shell }, outline) => fittingHandles(shell, outline))) {
    const moved = work(project, handle.to(onward(handle.at, handle.along ?? { x: 1, y: 0 }, 60), FINE));
    const again = inPlan(moved, ({ shell }, outline) => fittingHandles(shell, outline)).find(
      ({ id }) => id === handle.id,
    );
    if (!again) throw new Error(`${handle.id} is gone.`);
    // Along a curved rim the chord is a little shorter than the way.
    expect(Math.hypot(again.at.x - handle.at.x, again.at.y - handle.at.y)).toBeGreaterThan(50);
  }
});

test("the ends of a bench move along the rim, and its whole keeps its length", () => {
  const project = work(demoProject("whimbrel-9"), (draft) => {
    const place = {
      kind: "along",
      from: { run: "right", part: 0.3 },
      to: { run: "right", part: 0.7 },
      endRadius: 150,
    } as const;
    draft.shell.features = [{ ...startingFeature("bench", draft.shell), place }];
  });
  const handles = (p: Project) => inPlan(p, ({ shell }, outline) => featureHandles(shell, outline, 0));
  const ends = (p: Project) =>
    handles(p)
      .filter(({ id }) => / (from|to)$/.test(id))
      .map(({ at }) => at.x);
  const [from, to] = ends(project);
  const of = (id: string) => handles(project).find((each) => each.id === `bench ${id}`) as Handle;
  const slid = work(project, of("slide").to(onward(of("slide").at, { x: 1, y: 0 }, 300), 10));
  expect(ends(slid)[0]).toBeCloseTo(from + 300, 0);
  expect(ends(slid)[1]).toBeCloseTo(to + 300, 0);
  const longer = work(project, of("to").to(onward(of("to").at, { x: 1, y: 0 }, 200), 10));
  expect(ends(longer)[0]).toBeCloseTo(from, 0);
  expect(ends(longer)[1]).toBeCloseTo(to + 200, 0);
});

test("an arrow key changes a figure by one grain, whichever way the handle lies", () => {
  const { shell } = demoProject("whimbrel-9");
  const project = demoProject("whimbrel-9");
  for (const handle of outlineHandles(shell)) {
    for (const arrow of [
      { x: 1, y: 0 },
      { x: -1, y: 0 },
      { x: 0, y: 1 },
      { x: 0, y: -1 },
    ]) {
      const moved = work(project, handle.to(nudged(handle, handle.at, arrow, 10), 10));
      const again = outlineHandles(moved.shell).find(({ id }) => id === handle.id) as Handle;
      expect(Math.abs(again.value - handle.value), handle.name).toBeCloseTo(10, 6);
    }
  }
});

test("a figure stops at the limit of the file", () => {
  const project = demoProject("whimbrel-9");
  const length = outlineHandles(project.shell).find(({ id }) => id === "length") as Handle;
  const moved = work(project, length.to({ x: 99_000, y: 0 }, 10));
  expect(moved.shell.outline).toMatchObject({ length: 15_000 });
});
