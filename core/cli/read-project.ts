import { readFile, stat } from "node:fs/promises";
import { parseProject } from "../project/parse.ts";
import type { Project } from "../project/schema.ts";
import { BadInput, systemReason } from "./bad-input.ts";
import type { Terminal } from "./terminal.ts";

/** No project file comes near this size, bytes. */
const MOST_BYTES = 20e6;

/** Reads a project file. Throws BadInput with a sentence for each problem of the file; tells what was migrated. */
export async function readProject(file: string, terminal: Terminal): Promise<Project> {
  const parsed = parseProject(await readText(file));
  if (!parsed.ok) throw new BadInput(...parsed.problems.map(({ sentence }) => `${file}: ${sentence}`));
  for (const change of parsed.migrated) terminal.say(`${file}: brought up to date: ${change}\n`);
  return parsed.project;
}

async function readText(file: string): Promise<string> {
  try {
    const { size } = await stat(file);
    if (size > MOST_BYTES) {
      throw new BadInput(`${file} cannot be a project file: it has ${Math.round(size / 1e6)} MB.`);
    }
    return await readFile(file, "utf8");
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw new BadInput(
      `${file} cannot be read: ${systemReason(error)}. A project file (*.ribband.json) is wanted.`,
    );
  }
}
