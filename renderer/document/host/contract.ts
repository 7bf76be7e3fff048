/**
 * What the page and the machine say to each other: every channel with the shape of its question and of its answer.
 * Two carriers bear them, Electron's IPC and the loopback server, and both sides check what they hear against this
 * file. It is the only file that `renderer` and `electron` share.
 */
import { z } from "zod";

/** The longest text of a project that is carried, in UTF-16 units; a large project has a hundredth of it. */
const longestText = 32 * 1024 * 1024;

/** How a file is named to the page: never by its path. Only the machine that gave it out knows what it stands for. */
export const handle = z.string().regex(/^(disk|picked)-[0-9a-f]{32}$/);
/** Stands for the bytes of a file at the time they were read or written: its SHA-256. */
export const stamp = z.string().regex(/^[0-9a-f]{64}$/);
const fileName = z.string().min(1).max(255);
const text = z.string().max(longestText);

export const openedFile = z.strictObject({
  /** null: the machine cannot write back to where this came from (an upload), so saving asks where. */
  handle: handle.nullable(),
  name: fileName,
  text,
  stamp,
});

export const recentFile = z.strictObject({
  handle,
  name: fileName,
  /** The folder, as it is shown to a person; "" where the machine does not tell it. */
  folder: z.string().max(4096),
});

export const saveResult = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("saved"), handle: handle.nullable(), name: fileName, stamp }),
  /** The person was asked where and did not say. */
  z.strictObject({ kind: z.literal("dismissed") }),
  /** Somebody else wrote to the file since `seen`; nothing was written. Saving with this stamp as `seen` overwrites. */
  z.strictObject({ kind: z.literal("changed-on-disk"), stamp }),
]);

/** Work as it stands between two saves. `stamp` is the file's when it was last read or written; null for a new project. */
export const workingState = z.strictObject({
  id: z.string().regex(/^[0-9a-z-]{8,64}$/),
  name: fileName,
  handle: handle.nullable(),
  savedAt: z.iso.datetime(),
  text,
  stamp: stamp.nullable(),
});

/** What a person set for this machine. A figure that cannot be read falls back to its default by itself. */
export const settings = z.object({
  lengths: z.enum(["mm", "m", "in", "ft-in"]).catch("mm"),
  theme: z.enum(["paper", "slate", "system"]).catch("system"),
  /** Sizes of the panels of each group, in percent, as they were left. */
  panels: z.record(z.string().max(64), z.array(z.number().min(0).max(100)).max(16)).catch({}),
});

/** What the menu of the desktop window asks of the app. */
export const menuCommands = [
  "new",
  "open",
  "save",
  "save-as",
  "undo",
  "redo",
  "delete",
  "select-all",
  "fit",
  "settings",
  "help",
] as const;
export const menuCommand = z.enum(menuCommands);

export type OpenedFile = z.infer<typeof openedFile>;
export type RecentFile = z.infer<typeof recentFile>;
export type SaveResult = z.infer<typeof saveResult>;
export type WorkingState = z.infer<typeof workingState>;
export type Settings = z.infer<typeof settings>;
export type MenuCommand = z.infer<typeof menuCommand>;
