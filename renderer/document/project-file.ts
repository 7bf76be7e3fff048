import { createStore, type StoreApi } from "zustand/vanilla";
import { printProject } from "../../core/project/print.ts";
import type { Host, OpenedFile, WorkingState } from "./host/host.ts";
import { type ProjectStore, wouldBeLost } from "./project-store.ts";

/** Where the open project lives: which file it was read from or written to, as it was then. */
export interface FilePlace {
  /** null: no file yet. */
  readonly handle: string | null;
  /** The file's name, with its ending. */
  readonly name: string;
  /** Stamp of the file when it was last read or written. */
  readonly stamp: string | null;
}

export type Saved = "saved" | "dismissed" | "changed-on-disk";

/** The open project's file: saving it, and keeping the work between two saves apart from it. */
export interface ProjectFile {
  readonly place: StoreApi<FilePlace>;
  /** Saves to the file, asking where if there is none. `over`: also over a file that somebody else has changed. */
  save(over?: boolean): Promise<Saved>;
  saveAs(): Promise<Saved>;
  /** Forgets the work kept since the last save: it was saved or is not wanted. */
  drop(): Promise<void>;
  /** Stops keeping; what was kept stays to be offered again. */
  end(): void;
}

/** Work is kept this long after the last change, ms. */
const KEEP_AFTER_MS = 1200;
const ENDING = ".ribband.json";

/** A file name made of a project's name. */
export const fileNameFor = (name: string, ending = ENDING): string =>
  `${
    name
      .trim()
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
      .replaceAll(/^-|-$/g, "") || "project"
  }${ending}`;

/**
 * Binds a project to its file. `from`: the file it was read from, work that was left behind, or null for a new one.
 * `onTrouble` hears, in words, of work that could not be kept.
 */
export function projectFile(
  host: Host,
  store: ProjectStore,
  from: OpenedFile | WorkingState | null,
  onTrouble: (sentence: string) => void,
): ProjectFile {
  const { state } = store;
  const leftBehind = from !== null && "id" in from;
  const id = leftBehind ? from.id : crypto.randomUUID();
  const place = createStore<FilePlace>(() => ({
    handle: from?.handle ?? null,
    name: from?.name ?? fileNameFor(state.getState().project.name),
    stamp: from?.stamp ?? null,
  }));
  /** The stamp of somebody else's version, once we were told of it. */
  let theirs: string | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const drop = () => {
    clearTimeout(timer);
    return host.autosave.drop(id);
  };
  const keep = async () => {
    const { history, inFile } = state.getState();
    // Work that was left behind is kept, even unchanged, until it is in a file.
    if (!wouldBeLost(state.getState()) && (inFile || !leftBehind)) return drop();
    const { handle, name, stamp } = place.getState();
    const savedAt = new Date().toISOString();
    await host.autosave.put({ id, name, handle, savedAt, text: printProject(history.project), stamp });
  };
  const put = async (write: (text: string) => ReturnType<Host["save"]>): Promise<Saved> => {
    const { project } = state.getState().history;
    const result = await write(printProject(project));
    if (result.kind === "changed-on-disk") theirs = result.stamp;
    if (result.kind !== "saved") return result.kind;
    theirs = null;
    place.setState({ handle: result.handle, name: result.name, stamp: result.stamp });
    store.markSaved(project);
    await drop();
    return "saved";
  };

  const leave = state.subscribe((now, before) => {
    if (now.history.project === before.history.project) return;
    clearTimeout(timer);
    timer = setTimeout(() => {
      keep().catch((error: unknown) => onTrouble(error instanceof Error ? error.message : String(error)));
    }, KEEP_AFTER_MS);
  });

  return {
    place,
    save: (over = false) =>
      put((text) => {
        const { handle, name, stamp } = place.getState();
        return host.save({ handle, name, text, seen: over && theirs !== null ? theirs : stamp });
      }),
    saveAs: () => put((text) => host.saveAs({ name: place.getState().name, text })),
    drop,
    end() {
      clearTimeout(timer);
      leave();
    },
  };
}
