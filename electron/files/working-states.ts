import { mkdir, readdir, readFile, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import { z } from "zod";
import { systemReason } from "../../core/cli/bad-input.ts";
import { HostError, type WorkingState, workingState } from "../../renderer/document/host/contract.ts";
import type { KnownFiles } from "./known-files.ts";
import { oneAtATime } from "./one-at-a-time.ts";
import { readBytes, stampOf } from "./read-text.ts";
import { writeAtomically } from "./write-atomically.ts";

/** On disk a working state names its file by the path, since handles are known only while the app runs. */
const kept = workingState.extend({ path: z.string().nullable() });

/** Autosave: work between two saves, a file each in the folder `working`, never over a file of the user's. */
export interface WorkingStates {
  put(working: WorkingState): Promise<void>;
  /** Newest first. One whose text is what its file holds has nothing to offer and is removed. */
  list(): Promise<WorkingState[]>;
  drop(id: string): Promise<void>;
}

/** @param home the app's own folder */
export function workingStates(home: string, known: KnownFiles): WorkingStates {
  const folder = join(home, "working");
  const fileOf = (id: string) => join(folder, `${id}.json`);
  const inTurn = oneAtATime();

  return {
    put: (working) =>
      inTurn(working.id, async () => {
        try {
          // A file that was picked in a browser has no path: only that browser can open it again.
          const onDisk = working.handle?.startsWith("disk-") ? await known.pathOf(working.handle) : null;
          await mkdir(folder, { recursive: true });
          await writeAtomically(fileOf(working.id), `${JSON.stringify({ ...working, path: onDisk })}\n`);
        } catch (error) {
          if (error instanceof HostError) throw error;
          throw new HostError(`The work between two saves cannot be kept: ${systemReason(error)}.`);
        }
      }),
    drop: (id) => inTurn(id, () => rm(fileOf(id), { force: true })),
    async list() {
      const names = await readdir(folder).catch((error) => {
        if (error.code === "ENOENT") return [];
        throw error;
      });
      const found: WorkingState[] = [];
      for (const name of names.filter((name) => /^[^.].*\.json$/.test(name))) {
        const state = await readState(join(folder, name));
        if (!state) continue;
        const { path, ...working } = state;
        if (path !== null) known.know(path);
        if (path !== null && (await holds(path, working.text))) await rm(join(folder, name), { force: true });
        else found.push(working);
      }
      return found.sort((a, b) => b.savedAt.localeCompare(a.savedAt));
    },
  };
}

/** One that cannot be understood is set aside as `….unreadable`: a person may still want to look into it. */
async function readState(path: string): Promise<z.infer<typeof kept> | undefined> {
  const text = await readFile(path, "utf8");
  try {
    return kept.parse(JSON.parse(text));
  } catch {
    await rename(path, `${path}.unreadable`);
    return undefined;
  }
}

/** A file that cannot be looked into does not hold the text. */
async function holds(path: string, text: string): Promise<boolean> {
  const bytes = await readBytes(path).catch(() => undefined);
  return bytes !== undefined && stampOf(bytes) === stampOf(Buffer.from(text));
}
