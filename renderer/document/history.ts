import { apply, create, type Patches } from "mutative";
import type { Project } from "../../core/project/schema.ts";

/** One thing that was done to the project, by its name, and how to do it again or take it back. */
export interface Step {
  readonly name: string;
  readonly forward: Patches;
  readonly back: Patches;
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

/** What a recipe makes of a project, with the patches there and back. The project itself stays as it is. */
export function work(project: Project, recipe: Recipe): { readonly project: Project } & Omit<Step, "name"> {
  // What a recipe gives back is dropped: a draft may not be both changed and replaced, and `push` gives a number.
  const [changed, forward, back] = create(
    project,
    (draft) => {
      recipe(draft);
    },
    { enablePatches: true },
  );
  return { project: changed, forward, back };
}

/** Adds a step, and forgets what had been taken back. A recipe that changed nothing leaves the history as it is. */
export function addStep(history: History, name: string, recipe: Recipe): History {
  const { project, forward, back } = work(history.project, recipe);
  if (forward.length === 0) return history;
  return { project, done: [...history.done, { name, forward, back }].slice(-MOST_STEPS), undone: [] };
}

/** Takes the last step back; the same history if there is none. */
export function takeBack(history: History): History {
  const step = history.done.at(-1);
  if (!step) return history;
  return {
    project: apply(history.project, step.back),
    done: history.done.slice(0, -1),
    undone: [...history.undone, step],
  };
}

/** Does the step that was taken back last again; the same history if there is none. */
export function doAgain(history: History): History {
  const step = history.undone.at(-1);
  if (!step) return history;
  return {
    project: apply(history.project, step.forward),
    done: [...history.done, step],
    undone: history.undone.slice(0, -1),
  };
}
