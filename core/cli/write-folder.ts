import { chmod, mkdir, mkdtemp, open, rename, rm, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { BadInput, systemReason } from "./bad-input.ts";

/**
 * Writes files into a folder so that no file is ever half written: all are written in full to a temporary folder beside
 * their place and then moved there. A folder that is new appears with all its files at once; in one that exists the
 * files are put over those of the same names, and others are left alone. Throws BadInput when the folder cannot be written.
 */
export async function writeFolder(folder: string, files: ReadonlyMap<string, string>): Promise<void> {
  const target = resolve(folder);
  const exists = await isFolder(target, folder);
  let temporary: string | undefined;
  try {
    if (!exists) await mkdir(dirname(target), { recursive: true });
    temporary = await mkdtemp(
      exists ? join(target, ".ribband-") : join(dirname(target), `.${basename(target)}-`),
    );
    for (const [name, text] of files) await writeThrough(join(temporary, name), text);
    if (!exists) {
      // mkdtemp makes folders for their owner's eyes only.
      await chmod(temporary, 0o777 & ~process.umask());
      await rename(temporary, target);
    } else {
      for (const name of files.keys()) await rename(join(temporary, name), join(target, name));
    }
  } catch (error) {
    throw new BadInput(`The folder ${folder} cannot be written: ${systemReason(error)}.`);
  } finally {
    if (temporary) await rm(temporary, { recursive: true, force: true });
  }
}

/** Whether files can go into a folder is partly known before they are made: throws BadInput when a file is in its way. */
export async function checkFolder(folder: string): Promise<void> {
  await isFolder(resolve(folder), folder);
}

async function isFolder(target: string, folder: string): Promise<boolean> {
  try {
    if ((await stat(target)).isDirectory()) return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return false;
    throw new BadInput(`The folder ${folder} cannot be written: ${systemReason(error)}.`);
  }
  throw new BadInput(`${folder} is a file; the cut lists need the name of a folder, new or old.`);
}

/** Writes a file and waits until it is on the disk. */
async function writeThrough(path: string, text: string): Promise<void> {
  const file = await open(path, "wx");
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
}
