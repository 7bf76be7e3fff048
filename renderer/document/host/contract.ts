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
const stamp = z.string().regex(/^[0-9a-f]{64}$/);
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

const nothing = z.void();

/** What both carriers bear: files that are known already, autosave, settings. */
export const machineChannels = {
  recent: { ask: nothing, answer: z.array(recentFile) },
  read: { ask: handle, answer: openedFile },
  save: { ask: z.strictObject({ handle, text, seen: stamp.nullable() }), answer: saveResult },
  putWorking: { ask: workingState, answer: nothing },
  listWorking: { ask: nothing, answer: z.array(workingState) },
  dropWorking: { ask: workingState.shape.id, answer: nothing },
  getSettings: { ask: nothing, answer: settings },
  setSettings: { ask: settings, answer: nothing },
} as const satisfies Channels;

/** What only the desktop window has: dialogs, a menu, a question before it closes. */
export const desktopChannels = {
  ...machineChannels,
  /** The file named at the start or since; given once. */
  named: { ask: nothing, answer: handle.nullable() },
  open: { ask: nothing, answer: openedFile.nullable() },
  /** A file dropped on the window, by the path that the preload script read off it. */
  openDropped: { ask: z.string().min(1).max(4096), answer: openedFile },
  saveAs: { ask: z.strictObject({ name: fileName, text }), answer: saveResult },
  export: {
    ask: z.strictObject({
      name: fileName,
      bytes: z.union([
        text,
        z.custom<Uint8Array>((value) => value instanceof Uint8Array && value.length <= longestText),
      ]),
      type: z.string().max(127),
    }),
    answer: z.boolean(),
  },
  setTitle: { ask: z.strictObject({ name: fileName.nullable(), changed: z.boolean() }), answer: nothing },
  answerClose: { ask: z.boolean(), answer: nothing },
} as const satisfies Channels;

/** The window's title: the project's name with a dot before it while it has unsaved work, or the program's alone. */
export const titleOf = (name: string | null, changed: boolean): string =>
  name === null ? "Ribband" : `${changed ? "• " : ""}${name} – Ribband`;

/** What the desktop says unasked. */
export const desktopEvents = {
  command: menuCommand,
  /** A file named while the app runs: fetch it with `named`. */
  named: nothing,
  closeAsked: nothing,
} as const;

/** How a page comes in at the loopback server: it trades the ticket of its address, good for one use, for the key. */
export const loopbackEntry = {
  ask: z.strictObject({ ticket: z.string().min(1).max(100) }),
  /** null: the ticket was used before. */
  answer: z.strictObject({ key: z.string().min(1).max(100), named: handle.nullable() }).nullable(),
};

export type Channels = Readonly<Record<string, { readonly ask: z.ZodType; readonly answer: z.ZodType }>>;
export type Asked<C extends Channels, Name extends keyof C> = z.output<C[Name]["ask"]>;
export type Answered<C extends Channels, Name extends keyof C> = z.output<C[Name]["answer"]>;

/** One function a channel; what it is given was checked. It throws a HostError for trouble that a person can understand. */
export type Handlers<C extends Channels> = {
  readonly [Name in keyof C]: (asked: Asked<C, Name>) => Promise<Answered<C, Name>>;
};

/** What the preload script puts on the page's `window` as `ribband`: a method a channel, and the events. */
export type Bridge = {
  readonly [Name in Exclude<keyof typeof desktopChannels, "openDropped">]: (
    question?: unknown,
  ) => Promise<unknown>;
} & {
  /** Takes a file as the page was handed it; the path stays in the preload script. */
  openDropped(file: unknown): Promise<unknown>;
  /** Calls back at every event of that name; gives the function that ends it. */
  on(event: keyof typeof desktopEvents, listener: (value: unknown) => void): () => void;
};

/** An answer on the wire. Trouble travels as a sentence: errors do not survive either carrier. */
export type Outcome =
  | { readonly ok: true; readonly value?: unknown }
  | { readonly ok: false; readonly sentence: string };
export const outcome: z.ZodType<Outcome> = z.discriminatedUnion("ok", [
  z.strictObject({ ok: z.literal(true), value: z.unknown().optional() }),
  z.strictObject({ ok: z.literal(false), sentence: z.string() }),
]);

/** Trouble with the machine in words for the person at it: "… cannot be opened: you have no permission." */
export class HostError extends Error {
  override readonly name = "HostError";
}

export type OpenedFile = z.infer<typeof openedFile>;
export type RecentFile = z.infer<typeof recentFile>;
export type SaveResult = z.infer<typeof saveResult>;
export type WorkingState = z.infer<typeof workingState>;
export type Settings = z.infer<typeof settings>;
export type MenuCommand = z.infer<typeof menuCommand>;
