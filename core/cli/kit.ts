import { join } from "node:path";
import { ownStock } from "../cutting/lots/own-stock.ts";
import { makeKit } from "../cutting/make-kit.ts";
import { isLotText } from "../project/parse-lot.ts";
import { cutListFiles } from "../sheets/cut-list-csv.ts";
import { cutListWorkbook } from "../sheets/cut-list-xlsx.ts";
import { kitReport, lookedAt } from "../sheets/kit-report.ts";
import { kitTables } from "../sheets/kit-tables.ts";
import { lotReport, toldOfModel } from "../sheets/lot-report.ts";
import { findings } from "../sheets/table.ts";
import { BadInput, withoutFolder } from "./bad-input.ts";
import { type CallCrew, ownHand, shownOn } from "./crew.ts";
import { cuttingRoomFiles, writeCuttingRoom } from "./cutting-room.ts";
import { type LotOptions, lotCommand } from "./lot.ts";
import { planLot } from "./plan-lot.ts";
import { progressOn } from "./progress.ts";
import { projectFrom, readText } from "./read-project.ts";
import { refused } from "./refused.ts";
import type { Terminal } from "./terminal.ts";
import { checkFolder } from "./write-folder.ts";

export interface KitOptions extends LotOptions {
  /** How a single project is cut from rolls and sheets; a lot tells it itself. */
  readonly way?: "hand" | "table" | undefined;
}

/**
 * `ribband kit FILE|LOT`: prints the kit of a project (a lot is handed on), writes the cutting room's files if asked to, and gives the exit
 * code: 2 when a zone is adrift, a piece cannot be cut or fits no roll or sheet, or the shell's surface fails its self-check.
 */
export async function kitCommand(
  file: string,
  options: KitOptions,
  terminal: Terminal,
  callCrew: CallCrew = ownHand,
): Promise<number> {
  const text = await readText(file);
  if (isLotText(text)) {
    if (options.way !== undefined) {
      throw new BadInput(`${file} is a lot, which says itself which way it is cut: leave out --way.`);
    }
    return lotCommand(file, text, options, terminal, callCrew);
  }
  // A project is laid out on rolls and sheets for its files only.
  const idle = (["way", "seconds"] as const).filter((name) => options[name] !== undefined);
  if (options.out === undefined && idle.length > 0) throw withoutFolder(idle.map((name) => `--${name}`));
  const project = projectFrom(file, text, terminal);
  if (options.out !== undefined) await checkFolder(options.out);
  const progress = progressOn(terminal);
  const made = makeKit(project, options.shells, progress.stage, progress.part);
  if (!made.ok) {
    progress.done();
    throw refused(file, project, made.refusals);
  }
  const { layup, kit, flaws } = made;
  const told = { flaws, adjustments: made.shell.adjustments };
  const { uncut, looks } = lookedAt(layup, kit);
  const json = `${JSON.stringify(kitReport(project.name, layup, kit, told), null, 2)}\n`;
  const files = new Map<string, string | Uint8Array>([
    ...cutListFiles(kit),
    ["cut-list.xlsx", cutListWorkbook(kit)],
    ["kit.json", json],
  ]);
  let unfit: readonly string[] = [];
  let doubtful: readonly string[] = [];
  let ours = false;
  if (options.out !== undefined && options.sheets) {
    const lot = {
      name: project.name,
      stock: ownStock(project.materials),
      cutting: { way: options.way ?? "hand" },
    };
    const hands = options.seconds === undefined ? 1 : Number.POSITIVE_INFINITY;
    const crew = callCrew(hands, shownOn(progress));
    const models = [{ label: project.name, project, kit }];
    const onOurFault = () => {
      ours = true;
    };
    const cut = await planLot(models, lot, options.seconds, crew, progress, onOurFault).finally(crew.dismiss);
    for (const [name, content] of await cuttingRoomFiles(cut, options.sheets, progress))
      files.set(name, content);
    const toldOfIt = toldOfModel(project.name, { uncut, adrift: layup.adrift, ...told, doubts: looks });
    files.set("lot.json", `${JSON.stringify(lotReport(cut, { leftOut: [], ...toldOfIt }), null, 2)}\n`);
    unfit = cut.findings;
    doubtful = cut.doubts;
  }
  // Written before anything is printed, so that a reader who closes the pipe does not cost the files.
  if (options.out !== undefined) {
    await writeCuttingRoom(options.out, files, progress, terminal);
  }
  progress.done();
  terminal.print(options.json ? json : kitTables(project.name, layup, kit, told));
  if (options.out !== undefined) {
    const say = options.json ? terminal.say : terminal.print;
    say(findings("\nFits no roll, sheet or bar", unfit));
    say(findings("\nTo look at on rolls and sheets", doubtful));
    say(`${options.json ? "" : "\n"}The files were written to ${join(options.out, "/")}\n`);
  }
  if (ours) return 1;
  return [layup.adrift, flaws, uncut, unfit].some((list) => list.length > 0) ? 2 : 0;
}
