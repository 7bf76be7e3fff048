import type { Project } from "../../core/project/schema.ts";

type Taker = (project: Project) => Promise<boolean>;

let taker: Taker | null = null;

/** Puts a project that was made of the open one on the desk in its place, not saved yet; false if the person would rather stay. */
export const putOnDesk = (project: Project): Promise<boolean> =>
  taker ? taker(project) : Promise.resolve(false);

/** Says who puts projects on the desk. Gives back how to leave. */
export function takeMade(how: Taker): () => void {
  taker = how;
  return () => {
    if (taker === how) taker = null;
  };
}
