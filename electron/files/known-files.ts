import { createHash } from "node:crypto";
import { basename, dirname, join, resolve } from "node:path";
import { z } from "zod";
import { HostError, type RecentFile } from "../../renderer/document/host/contract.ts";
import { jsonFile } from "./json-file.ts";
import { oneAtATime } from "./one-at-a-time.ts";

const longestList = 12;

/**
 * Which files the page may name. A handle opens nothing by itself: it stands for a path only here, and only after a
 * person opened or saved that file, in this run or in one that the list of recent files remembers.
 */
export interface KnownFiles {
  /** Gives the handle of a file that a person named. The same path has the same handle in every run. */
  know(path: string): string;
  /** @throws HostError when no person has named such a file */
  pathOf(handle: string): Promise<string>;
  /** Puts a file at the top of the recent ones. */
  use(path: string): Promise<void>;
  recent(): Promise<RecentFile[]>;
}

/** @param folder the app's own folder */
export function knownFiles(folder: string): KnownFiles {
  const list = jsonFile(join(folder, "recent.json"), z.array(z.string().min(1)).max(longestList), []);
  const inTurn = oneAtATime();
  const paths = new Map<string, string>();

  const know = (path: string) => {
    const absolute = resolve(path);
    const handle = `disk-${createHash("sha256").update(absolute).digest("hex").slice(0, 32)}`;
    paths.set(handle, absolute);
    return handle;
  };
  const recent = async () =>
    (await list.read()).map((path) => ({ handle: know(path), name: basename(path), folder: dirname(path) }));

  return {
    know,
    recent,
    async pathOf(handle) {
      if (!paths.has(handle)) await recent();
      const path = paths.get(handle);
      if (path === undefined)
        throw new HostError("This file is not known any more: open it again, or save under a name.");
      return path;
    },
    use: (path) =>
      inTurn("list", async () => {
        const absolute = resolve(path);
        know(absolute);
        const others = (await list.read()).filter((other) => other !== absolute);
        await list.write([absolute, ...others].slice(0, longestList));
      }),
  };
}
