import { createContext, useContext } from "react";
import { useStore } from "zustand";
import type { Project } from "../core/project/schema.ts";
import type { Host, OpenedFile, WorkingState } from "./document/host/host.ts";
import { type ProjectFile, projectFile } from "./document/project-file.ts";
import { makeProjectStore, type ProjectState, type ProjectStore } from "./document/project-store.ts";
import { type Session, session } from "./document/session.ts";
import { type Hand, makeHand } from "./tools/hand.ts";
import { type Keeping, keepResults } from "./worker/client.ts";
import { makeResultsStore, type Results, type ResultsStore } from "./worker/results.ts";

/** All that the window works with: the project, its file, what the worker made of it, and how to leave off. */
export interface Desk {
  readonly host: Host;
  readonly project: ProjectStore;
  readonly file: ProjectFile;
  readonly results: ResultsStore;
  readonly trials: Keeping["trials"];
  readonly hand: Hand;
  close(): void;
}

/** What a project comes from: a file, work that was left behind unsaved, or nothing yet (a demo, a new one). */
export type Source = OpenedFile | WorkingState | null;

/** Puts a project on the desk. `onTrouble` hears, in words, of work that could not be kept. */
export function openDesk(
  host: Host,
  project: Project,
  from: Source,
  onTrouble: (sentence: string) => void,
): Desk {
  // Only a project that was just read from its file is the same as its file.
  const store = makeProjectStore(project, from !== null && !("id" in from));
  const results = makeResultsStore();
  const file = projectFile(host, store, from, onTrouble);
  const keeping = keepResults(store, results);
  session.setState({
    tool: null,
    hovered: null,
    selected: [],
    closeUp: null,
    hidden: new Set(),
    locked: new Set(),
  });
  session.setState({ lot: 1, shown: new Set(), turning: false, side: "inside", looksOpen: false });
  return {
    host,
    project: store,
    file,
    results,
    trials: keeping.trials,
    hand: makeHand(store, results, keeping.trials),
    close() {
      file.end();
      keeping.end();
    },
  };
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
