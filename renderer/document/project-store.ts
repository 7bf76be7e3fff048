import { createStore, type StoreApi } from "zustand/vanilla";
import { checkProject } from "../../core/project/parse.ts";
import type { Problem } from "../../core/project/problem.ts";
import type { Project } from "../../core/project/schema.ts";
import { addStep, doAgain, type History, type Recipe, startHistory, takeBack, work } from "./history.ts";
import { sameValue } from "./same-value.ts";

/** What the window works on: the project with its history, and what a drag under way makes of it. */
export interface ProjectState {
  readonly history: History;
  /** The project to show: that of the history, or what the drag under way makes of it. */
  readonly project: Project;
  /** Name of the drag under way. */
  readonly dragging: string | null;
  /** The project as it was when it was opened or last saved: while it says the same, nothing would be lost. */
  readonly kept: Project;
  /** Whether `kept` is what its file says; a demo, a new one or work left behind is in no file yet. */
  readonly inFile: boolean;
}

/** Whether something was done that leaving would lose. */
export const wouldBeLost = ({ project, kept }: ProjectState): boolean => !sameValue(project, kept);

/** Whether the project is as its file says. */
export const isSaved = (state: ProjectState): boolean => state.inFile && !wouldBeLost(state);

/** A change was made, or why the project would not be valid with it. */
export type Edited = { readonly ok: true } | { readonly ok: false; readonly problems: readonly Problem[] };

/** A drag: shows what it makes of the project as it was at its start, then keeps it as one step or drops it. */
export interface Drag {
  /** Replaces what the drag has shown so far. What would not be valid is not shown. */
  show(recipe: Recipe): Edited;
  keep(): void;
  drop(): void;
}

/** The open project. The document is this alone: a scene or a panel only shows it, and changes it through here. */
export interface ProjectStore {
  readonly state: StoreApi<ProjectState>;
  /** Changes the project as one step named by a verb: "Change the length". */
  edit(name: string, recipe: Recipe): Edited;
  /** Begins a drag; one still under way is kept first. */
  drag(name: string): Drag;
  undo(): void;
  redo(): void;
  /** Says that this project is now the file's. */
  markSaved(project: Project): void;
}

/** A store for one open project; `inFile`: whether it is the same as its file. */
export function makeProjectStore(project: Project, inFile = true): ProjectStore {
  const state = createStore<ProjectState>(() => ({
    history: startHistory(project),
    project,
    dragging: null,
    kept: project,
    inFile,
  }));
  let endDrag: (() => void) | null = null;

  const settle = (history: History) => state.setState({ history, project: history.project, dragging: null });
  const endOpenDrag = () => endDrag?.();

  return {
    state,
    edit(name, recipe) {
      endOpenDrag();
      const { history } = state.getState();
      const edited = addStep(history, name, recipe);
      const checked = check(edited.project);
      if (checked.ok) settle(edited);
      return checked;
    },
    drag(name) {
      endOpenDrag();
      let shown: Recipe | null = null;
      let open = true;
      const { history } = state.getState();
      const end = (kept: Recipe | null) => {
        if (!open) return;
        open = false;
        endDrag = null;
        settle(kept ? addStep(history, name, kept) : history);
      };
      const keep = () => end(shown);
      endDrag = keep;
      state.setState({ dragging: name });
      return {
        show(recipe) {
          if (!open) return { ok: true };
          const next = work(history.project, recipe);
          const checked = check(next);
          if (checked.ok) {
            shown = recipe;
            state.setState({ project: next });
          }
          return checked;
        },
        keep,
        drop: () => end(null),
      };
    },
    undo() {
      endOpenDrag();
      settle(takeBack(state.getState().history));
    },
    redo() {
      endOpenDrag();
      settle(doAgain(state.getState().history));
    },
    markSaved: (kept) => state.setState({ kept, inFile: true }),
  };
}

function check(project: Project): Edited {
  const checked = checkProject(project);
  return checked.ok ? { ok: true } : { ok: false, problems: checked.problems };
}
