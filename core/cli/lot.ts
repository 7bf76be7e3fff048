import { dirname, isAbsolute, join } from "node:path";
import { cutKit, firstKit } from "../cutting/cut-kit.ts";
import { cutLot } from "../cutting/lots/cut-lot.ts";
import { clashesWith } from "../cutting/lots/demand.ts";
import { type LotModel, labelsFor } from "../cutting/lots/lot-model.ts";
import { type Laid, layProject } from "../cutting/make-kit.ts";
import type { Lot } from "../project/lot-schema.ts";
import { parseLot } from "../project/parse-lot.ts";
import type { Project } from "../project/schema.ts";
import { cutListWorkbook } from "../sheets/cut-list-xlsx.ts";
import { fileNamesFor } from "../sheets/file-names.ts";
import { firstPlanWords } from "../sheets/first-plan.ts";
import { doubtsOf } from "../sheets/kit-report.ts";
import { lotFiles } from "../sheets/lot-csv.ts";
import { lotReport } from "../sheets/lot-report.ts";
import { lotTables, type ModelWords } from "../sheets/lot-tables.ts";
import { BadInput } from "./bad-input.ts";
import { courseOf, cuttingRoomFiles, type SheetOptions, writeCuttingRoom } from "./cutting-room.ts";
import { type Progress, progressOn } from "./progress.ts";
import { readProject } from "./read-project.ts";
import { refused } from "./refused.ts";
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
 * `ribband kit LOT`: cuts a whole lot and prints what it takes. A project that cannot be read or built is left out and told,
 * and the rest is done; exit code 2 when anything is left out, missing, adrift or doubtful, BadInput when nothing can be done.
 */
export async function lotCommand(
  file: string,
  text: string,
  options: LotOptions,
  terminal: Terminal,
): Promise<number> {
  const parsed = parseLot(text);
  if (!parsed.ok) throw new BadInput(...parsed.problems.map(({ sentence }) => `${file}: ${sentence}`));
  if (options.shells !== 1) {
    throw new BadInput(
      `${file} is a lot, which says itself how many shells of each model it wants: leave out --shells.`,
    );
  }
  const { lot } = parsed;
  if (options.out !== undefined) await checkFolder(options.out);
  const progress = progressOn(terminal);
  const { good, leftOut } = await layModels(file, lot, progress, terminal);
  if (good.length === 0) throw new BadInput(...leftOut.map(({ says }) => says));
  tellFirstPlan(good, lot, progress);
  const models = good.map(({ label, project, laid, shells }): LotModel => {
    // A project that stands there twice is cut once: what is cut of a lay-up is remembered.
    progress.stage(`cutting cloth of ${project.name}`);
    return { label, project, kit: cutKit(project, laid.layup, shells) };
  });
  const words = good.flatMap(({ label, laid }, i): ModelWords[] => {
    const adrift = laid.layup.adrift.map(({ id, why }) => `zone ${id} is adrift: ${why}`);
    const doubts = doubtsOf(laid.layup, models[i].kit).map(({ zone, says }) => `${zone}: ${says}`);
    return [...laid.flaws, ...adrift, ...doubts].map((says) => ({ model: label, says }));
  });
  const unsound = good.some(({ laid }) => laid.flaws.length + laid.layup.adrift.length > 0);
  const cut = cutLot(models, lot, courseOf(options.seconds, progress));
  const json = `${JSON.stringify(lotReport(cut, leftOut), null, 2)}\n`;
  if (options.out !== undefined) {
    const sheets = options.sheets ? await cuttingRoomFiles(cut, options.sheets, progress) : [];
    const names = fileNamesFor(models.map(({ label }) => label));
    const workbooks = models.map(
      ({ kit }, i) => [`${names[i]}-cut-list.xlsx`, cutListWorkbook(kit)] as const,
    );
    const lists = [...lotFiles(cut), ...workbooks, ["lot.json", json] as const];
    await writeCuttingRoom(
      options.out,
      new Map<string, string | Uint8Array>([...lists, ...sheets]),
      progress,
      terminal,
    );
  }
  progress.done();
  terminal.print(options.json ? json : lotTables(cut, leftOut, words));
  if (options.out !== undefined) {
    const written = `\nThe files of the lot were written to ${join(options.out, "/")}\n`;
    if (options.json) terminal.say(written.trimStart());
    else terminal.print(written);
  }
  return leftOut.length > 0 || cut.findings.length > 0 || unsound ? 2 : 0;
}

interface LaidModel {
  readonly label: string;
  readonly project: Project;
  readonly laid: Laid;
  readonly shells: number;
}

interface LaidModels {
  readonly good: readonly LaidModel[];
  /** Projects of the lot that cannot be cut. */
  readonly leftOut: readonly (ModelWords & { readonly project: string })[];
}

/** Lays up the models of a lot; a project that stands there twice once. */
async function layModels(
  file: string,
  lot: Lot,
  progress: Progress,
  terminal: Terminal,
): Promise<LaidModels> {
  const known = new Map<string, { project: Project; laid: Laid }>();
  const faults = new Map<string, string>();
  for (const { project: path } of lot.models) {
    if (known.has(path) || faults.has(path)) continue;
    const place = isAbsolute(path) ? path : join(dirname(file), path);
    try {
      const project = await readProject(place, terminal);
      const laid = layProject(project, progress.stage);
      if (!laid.ok) throw refused(place, laid.refusals);
      known.set(path, { project, laid });
    } catch (error) {
      if (!(error instanceof BadInput)) throw error;
      // The table of what is left out names the file already.
      const own = `${place}: `;
      faults.set(
        path,
        error.sentences.map((says) => (says.startsWith(own) ? says.slice(own.length) : says)).join(" "),
      );
    }
  }
  const lines = lot.models.flatMap(({ project: path, shells }) => {
    const found = known.get(path);
    return found ? [{ ...found, path, shells }] : [];
  });
  const labels = labelsFor(lines.map(({ project }) => project.name));
  const good: LaidModel[] = [];
  const leftOut = [...faults].map(([project, says]) => ({ project, model: project, says }));
  for (const [i, { path, project, laid, shells }] of lines.entries()) {
    const label = labels[i];
    const [clash] = clashesWith(good, { label, project });
    if (clash) {
      leftOut.push({ project: path, model: label, says: `${clash.says}: it is left out.` });
      continue;
    }
    good.push({ label, project, laid, shells });
  }
  return { good, leftOut };
}

/** A first plan may take so long, ms. */
const FIRST_PLAN = 300;

/** Tells what the lot will take, about, before its cloth is laid, which takes longer than all else. */
function tellFirstPlan(good: readonly LaidModel[], lot: Lot, progress: Progress): void {
  const models = good.map(({ label, project, laid, shells }): LotModel => {
    return { label, project, kit: firstKit(project, laid.layup, shells) };
  });
  const began = performance.now();
  const watch = { onStage: () => {}, stop: () => performance.now() - began > FIRST_PLAN };
  const plan = cutLot(models, lot, { steps: 1, watch });
  progress.tell(
    (seconds) =>
      `First plan after ${seconds} s, each piece of cloth still a rectangle: ${firstPlanWords(plan)}.`,
  );
}
