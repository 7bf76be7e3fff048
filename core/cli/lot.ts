import { join } from "node:path";
import { kitForLot } from "../cutting/lot.ts";
import { cutLot } from "../cutting/lots/cut-lot.ts";
import type { LotModel } from "../cutting/lots/lot-model.ts";
import { unwatched } from "../cutting/lots/watch.ts";
import type { Lot } from "../project/lot-schema.ts";
import { parseLot } from "../project/parse-lot.ts";
import { cutListWorkbook } from "../sheets/cut-list-xlsx.ts";
import { fileNamesFor } from "../sheets/file-names.ts";
import { firstPlanWords } from "../sheets/first-plan.ts";
import { lotFiles } from "../sheets/lot-csv.ts";
import { lotReport, toldOfModel } from "../sheets/lot-report.ts";
import { lotTables } from "../sheets/lot-tables.ts";
import { BadFile, BadInput } from "./bad-input.ts";
import { type CallCrew, type Crew, shownOn } from "./crew.ts";
import { cuttingRoomFiles, type SheetOptions, writeCuttingRoom } from "./cutting-room.ts";
import {
  type BegunModel,
  beginModels,
  finishModels,
  type LeftOut,
  type LotProjects,
  readProjects,
} from "./lot-models.ts";
import { planLot } from "./plan-lot.ts";
import { type Progress, progressOn } from "./progress.ts";
import type { Terminal } from "./terminal.ts";
import { checkFolder } from "./write-folder.ts";

export interface LotOptions {
  readonly shells: number;
  readonly out: string | undefined;
  readonly json: boolean;
  /** How long each material's plan is improved, s; undefined: for a fixed number of steps. */
  readonly seconds?: number | undefined;
  /** Undefined: only lists are written. */
  readonly sheets?: SheetOptions | undefined;
}

/**
 * `ribband kit LOT`: cuts a whole lot and prints what it takes, its projects worked on side by side by a crew. A project that cannot be read or
 * built is left out and told, and the rest is done; exit code 1 where that is a fault of ours, 2 when anything is left out, missing, adrift, unsound or cannot be cut, BadInput when nothing
 * can be done.
 */
export async function lotCommand(
  file: string,
  text: string,
  options: LotOptions,
  terminal: Terminal,
  callCrew: CallCrew,
): Promise<number> {
  const lot = lotFrom(file, text, options);
  if (options.out !== undefined) await checkFolder(options.out);
  const progress = progressOn(terminal);
  const read = await readProjects(file, lot, terminal);
  const crew = callCrew(handsFor(read, options), shownOn(progress));
  try {
    return await cutAndPrint(file, lot, read, options, { terminal, progress, crew });
  } finally {
    progress.done();
    crew.dismiss();
  }
}

function lotFrom(file: string, text: string, { shells }: LotOptions): Lot {
  const parsed = parseLot(text);
  if (!parsed.ok) throw new BadFile(file, ...parsed.problems.map(({ sentence }) => sentence));
  if (shells === 1) return parsed.lot;
  throw new BadInput(
    `${file} is a lot, which says itself how many shells of each model it wants: leave out --shells.`,
  );
}

/** A hand for each project; by the clock there is work for any number. */
function handsFor({ projects }: LotProjects, { seconds }: LotOptions): number {
  return seconds === undefined ? projects.size : Number.POSITIVE_INFINITY;
}

interface Means {
  readonly terminal: Terminal;
  readonly progress: Progress;
  readonly crew: Crew;
}

async function cutAndPrint(
  file: string,
  lot: Lot,
  read: LotProjects,
  options: LotOptions,
  { terminal, progress, crew }: Means,
): Promise<number> {
  let ours = false;
  const onOurFault = () => {
    ours = true;
  };
  const none = (leftOut: readonly LeftOut[]) =>
    new BadInput(...leftOut.map(({ model, says }) => `${model}: ${says}`));
  const begun = await beginModels(file, lot, read, crew, onOurFault);
  if (begun.good.length === 0) throw none(begun.leftOut);
  tellFirstPlan(begun.good, lot, progress);
  const finished = await finishModels(begun.good, onOurFault);
  const leftOut = [...begun.leftOut, ...finished.leftOut];
  const good = finished.cut;
  if (good.length === 0) throw none(leftOut);
  const models = good.map(({ label, project, shells, cut }): LotModel => {
    return { label, project, kit: kitForLot(project, cut.kit, shells) };
  });
  const cut = await planLot(models, lot, options.seconds, crew, progress, onOurFault);
  const files = new Map<string, string | Uint8Array>();
  if (options.out !== undefined) {
    for (const [name, content] of [...lotFiles(cut), ...workbooks(models)]) files.set(name, content);
    if (options.sheets)
      for (const [name, content] of await cuttingRoomFiles(cut, options.sheets, progress))
        files.set(name, content);
  }
  const flawsOf = await Promise.all(good.map((each) => each.flaws));
  const told = good.map(({ label, cut: done }, i) => toldOfModel(label, { ...done, flaws: flawsOf[i] }));
  const [uncut, adrift, flaws, doubts] = (["uncut", "adrift", "flaws", "doubts"] as const).map((list) =>
    told.flatMap((each) => each[list]),
  );
  const json = `${JSON.stringify(lotReport(cut, { leftOut, uncut, adrift, flaws, doubts }), null, 2)}\n`;
  files.set("lot.json", json);
  if (options.out !== undefined) await writeCuttingRoom(options.out, files, progress, terminal);
  progress.done();
  const toLookAt = [...flaws, ...adrift, ...doubts];
  terminal.print(options.json ? json : lotTables(cut, { leftOut, uncut, doubts: toLookAt }));
  if (options.out !== undefined) {
    const written = `\nThe files of the lot were written to ${join(options.out, "/")}\n`;
    if (options.json) terminal.say(written.trimStart());
    else terminal.print(written);
  }
  if (ours) return 1;
  return [leftOut, uncut, cut.findings, flaws, adrift].some((list) => list.length > 0) ? 2 : 0;
}

/** The cut list of each model as a workbook, by file name. */
function workbooks(models: readonly LotModel[]): (readonly [string, Uint8Array])[] {
  const names = fileNamesFor(models.map(({ label }) => label));
  return models.map(({ kit }, i) => [`${names[i]}-cut-list.xlsx`, cutListWorkbook(kit)]);
}

/** A first plan may take so long, ms. */
const FIRST_PLAN = 300;

/** Tells what the lot will take, about, before its bands and their cloth are laid, which takes longer than all else. */
function tellFirstPlan(good: readonly BegunModel[], lot: Lot, progress: Progress): void {
  const models = good.map(({ label, project, first, shells }): LotModel => {
    return { label, project, kit: kitForLot(project, first, shells) };
  });
  const began = performance.now();
  const watch = { ...unwatched, stop: () => performance.now() - began > FIRST_PLAN };
  const plan = cutLot(models, lot, { steps: 1, watch });
  progress.tell(
    (seconds) => `First plan after ${seconds} s, each piece still a rectangle: ${firstPlanWords(plan)}.`,
  );
}
