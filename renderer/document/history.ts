import { create } from "mutative";
import type { Project } from "../../core/project/schema.ts";
import { sameValue } from "./same-value.ts";

/** One thing that was done to the project, by its name, with the project before and after: what they share is kept once. */
export interface Step {
  readonly name: string;
  readonly before: Project;
  readonly after: Project;
}

/** A project with what was done to it. Steps that were taken back wait in `undone`, the next to be done again last. */
export interface History {
  readonly project: Project;
  readonly done: readonly Step[];
  readonly undone: readonly Step[];
}

/** Changes a draft of the project in place. */
export type Recipe = (draft: Project) => void;

/** Steps kept; older ones are forgotten. */
const MOST_STEPS = 1000;

export const startHistory = (project: Project): History => ({ project, done: [], undone: [] });

/** What a recipe makes of a project. The project itself stays as it is; if all is as it was, it is given back. */
export function work(project: Project, recipe: Recipe): Project {
  // What a recipe gives back is dropped: a draft may not be both changed and replaced, and `push` gives a number.
  const changed = create(project, (draft) => {
    recipe(draft);
  });
  return sameValue(project, changed) ? project : changed;
}

/** Adds a step, and forgets what had been taken back. A recipe that changed nothing leaves the history as it is. */
export function addStep(history: History, name: string, recipe: Recipe): History {
  const before = history.project;
  const after = work(before, recipe);
  if (after === before) return history;
  return {
    project: after,
    done: [...history.done, { name, before, after }].slice(-MOST_STEPS),
    undone: [],
  };
}

/** Takes the last step back; the same history if there is none. */
export function takeBack(history: History): History {
  const step = history.done.at(-1);
  if (!step) return history;
  return { project: step.before, done: history.done.slice(0, -1), undone: [...history.undone, step] };
}

/** Does the step that was taken back last again; the same history if there is none. */
export function doAgain(history: History): History {
  const step = history.undone.at(-1);
  if (!step) return history;
  return { project: step.after, done: [...history.done, step], undone: history.undone.slice(0, -1) };
}
