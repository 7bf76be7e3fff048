import { createReadStream } from "node:fs";
import { lstat, stat } from "node:fs/promises";
import { parseProject } from "../project/parse.ts";
import type { Project } from "../project/schema.ts";
import { BadFile, systemReason } from "./bad-input.ts";
import type { Terminal } from "./terminal.ts";

/** No project file comes near this size, bytes. */
const MOST_BYTES = 20e6;

/** Reads a project file. Throws BadFile with a sentence for each problem of the file; tells what was migrated. */
export async function readProject(file: string, terminal: Terminal): Promise<Project> {
  return projectFrom(file, await readText(file), terminal);
}

/** The project of a file's text; throws and tells as `readProject` does. */
export function projectFrom(file: string, text: string, terminal: Terminal): Project {
  const parsed = parseProject(text);
  if (!parsed.ok) throw new BadFile(file, ...parsed.problems.map(({ sentence }) => sentence));
  for (const change of parsed.migrated) terminal.say(`${file}: brought up to date: ${change}\n`);
  return parsed.project;
}

/** The text of a file of any length that a project can have. Throws BadFile with a sentence when it cannot be read. */
export async function readText(file: string): Promise<string> {
  try {
    const found = await stat(file);
    // Some devices never end.
    if (found.isCharacterDevice() || found.isBlockDevice()) throw cannotBeRead(file, "it is a device");
    if (found.size > MOST_BYTES) throw tooLarge(file, found.size);
    // A pipe does not tell its size: it is read to the limit and no further.
    const parts: Buffer[] = [];
    for await (const part of createReadStream(file, { end: MOST_BYTES })) parts.push(part);
    const bytes = Buffer.concat(parts);
    if (bytes.length > MOST_BYTES) throw tooLarge(file, bytes.length);
    return bytes.toString("utf8");
  } catch (error) {
    if (error instanceof BadFile) throw error;
    throw cannotBeRead(
      file,
      (await leadsNowhere(file)) ? "it is a link that leads nowhere" : systemReason(error),
    );
  }
}

const tooLarge = (file: string, bytes: number) =>
  new BadFile(file, `cannot be a project file: it has ${Math.round(bytes / 1e6)} MB or more.`);

const cannotBeRead = (file: string, why: string) =>
  new BadFile(file, `cannot be read: ${why}. A project file (*.ribband.json) is wanted.`);

/** Whether a file that cannot be found is a link to one that is not there. */
async function leadsNowhere(file: string): Promise<boolean> {
  const found = await lstat(file).catch(() => undefined);
  return found?.isSymbolicLink() === true && (await stat(file).catch(() => undefined)) === undefined;
}
