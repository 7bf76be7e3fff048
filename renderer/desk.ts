import { createContext, useContext } from "react";
import { useStore } from "zustand";
import type { Project } from "../core/project/schema.ts";
import { makeProjectStore, type ProjectState, type ProjectStore } from "./document/project-store.ts";
import { type Session, session } from "./document/session.ts";
import { keepResults } from "./worker/client.ts";
import { makeResultsStore, type Results, type ResultsStore } from "./worker/results.ts";

/** All that the window works with: the project, what the worker made of it, and how to leave off. */
export interface Desk {
  readonly project: ProjectStore;
  readonly results: ResultsStore;
  close(): void;
}

export function openDesk(project: Project): Desk {
  const store = makeProjectStore(project);
  const results = makeResultsStore();
  const stop = keepResults(store, results);
  return { project: store, results, close: stop };
}

/** The thin thread between the stores and React: each component takes out only what it shows. */
export const DeskContext = createContext<Desk | null>(null);

export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error("No project is open here: this belongs inside a DeskContext.");
  return desk;
}

export const useProject = <T>(take: (state: ProjectState) => T): T => useStore(useDesk().project.state, take);
export const useResults = <T>(take: (results: Results) => T): T => useStore(useDesk().results, take);
export const useSession = <T>(take: (session: Session) => T): T => useStore(session, take);
