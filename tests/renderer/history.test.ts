import fc from "fast-check";
import { expect, test } from "vitest";
import { printProject } from "../../core/project/print.ts";
import type { Project } from "../../core/project/schema.ts";
import type { Recipe } from "../../renderer/document/history.ts";
import { makeProjectStore } from "../../renderer/document/project-store.ts";
import { seedCount } from "../house/seeds.ts";
import { demoProject } from "../project/demo-files.ts";

/** What a person may do, as data: a change of the document, a drag that is kept or dropped, a step back or forward. */
type Act =
  | { readonly kind: "edit"; readonly change: Change }
  | { readonly kind: "drag"; readonly changes: readonly Change[]; readonly kept: boolean }
  | { readonly kind: "undo" }
  | { readonly kind: "redo" };

interface Change {
  readonly what: "length" | "width" | "station" | "name" | "drop zone" | "copy zone" | "half width" | "swap";
  readonly pick: number;
  readonly by: number;
}

const recipe =
  ({ what, pick, by }: Change): Recipe =>
  (draft) => {
    const { outline, floor } = draft.shell;
    const zone = draft.layup[pick % Math.max(1, draft.layup.length)];
    // Some of these leave the allowed range or break a reference: then nothing may change.
    if (what === "length" && "length" in outline) outline.length += by;
    if (what === "width" && "width" in outline) outline.width += by;
    if (what === "station") floor.stations[pick % floor.stations.length].depth += by;
    if (what === "name") draft.name = `${draft.name.slice(0, 40)} ${pick}`;
    if (what === "drop zone") draft.layup.splice(pick % Math.max(1, draft.layup.length), 1);
    if (what === "copy zone" && zone) {
      const copy: typeof zone = JSON.parse(JSON.stringify(zone));
      draft.layup.splice(pick % draft.layup.length, 0, { ...copy, id: `copy-${pick}` });
    }
    if (what === "half width" && zone?.kind === "band") zone.halfWidths[pick % 2] += by;
    if (what === "swap" && draft.layup.length > 1) draft.layup.reverse();
  };

const change: fc.Arbitrary<Change> = fc.record({
  what: fc.constantFrom("length", "width", "station", "name", "drop zone", "copy zone", "half width", "swap"),
  pick: fc.nat(400),
  by: fc.integer({ min: -900, max: 900 }),
});
const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 5, arbitrary: fc.record({ kind: fc.constant("edit" as const), change }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant("drag" as const),
      changes: fc.array(change, { maxLength: 5 }),
      kept: fc.boolean(),
    }),
  },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant("undo" as const) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("redo" as const) }) },
);

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
  step(change: (draft: Project) => void): void {
    const draft = JSON.parse(this.now);
    change(draft);
    let text: string;
    try {
      text = JSON.stringify(JSON.parse(printProject(draft)));
    } catch {
      return;
    }
    if (text === this.now) return;
    this.line.splice(this.at + 1, Number.POSITIVE_INFINITY, text);
    this.at++;
  }
  undo(): void {
    this.at = Math.max(0, this.at - 1);
  }
  redo(): void {
    this.at = Math.min(this.line.length - 1, this.at + 1);
  }
}

test("whatever is done, undone and done again, the project is what whole copies say", () => {
  const demo = demoProject("dunlin-4");
  fc.assert(
    fc.property(fc.array(act, { maxLength: 40 }), (acts) => {
      const store = makeProjectStore(demo);
      const copies = new Copies(demo);
      for (const one of acts) {
        if (one.kind === "undo") {
          store.undo();
          copies.undo();
        } else if (one.kind === "redo") {
          store.redo();
          copies.redo();
        } else if (one.kind === "edit") {
          store.edit("Change it", recipe(one.change));
          copies.step(recipe(one.change));
        } else {
          const drag = store.drag("Drag it");
          let shown: Recipe | null = null;
          for (const each of one.changes) if (drag.show(recipe(each)).ok) shown = recipe(each);
          if (one.kept) drag.keep();
          else drag.drop();
          if (one.kept && shown) copies.step(shown);
        }
        const { project, history, dragging } = store.state.getState();
        expect(JSON.stringify(JSON.parse(printProject(project)))).toBe(copies.now);
        expect(history.project).toBe(project);
        expect(dragging).toBeNull();
      }
    }),
    { numRuns: seedCount(60), seed: 20260 },
  );
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
