import { mkdtempSync } from "node:fs";
import {
  chmod,
  copyFile,
  lstat,
  mkdir,
  mkdtemp,
  open,
  readdir,
  rename,
  rm,
  rmdir,
  stat,
} from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { BadInput, systemReason } from "./bad-input.ts";
import { removedWhenStopped } from "./removed-when-stopped.ts";

/**
 * Writes files into a folder, all of them or none, and none ever half: all are written in full to a temporary folder beside
 * their place and then moved there. A folder that is new appears with all its files at once; in one that exists, or that
 * another run makes meanwhile, the files are put over those of the same names, and others are left alone. Names may have one
 * folder in them, parted by `/`. Stopped by Ctrl-C it leaves nothing behind but what was there. Throws BadInput when the folder cannot be written.
 */
export async function writeFolder(
  folder: string,
  files: ReadonlyMap<string, string | Uint8Array>,
): Promise<void> {
  const target = resolve(folder);
  const exists = await isFolder(target, folder);
  if (exists) await checkNames(target, folder, files.keys());
  let made: string | undefined;
  let temporary: string | undefined;
  const stays = removedWhenStopped(() => temporary);
  try {
    if (!exists) made = await makeFolders(dirname(target));
    // At once: it is known as soon as it is there.
    temporary = mkdtempSync(
      exists ? join(target, ".ribband-") : join(dirname(target), `.${basename(target)}-`),
    );
    // Not made with the folders above them: a run that is stopped has taken those away for good.
    for (const inner of innerFolders(files.keys())) await mkdir(join(temporary, inner));
    for (const [name, content] of files) await writeThrough(join(temporary, name), content);
    if (exists || !(await appearsAt(target, temporary))) {
      await checkNames(target, folder, files.keys());
      await moveAll(temporary, target, [...files.keys()]);
    }
    made = undefined;
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw cannotBeWritten(folder, error);
  } finally {
    if (temporary) await rm(temporary, { recursive: true, force: true });
    stays();
    if (made) await removeEmpty(dirname(target), made);
  }
}

/**
 * Makes a folder and those above it; gives the first that was not there. Not with `recursive`: that never ends where a folder that is
 * there answers that it is not, as under /proc.
 */
async function makeFolders(folder: string): Promise<string | undefined> {
  const missing: string[] = [];
  for (let at = folder; !(await isThere(at)); at = dirname(at)) missing.unshift(at);
  for (const each of missing) {
    await mkdir(each).catch((error: NodeJS.ErrnoException) => {
      // Another run made it meanwhile.
      if (error.code !== "EEXIST") throw error;
    });
  }
  return missing[0];
}

/** The folders that the names of files have in them, one deep. */
function innerFolders(names: Iterable<string>): Set<string> {
  return new Set([...names].map((name) => dirname(name)).filter((folder) => folder !== "."));
}

/**
 * Files that stand in some folders inside `folder` and are not among those just written, by name: they are another run's, and who works from
 * there should know.
 */
export async function othersIn(
  folder: string,
  inner: readonly string[],
  written: ReadonlyMap<string, unknown>,
): Promise<string[]> {
  const found = inner.map(async (each) => {
    const entries = await readdir(join(folder, each)).catch(() => []);
    return entries.map((entry) => `${each}/${entry}`);
  });
  return (await Promise.all(found))
    .flat()
    .filter((name) => !written.has(name))
    .sort();
}

/**
 * Tries whether files can go into a folder before the work of making them: throws BadInput when a file is in its way, or nothing can be made in it or,
 * where it is new, in the first folder above it that is there. Leaves nothing behind.
 */
export async function checkFolder(folder: string): Promise<void> {
  let place = resolve(folder);
  if (!(await isFolder(place, folder))) while (!(await isThere(place))) place = dirname(place);
  try {
    await rmdir(await mkdtemp(join(place, ".ribband-")));
  } catch (error) {
    throw cannotBeWritten(folder, error);
  }
}

const cannotBeWritten = (folder: string, error: unknown) =>
  new BadInput(`The folder ${folder} cannot be written: ${systemReason(error)}.`);

async function isFolder(target: string, folder: string): Promise<boolean> {
  try {
    if ((await stat(target)).isDirectory()) return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") throw cannotBeWritten(folder, error);
    if (!(await isThere(target))) return false;
    throw new BadInput(`${folder} is a link that leads nowhere; the cut lists need a folder, new or old.`);
  }
  throw new BadInput(`${folder} is a file; the cut lists need the name of a folder, new or old.`);
}

/** Whether anything stands at a path, be it a link that leads nowhere. */
async function isThere(path: string): Promise<boolean> {
  return lstat(path).then(
    () => true,
    () => false,
  );
}

/** No folder may have the name of a file to come, nor a file that of a folder. */
async function checkNames(target: string, folder: string, names: Iterable<string>): Promise<void> {
  const inTheWay = (name: string, what: string) =>
    new BadInput(`The folder ${folder} cannot be written: ${name} in it is a ${what}; nothing was written.`);
  for (const name of names) {
    const above = dirname(name);
    if (above !== ".") {
      const found = await stat(join(target, above)).catch(() => undefined);
      if (found?.isDirectory() === false) throw inTheWay(above, "file");
    }
    const found = await lstat(join(target, name)).catch(() => undefined);
    if (found?.isDirectory()) throw inTheWay(name, "folder");
  }
}

/** Makes the temporary folder the target at once; false when another run has made the target meanwhile. */
async function appearsAt(target: string, temporary: string): Promise<boolean> {
  // mkdtemp makes folders for their owner's eyes only.
  await chmod(temporary, 0o777 & ~process.umask());
  try {
    await rename(temporary, target);
    return true;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    // Windows says EPERM of a folder that is there.
    if (code === "ENOTEMPTY" || code === "EEXIST" || (code === "EPERM" && (await isThere(target))))
      return false;
    throw error;
  }
}

/** Moves files over those of their names. When one cannot be moved, those before it are put back as they were. */
async function moveAll(from: string, to: string, names: readonly string[]): Promise<void> {
  const moved: string[] = [];
  const made: string[] = [];
  const before = (name: string) => join(from, `${name}.before`);
  try {
    for (const name of names) {
      const place = join(to, name);
      const first = await mkdir(dirname(place), { recursive: true });
      if (first) made.push(first);
      if (await isThere(place)) await copyFile(place, before(name));
      await rename(join(from, name), place);
      moved.push(name);
    }
  } catch (error) {
    for (const name of moved) {
      if (await isThere(before(name))) await rename(before(name), join(to, name));
      else await rm(join(to, name), { force: true });
    }
    for (const first of made) await removeEmpty(first, first);
    throw error;
  }
}

/** Takes the folders from `last` up to `first` away again, as far as nobody has put anything there. */
async function removeEmpty(last: string, first: string): Promise<void> {
  for (let folder = last; folder.startsWith(first); folder = dirname(folder)) {
    try {
      await rmdir(folder);
    } catch {
      // Somebody uses it: it stays.
      return;
    }
  }
}

/** Writes a file and waits until it is on the disk. */
async function writeThrough(path: string, content: string | Uint8Array): Promise<void> {
  const file = await open(path, "wx");
  try {
    await file.writeFile(content);
    await file.sync();
  } finally {
    await file.close();
  }
}
