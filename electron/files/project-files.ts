import { basename } from "node:path";
import { systemReason } from "../../core/cli/bad-input.ts";
import { HostError, type OpenedFile, type SaveResult } from "../../renderer/document/host/contract.ts";
import type { KnownFiles } from "./known-files.ts";
import { oneAtATime } from "./one-at-a-time.ts";
import { cannotOpen, readBytes, readText, stampOf } from "./read-text.ts";
import { writeAtomically } from "./write-atomically.ts";

/** The user's own files: read, and saved so that nobody's work is lost. */
export interface ProjectFiles {
  read(path: string): Promise<OpenedFile>;
  /**
   * Saves unless somebody else wrote to the file since it had the stamp `seen`.
   * @throws HostError when the file cannot be read or written
   */
  save(path: string, text: string, seen: string | null): Promise<SaveResult>;
  /** Saves in any case: the person has just said where, and that the file there may go. */
  saveOver(path: string, text: string): Promise<SaveResult>;
}

/** @param report hears when a file was read or written, but could not be put on the list of recent ones */
export function projectFiles(known: KnownFiles, report: (error: unknown) => void): ProjectFiles {
  const inTurn = oneAtATime();
  const use = (path: string) => known.use(path).catch(report);

  const write = async (path: string, text: string): Promise<SaveResult> => {
    try {
      await writeAtomically(path, text);
    } catch (error) {
      throw new HostError(`${basename(path)} cannot be saved: ${systemReason(error)}.`);
    }
    await use(path);
    return {
      kind: "saved",
      handle: known.know(path),
      name: basename(path),
      stamp: stampOf(Buffer.from(text)),
    };
  };

  return {
    async read(path) {
      const read = await readText(path);
      if (!read) throw cannotOpen(path, "there is no such file any more");
      await use(path);
      return { handle: known.know(path), name: basename(path), ...read };
    },
    // Between the look and the write another program has a moment to write too; no system call closes that gap.
    save: (path, text, seen) =>
      inTurn(path, async () => {
        const now = await stampOnDisk(path);
        const foreign = now !== null && now !== seen && now !== stampOf(Buffer.from(text));
        return foreign ? { kind: "changed-on-disk", stamp: now } : write(path, text);
      }),
    saveOver: (path, text) => inTurn(path, () => write(path, text)),
  };
}

/** null when there is no such file: one that was thrown away or moved is written anew. */
async function stampOnDisk(path: string): Promise<string | null> {
  const bytes = await readBytes(path);
  return bytes ? stampOf(bytes) : null;
}
