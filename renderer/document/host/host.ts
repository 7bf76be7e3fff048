import type { MenuCommand, OpenedFile, RecentFile, SaveResult, Settings, WorkingState } from "./contract.ts";

export type { MenuCommand, OpenedFile, RecentFile, SaveResult, Settings, WorkingState } from "./contract.ts";

/**
 * What the app asks of the machine it runs on. Handles are opaque. Every promise may be rejected with a HostError,
 * whose message can be shown as it is.
 */
export interface Host {
  readonly kind: "desktop" | "browser";

  /** The project that this window had before it was loaded again, or that was named at the start; null when neither. */
  opening(): Promise<OpenedFile | null>;

  /** No file is open in this window any more: loaded again it opens none. */
  forgetOpen(): void;

  /** Asks the person for a file; null when dismissed. In a browser call it straight from the click or key. */
  open(): Promise<OpenedFile | null>;
  recent(): Promise<readonly RecentFile[]>;
  openRecent(handle: string): Promise<OpenedFile>;

  /**
   * `handle` null asks where. `seen` is the stamp that the file had when it was last read or written: if it has
   * another by now nothing is written and the answer is "changed-on-disk"; save again with that stamp to overwrite.
   * A file that is gone meanwhile is written anew.
   */
  save(file: { handle: string | null; name: string; text: string; seen: string | null }): Promise<SaveResult>;
  saveAs(file: { name: string; text: string }): Promise<SaveResult>;

  /**
   * Work between two saves, kept apart from the user's files. `id` is the app's own (crypto.randomUUID()), one a window
   * and project. `list` gives what a window that is gone left behind, newest first, without what is equal to its file;
   * `drop` after saving or after the person refused it.
   */
  autosave: {
    put(working: WorkingState): Promise<void>;
    list(): Promise<readonly WorkingState[]>;
    drop(id: string): Promise<void>;
  };

  /** Writes a result (CSV, PNG, …) where the person says; false when dismissed. */
  export(file: { name: string; bytes: Uint8Array | string; type: string }): Promise<boolean>;

  settings: { get(): Promise<Settings>; set(settings: Settings): Promise<void> };

  /** A command of the desktop menu. Gives the function that ends the listening, as the next ones do. */
  onCommand(listener: (command: MenuCommand) => void): () => void;
  /** A file that comes from outside: dropped on the window, or opened from the desktop while the app runs. */
  onOpenFile(listener: (opening: Promise<OpenedFile>) => void): () => void;
  /** The person wants to close the window; true lets it go. A browser only asks its own question, when work is unsaved. */
  onCloseAsked(listener: () => Promise<boolean>): () => void;

  /** The window's title: the open project's name and whether it has unsaved work; null when none is open. */
  setTitle(title: { name: string | null; changed: boolean }): void;
}
