import fc from "fast-check";
import { expect, test } from "vitest";
import { checkProject } from "../../core/project/parse.ts";
import type { Project } from "../../core/project/schema.ts";
import type { Recipe } from "../../renderer/document/history.ts";
import { makeProjectStore } from "../../renderer/document/project-store.ts";
import { seedCount } from "../house/seeds.ts";
import { demoProject } from "../project/demo-files.ts";
import { type Act, act, recipeOf } from "./random-edits.ts";

/** The oracle: a history of whole copies, with no patches. */
class Copies {
  private readonly line: string[];
  private at = 0;
  constructor(project: Project) {
    this.line = [JSON.stringify(project)];
  }
  get now(): string {
    return this.line[this.at];
  }
  /** Whether it changed anything. */
  step(change: Recipe): boolean {
    const draft = JSON.parse(this.now);
    change(draft);
    const text = JSON.stringify(draft);
    if (text === this.now || !checkProject(draft).ok) return false;
    this.line.splice(this.at + 1, Number.POSITIVE_INFINITY, text);
    this.at++;
    return true;
  }
  /** Whether there is more to do again. */
  get behind(): boolean {
    return this.at < this.line.length - 1;
  }
  undo(): void {
    this.at = Math.max(0, this.at - 1);
  }
  redo(): void {
    this.at = Math.min(this.line.length - 1, this.at + 1);
  }
}

/** Does acts one after the other; the project is at every step what whole copies say. Gives back how many changed it. */
function doAll(demo: Project, acts: readonly Act[]): number {
  const store = makeProjectStore(demo);
  const copies = new Copies(demo);
  const now = () => store.state.getState().project;
  let changes = 0;
  for (const one of acts) {
    if (one.kind === "undo") {
      store.undo();
      copies.undo();
    } else if (one.kind === "redo") {
      store.redo();
      copies.redo();
    } else if (one.kind === "edit") {
      const recipe = recipeOf(now(), one.change);
      store.edit("Change it", recipe);
      changes += copies.step(recipe) ? 1 : 0;
    } else {
      const before = now();
      const drag = store.drag("Drag it");
      let shown: Recipe | null = null;
      for (const each of one.changes) {
        const recipe = recipeOf(before, each);
        if (drag.show(recipe).ok) shown = recipe;
      }
      if (one.kept) drag.keep();
      else drag.drop();
      if (one.kept && shown) changes += copies.step(shown) ? 1 : 0;
    }
    const { project, history, dragging } = store.state.getState();
    expect(JSON.stringify(project)).toBe(copies.now);
    expect(history.project).toBe(project);
    expect(dragging).toBeNull();
  }
  while (store.state.getState().history.done.length > 0) store.undo();
  expect(now()).toBe(demo);
  while (store.state.getState().history.undone.length > 0) store.redo();
  while (copies.behind) copies.redo();
  expect(JSON.stringify(now())).toBe(copies.now);
  return changes;
}

test("whatever is done, undone and done again, the project is what whole copies say", () => {
  const demo = demoProject("dunlin-4");
  fc.assert(
    fc.property(fc.array(act, { maxLength: 40 }), (acts) => {
      doAll(demo, acts);
    }),
    { numRuns: seedCount(25), seed: 20260 },
  );
});

test("2,000 edits in a row, undone and done again in between: the project is its replay at every step", () => {
  const [acts] = fc.sample(fc.array(act, { minLength: 2000, maxLength: 2000, size: "max" }), {
    numRuns: 1,
    seed: 1130,
  });
  expect(acts).toHaveLength(2000);
  // Enough of them must be changes that the store took.
  expect(doAll(demoProject("dunlin-4"), acts)).toBeGreaterThan(600);
});

test("a drag is one step, shows what it does, and a new edit keeps it first", () => {
  const store = makeProjectStore(demoProject("whimbrel-9"));
  const { state } = store;
  const lengthen = (by: number): Recipe => {
    return (draft) => {
      if ("length" in draft.shell.outline) draft.shell.outline.length += by;
    };
  };
  const lengthOf = () => {
    const { outline } = state.getState().project.shell;
    return "length" in outline ? outline.length : Number.NaN;
  };
  const drag = store.drag("Change the length");
  for (const by of [10, 20, 30]) drag.show(lengthen(by));
  expect(lengthOf()).toBe(9130);
  expect(state.getState().dragging).toBe("Change the length");
  expect(drag.show(lengthen(90_000)).ok).toBe(false);
  expect(lengthOf()).toBe(9130);
  expect(state.getState().history.done).toHaveLength(0);
  store.edit("Rename", (draft) => {
    draft.name = "Whimbrel 9 long";
  });
  expect(state.getState().history.done.map((step) => step.name)).toEqual(["Change the length", "Rename"]);
  drag.show(lengthen(500));
  expect(lengthOf()).toBe(9130);
  store.undo();
  store.undo();
  expect(state.getState().project).toEqual(demoProject("whimbrel-9"));
  store.redo();
  expect(lengthOf()).toBe(9130);
});

test("a change that would not be valid is refused with its reason, and leaves no step", () => {
  const store = makeProjectStore(demoProject("whimbrel-9"));
  const before = store.state.getState().project;
  const edited = store.edit("Change the draft", (draft) => {
    draft.shell.draftDeg = 45;
  });
  expect(edited).toMatchObject({ ok: false, problems: [{ path: "shell.draftDeg", found: "45" }] });
  expect(store.state.getState().project).toBe(before);
  expect(store.state.getState().history.done).toHaveLength(0);
});

test("what a recipe gives back does not matter: push gives a number, splice what it took out", () => {
  const store = makeProjectStore(demoProject("whimbrel-9"));
  const fittings = () => store.state.getState().project.shell.fittings.length;
  const before = fittings();
  expect(store.edit("Take out a fitting", (draft) => draft.shell.fittings.splice(0, 1))).toEqual({
    ok: true,
  });
  expect(fittings()).toBe(before - 1);
  store.undo();
  const added = (draft: Project) => draft.shell.fittings.push({ ...draft.shell.fittings[0], id: "one-more" });
  expect(store.edit("Add a fitting", added)).toEqual({ ok: true });
  expect(fittings()).toBe(before + 1);
});
