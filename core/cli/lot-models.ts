import { dirname, isAbsolute, join } from "node:path";
import type { Kit } from "../cutting/kit.ts";
import { clashesWith } from "../cutting/lots/demand.ts";
import { labelsFor } from "../cutting/lots/lot-model.ts";
import type { Lot } from "../project/lot-schema.ts";
import type { Project } from "../project/schema.ts";
import type { ModelWords } from "../sheets/lot-tables.ts";
import { BadFile } from "./bad-input.ts";
import type { Crew, Hand } from "./crew.ts";
import { ourFaultIn } from "./our-fault.ts";
import { readProject } from "./read-project.ts";
import { refused } from "./refused.ts";
import type { Terminal } from "./terminal.ts";
import type { CutProject } from "./workshop.ts";

/** The projects of a lot by the paths that it gives them, each once, and what is wrong with those that cannot be had. */
export interface LotProjects {
  readonly projects: ReadonlyMap<string, Project>;
  readonly faults: ReadonlyMap<string, string>;
}

/** A line of a lot whose shell is built. */
export interface BegunModel {
  readonly label: string;
  readonly project: Project;
  readonly shells: number;
  /** Of its file, as the lot has it. */
  readonly path: string;
  /** The kit for one shell with each piece still a rectangle. */
  readonly first: Kit;
  /** Has the rest of the project done where it was begun: once, however often it is asked for. */
  readonly finish: () => Finished;
}

/** What is being done for a project that is begun. */
interface Finished {
  readonly cut: Promise<CutProject>;
  /** What the self-check finds, in words. */
  readonly flaws: Promise<readonly string[]>;
}

export interface BegunModels {
  readonly good: readonly BegunModel[];
  /** Projects of the lot that cannot be cut. */
  readonly leftOut: readonly LeftOut[];
}

/** A project that cannot be cut, and why. */
export interface LeftOut extends ModelWords {
  readonly project: string;
}

/** A line of a lot that is cut. */
export interface CutModel extends BegunModel {
  readonly cut: CutProject;
  /** What the self-check finds, in words; it goes on while plans are made. */
  readonly flaws: Promise<readonly string[]>;
}

/** Reads the projects of a lot, whose paths are seen from its own file. */
export async function readProjects(file: string, lot: Lot, terminal: Terminal): Promise<LotProjects> {
  const projects = new Map<string, Project>();
  const faults = new Map<string, string>();
  for (const { project: path } of lot.models) {
    if (projects.has(path) || faults.has(path)) continue;
    try {
      projects.set(path, await readProject(placeOf(file, path), terminal));
    } catch (error) {
      faults.set(path, faultOf(error));
    }
  }
  return { projects, faults };
}

/**
 * Builds the shells of a lot, shared out among the hands of a crew. What cannot be built, by its own fault or ours (`onOurFault`), or means a material
 * otherwise than a model before it, is left out.
 */
export async function beginModels(
  file: string,
  lot: Lot,
  { projects, faults }: LotProjects,
  { hands }: Crew,
  onOurFault: () => void,
): Promise<BegunModels> {
  const known = new Map<string, Omit<BegunModel, "label" | "shells">>();
  const lacking = new Map(faults);
  const all = [...projects].map(async ([path, project], number) => {
    const hand = hands[number % hands.length];
    const begun = await hand("begin", number, project).catch((fault: unknown) => {
      onOurFault();
      return { ok: null, says: ourFaultIn(fault) } as const;
    });
    return { path, project, begun, finish: once(() => finished(hand, number)) };
  });
  for (const { begun, ...work } of await Promise.all(all)) {
    const { path } = work;
    if (begun.ok === null) lacking.set(path, begun.says);
    else if (begun.ok) known.set(path, { ...work, first: begun.first });
    else lacking.set(path, faultOf(refused(placeOf(file, path), work.project, begun.refusals)));
  }
  const lines = lot.models.flatMap(({ project: path, shells }) => {
    const found = known.get(path);
    return found ? [{ ...found, shells }] : [];
  });
  const labels = labelsFor(lines.map(({ project }) => project.name));
  const good: BegunModel[] = [];
  const leftOut = [...lacking].map(([project, says]) => ({ project, model: project, says }));
  for (const [i, line] of lines.entries()) {
    const label = labels[i];
    const [clash] = clashesWith(good, { label, project: line.project });
    if (clash) leftOut.push({ project: line.path, model: label, says: `${clash.says}: it is left out.` });
    else good.push({ label, ...line });
  }
  return { good, leftOut };
}

/**
 * Has the rest done of all that is begun. A project in which we have a fault is left out, or, where only its self-check has one, told as unsound:
 * what is begun beside it is finished.
 */
export async function finishModels(
  begun: readonly BegunModel[],
  onOurFault: () => void,
): Promise<{ readonly cut: readonly CutModel[]; readonly leftOut: readonly LeftOut[] }> {
  const fault = (found: unknown): string => {
    onOurFault();
    return ourFaultIn(found);
  };
  const all = begun.map(async (model): Promise<CutModel | LeftOut> => {
    const { cut, flaws } = model.finish();
    const checked = flaws.catch((found: unknown) => [fault(found)]);
    try {
      return { ...model, cut: await cut, flaws: checked };
    } catch (found) {
      return { project: model.path, model: model.label, says: fault(found) };
    }
  });
  const ended = await Promise.all(all);
  return {
    cut: ended.filter((each) => "cut" in each),
    leftOut: ended.filter((each) => "says" in each),
  };
}

const finished = (hand: Hand, number: number): Finished => ({
  cut: hand("cut", number),
  flaws: hand("check", number),
});

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

const placeOf = (file: string, path: string) => (isAbsolute(path) ? path : join(dirname(file), path));

/** What is wrong with a project, without the name of its file: the table of what is left out has it. */
function faultOf(error: unknown): string {
  if (error instanceof BadFile) return error.faults.join(" ");
  throw error;
}
