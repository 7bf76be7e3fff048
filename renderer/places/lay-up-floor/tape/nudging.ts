import type { Recipe } from "../../../document/history.ts";
import type { Drag, ProjectStore } from "../../../document/project-store.ts";

/** Nudges within this of each other make one step of the history, ms. */
const PAUSE_MS = 800;

/** Keys that move something bit by bit: nudges in a row are one drag, kept when they pause. */
export function makeNudging(store: ProjectStore) {
  let drag: Drag | null = null;
  let name = "";
  let timer: ReturnType<typeof setTimeout>;
  const end = () => {
    clearTimeout(timer);
    drag?.keep();
    drag = null;
  };
  return {
    end,
    nudge(step: string, recipe: Recipe) {
      if (step !== name) end();
      name = step;
      drag ??= store.drag(step);
      clearTimeout(timer);
      timer = setTimeout(end, PAUSE_MS);
      drag.show(recipe);
    },
  };
}
