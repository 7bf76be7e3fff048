import { dirname, isAbsolute, join } from "node:path";
import { kitForLot } from "../cutting/lot.ts";
import { cutLot } from "../cutting/lots/cut-lot.ts";
import { clashesWith } from "../cutting/lots/demand.ts";
import { type LotModel, labelsFor } from "../cutting/lots/lot-model.ts";
import { type MadeKit, makeKit } from "../cutting/make-kit.ts";
import type { Lot } from "../project/lot-schema.ts";
import { parseLot } from "../project/parse-lot.ts";
import type { Project } from "../project/schema.ts";
import { cutListWorkbook } from "../sheets/cut-list-xlsx.ts";
import { fileNamesFor } from "../sheets/file-names.ts";
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
  const { models, leftOut, words, unsound } = await cutModels(file, lot, progress, terminal);
  if (models.length === 0) throw new BadInput(...leftOut.map(({ says }) => says));
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

interface CutModels {
  readonly models: readonly LotModel[];
  /** Projects of the lot that cannot be cut. */
  readonly leftOut: readonly (ModelWords & { readonly project: string })[];
  /** What to look at in the kits of the others. */
  readonly words: readonly ModelWords[];
  /** Whether a zone is adrift or a surface failed its self-check. */
  readonly unsound: boolean;
}

type Good = MadeKit & { readonly ok: true };

/** The kit of each line of a lot; a project that stands there twice is cut once. */
async function cutModels(file: string, lot: Lot, progress: Progress, terminal: Terminal): Promise<CutModels> {
  const made = new Map<string, { project: Project; kit: Good }>();
  const faults = new Map<string, string>();
  for (const { project: path } of lot.models) {
    if (made.has(path) || faults.has(path)) continue;
    const place = isAbsolute(path) ? path : join(dirname(file), path);
    try {
      const project = await readProject(place, terminal);
      const kit = makeKit(project, 1, progress.stage);
      if (!kit.ok) throw refused(place, kit.refusals);
      made.set(path, { project, kit });
    } catch (error) {
      if (!(error instanceof BadInput)) throw error;
      faults.set(path, error.sentences.join(" "));
    }
  }
  const good = lot.models.filter(({ project }) => made.has(project));
  const labels = labelsFor(good.map(({ project }) => made.get(project)?.project.name ?? ""));
  const models: LotModel[] = [];
  const leftOut = [...faults].map(([project, says]) => ({ project, model: project, says }));
  const words: ModelWords[] = [];
  let unsound = false;
  good.forEach(({ project: path, shells }, i) => {
    const found = made.get(path);
    if (!found) return;
    const { project, kit } = found;
    const label = labels[i];
    const [clash] = clashesWith(models, { label, project });
    if (clash) {
      leftOut.push({ project: path, model: label, says: `${clash.says}: it is left out.` });
      return;
    }
    models.push({ label, project, kit: kitForLot(project, kit.kit, shells) });
    const adrift = kit.layup.adrift.map(({ id, why }) => `zone ${id} is adrift: ${why}`);
    if (kit.flaws.length + adrift.length > 0) unsound = true;
    const doubts = doubtsOf(kit.layup, kit.kit).map(({ zone, says }) => `${zone}: ${says}`);
    words.push(...[...kit.flaws, ...adrift, ...doubts].map((says) => ({ model: label, says })));
  });
  return { models, leftOut, words, unsound };
}
