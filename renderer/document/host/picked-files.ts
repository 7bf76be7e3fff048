import { z } from "zod";
import {
  HostError,
  handle as handleSchema,
  type OpenedFile,
  type RecentFile,
  type SaveResult,
} from "./contract.ts";
import type { Database } from "./database.ts";
import { stampOf } from "./stamp.ts";

const longestList = 12;

/** What the database keeps of a picked file: the browser's own handle can be stored there, and nowhere else. */
const picked = z.object({
  handle: handleSchema,
  file: z.custom<FileSystemFileHandle>((value) => value instanceof FileSystemFileHandle),
  usedAt: z.number(),
});

/** Files that a person picked in a browser that can write back to them. */
export interface PickedFiles {
  add(file: FileSystemFileHandle): Promise<OpenedFile>;
  read(handle: string): Promise<OpenedFile>;
  recent(): Promise<RecentFile[]>;
  save(handle: string, text: string, seen: string | null): Promise<SaveResult>;
  saveOver(file: FileSystemFileHandle, text: string): Promise<SaveResult>;
}

export function pickedFiles(database: Database): PickedFiles {
  const all = async () =>
    (await database.all("picked")).map((value) => picked.parse(value)).sort((a, b) => b.usedAt - a.usedAt);

  /** The same file keeps its handle however often it is picked. */
  const use = async (file: FileSystemFileHandle): Promise<string> => {
    const known = await all();
    const same = await Promise.all(known.map((other) => other.file.isSameEntry(file)));
    const handle = known[same.indexOf(true)]?.handle ?? `picked-${crypto.randomUUID().replaceAll("-", "")}`;
    await database.put("picked", handle, { handle, file, usedAt: Date.now() });
    for (const old of known.filter((each) => each.handle !== handle).slice(longestList - 1)) {
      await database.remove("picked", old.handle);
    }
    return handle;
  };

  const fileOf = async (handle: string): Promise<FileSystemFileHandle> => {
    const found = picked.safeParse(await database.get("picked", handle));
    if (!found.success) {
      throw new HostError("This file is not known any more: open it again, or save under a name.");
    }
    return found.data.file;
  };

  const write = async (file: FileSystemFileHandle, text: string): Promise<SaveResult> => {
    const handle = await use(file);
    const bytes = new TextEncoder().encode(text);
    try {
      // The browser writes beside the file and puts the whole in its place at the close.
      const writable = await file.createWritable();
      await writable.write(bytes);
      await writable.close();
    } catch (error) {
      throw new HostError(`${file.name} cannot be saved: ${reason(error)}.`);
    }
    return { kind: "saved", handle, name: file.name, stamp: await stampOf(bytes) };
  };

  const read = async (file: FileSystemFileHandle): Promise<OpenedFile> => {
    const content = await contentOf(await file.getFile().catch((error) => refuse(file.name, error)));
    return { ...content, handle: await use(file) };
  };

  return {
    add: read,
    recent: async () => (await all()).map(({ handle, file }) => ({ handle, name: file.name, folder: "" })),
    async read(handle) {
      const file = await fileOf(handle);
      await permit(file);
      return read(file);
    },
    async save(handle, text, seen) {
      const file = await fileOf(handle);
      await permit(file);
      const now = await stampNow(file);
      const foreign = now !== null && now !== seen && now !== (await stampOf(new TextEncoder().encode(text)));
      return foreign ? { kind: "changed-on-disk", stamp: now } : write(file, text);
    },
    saveOver: write,
  };
}

/** The text and stamp of a file as the browser hands it over, without a way to write back. */
export async function contentOf(file: File): Promise<OpenedFile> {
  const bytes = new Uint8Array(await file.arrayBuffer().catch((error) => refuse(file.name, error)));
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return { handle: null, name: file.name, text, stamp: await stampOf(bytes) };
  } catch {
    throw new HostError(`${file.name} cannot be opened: it is not text, so it is no project file.`);
  }
}

/** After the page was loaded again a browser wants the person's word before it touches the file. */
async function permit(file: FileSystemFileHandle): Promise<void> {
  const mode = { mode: "readwrite" } as const;
  if ((await file.queryPermission?.(mode)) === "granted") return;
  const answer = await file.requestPermission?.(mode).catch((error) => refuse(file.name, error));
  if (answer !== undefined && answer !== "granted") {
    throw new HostError(`${file.name} cannot be used: the browser was not given leave.`);
  }
}

async function stampNow(file: FileSystemFileHandle): Promise<string | null> {
  try {
    return await stampOf(new Uint8Array(await (await file.getFile()).arrayBuffer()));
  } catch (error) {
    if (error instanceof DOMException && error.name === "NotFoundError") return null;
    return refuse(file.name, error);
  }
}

function refuse(name: string, error: unknown): never {
  throw new HostError(`${name} cannot be opened: ${reason(error)}.`);
}

function reason(error: unknown): string {
  const name = error instanceof DOMException ? error.name : "";
  return reasons[name] ?? (error instanceof Error ? error.message : String(error));
}

const reasons: Readonly<Record<string, string>> = {
  NotFoundError: "there is no such file any more",
  NotAllowedError: "the browser was not given leave",
  SecurityError: "the browser does not ask for leave here; click on it in the list of recent files",
  QuotaExceededError: "the disk is full",
  NoModificationAllowedError: "another program is using it",
  NotReadableError: "you have no permission, or another program is using it",
  InvalidStateError: "it has changed since it was picked",
};
