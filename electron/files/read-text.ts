import { createHash } from "node:crypto";
import { constants, open } from "node:fs/promises";
import { basename } from "node:path";
import { systemReason } from "../../core/cli/bad-input.ts";
import { HostError } from "../../renderer/document/host/contract.ts";

/** Far above any project: a guard against opening a film by mistake. */
const largestMiB = 32;

/** SHA-256 in hexadecimal. The bytes decide, not the time: a file merely touched has not changed. */
export function stampOf(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}

/**
 * The text of a project file and the stamp of its bytes; undefined when there is no such file.
 * @throws HostError when it cannot be read, is no ordinary file, is larger than 32 MiB or is not UTF-8 text
 */
export async function readText(path: string): Promise<{ text: string; stamp: string } | undefined> {
  const bytes = await readBytes(path);
  if (!bytes) return undefined;
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), stamp: stampOf(bytes) };
  } catch {
    throw cannotOpen(path, "it is not text, so it is no project file");
  }
}

/**
 * The bytes of an ordinary file; undefined when there is no such file.
 * @throws HostError when it cannot be read, is no ordinary file or is larger than 32 MiB
 */
export async function readBytes(path: string): Promise<Uint8Array | undefined> {
  try {
    // Looked at after it is opened, so that what was checked is what is read; and not waiting for somebody to fill a pipe.
    const file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    try {
      const found = await file.stat();
      if (!found.isFile()) throw cannotOpen(path, "it is not a file");
      if (found.size > largestMiB * 2 ** 20) throw cannotOpen(path, `it is larger than ${largestMiB} MiB`);
      return await file.readFile();
    } finally {
      await file.close();
    }
  } catch (error) {
    if (error instanceof HostError) throw error;
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined;
    throw cannotOpen(path, systemReason(error));
  }
}

export function cannotOpen(path: string, reason: string): HostError {
  return new HostError(`${basename(path)} cannot be opened: ${reason}.`);
}
