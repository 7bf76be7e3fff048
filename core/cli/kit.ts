import { join } from "node:path";
import { makeKit } from "../cutting/make-kit.ts";
import { isLotText } from "../project/parse-lot.ts";
import { cutListFiles } from "../sheets/cut-list-csv.ts";
import { kitReport } from "../sheets/kit-report.ts";
import { kitTables } from "../sheets/kit-tables.ts";
import { BadInput } from "./bad-input.ts";
import { lotCommand } from "./lot.ts";
import { progressOn } from "./progress.ts";
import { projectFrom, readText } from "./read-project.ts";
import { refused } from "./refused.ts";
import type { Terminal } from "./terminal.ts";
import { checkFolder, writeFolder } from "./write-folder.ts";

export interface KitOptions {
  readonly shells: number;
  /** Of a lot: how long each material's plan is improved, s; undefined: for a fixed number of steps. */
  readonly seconds?: number | undefined;
  readonly out: string | undefined;
  readonly json: boolean;
}

/**
 * `ribband kit FILE|LOT`: prints the kit of a project (a lot is handed on), writes the cut lists if asked to, and gives the exit code: 2 when a zone is
 * adrift or the shell's surface fails its self-check.
 */
export async function kitCommand(file: string, options: KitOptions, terminal: Terminal): Promise<number> {
  const text = await readText(file);
  if (isLotText(text)) return lotCommand(file, text, options, terminal);
  if (options.seconds !== undefined) {
    throw new BadInput(`--seconds is for a lot (*.ribband-lot.json), and ${file} is a project.`);
  }
  const project = projectFrom(file, text, terminal);
  if (options.out !== undefined) await checkFolder(options.out);
  const progress = progressOn(terminal);
  const made = makeKit(project, options.shells, progress.stage);
  progress.done();
  if (!made.ok) throw refused(file, made.refusals);
  const { layup, kit, flaws } = made;
  const json = `${JSON.stringify(kitReport(project.name, layup, kit, flaws), null, 2)}\n`;
  // Written before anything is printed, so that a reader who closes the pipe does not cost the files.
  if (options.out !== undefined) {
    const files = new Map([...cutListFiles(kit), ["kit.json", json]]);
    await writeFolder(options.out, files);
  }
  terminal.print(options.json ? json : kitTables(project.name, layup, kit, flaws));
  if (options.out !== undefined) {
    const written = `\nThe cut lists were written to ${join(options.out, "/")}\n`;
    if (options.json) terminal.say(written.trimStart());
    else terminal.print(written);
  }
  return layup.adrift.length > 0 || flaws.length > 0 ? 2 : 0;
}
