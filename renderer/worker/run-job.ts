import type { Layup } from "../../core/layup/laid.ts";
import type { Site } from "../../core/layup/site.ts";
import { guessLines } from "../../core/shell/line-guesses.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { inSteps, makeBreath } from "./breath.ts";
import { cutHere } from "./cutter.ts";
import type { Job, Part } from "./messages.ts";
import { type Fineness, makeStages } from "./stages.ts";
import { makeUnroller } from "./unroll.ts";
import { guessedLines, lineViews, makeLayupView, measureView, shellView } from "./views.ts";

/** How a job speaks to whoever asked for it. */
export interface Listener {
  tell(part: Part): void;
  /** True once a newer job is wanted: this one stops at the next pause. */
  stopped(): boolean;
}

export type Outcome = "done" | "refused" | "stopped";

const FINER: readonly Fineness[] = ["sketch", "preview", "full"];

/**
 * Makes a runner of jobs: project → shell → lines → lay-up, then kit and tape, each told as soon as it is there; and, as a job of its own,
 * the shell's full mesh and its measures.
 * `breathe` lets messages in. What was told before and has not changed is not told again.
 */
export function makeJobRunner(
  breathe: () => Promise<void>,
  stages = makeStages(),
  cutter = cutHere(makeBreath(breathe)),
) {
  const breath = makeBreath(breathe);
  const layupView = makeLayupView();
  const unroll = makeUnroller();
  const told = new Map<Part["kind"], unknown>();
  /** The finest mesh told of the shell that was told last. */
  let shown: { readonly shell: Shell; readonly fineness: Fineness } | null = null;
  /** Shells whose lines are known as exactly as they get: a zone dragged on one is laid where it will stay. */
  const known = new WeakSet<Shell>();

  /** Tells what hangs on `source` unless that was the last thing told of its kind. */
  const tellOnce = (listener: Listener, source: unknown, part: () => Part, kind: Part["kind"]) => {
    if (told.get(kind) === source) return;
    told.set(kind, source);
    listener.tell(part());
  };

  const show = ({ project }: Job, shell: Shell, fineness: Fineness, listener: Listener) => {
    if (shown?.shell === shell && FINER.indexOf(shown.fineness) >= FINER.indexOf(fineness)) return;
    const view = shellView(shell, stages.mesh(project, shell, fineness), fineness === "full");
    shown = { shell, fineness };
    listener.tell({ kind: "shell", shell: view });
  };

  /**
   * The shape that follows a drag, in one part, so that one frame shows all of it. Exact lines take as long as the mesh: the eye follows
   * by what the mesh shows of them.
   */
  const outline = ({ project }: Job, shell: Shell, listener: Listener) => {
    const mesh = stages.mesh(project, shell, "sketch");
    const lines = guessedLines(guessLines(shell.faces, mesh));
    shown = { shell, fineness: "sketch" };
    told.delete("lines");
    listener.tell({ kind: "shell", shell: shellView(shell, mesh), lines });
  };

  const measure = async (job: Job, shell: Shell, listener: Listener): Promise<Outcome> => {
    show(job, shell, "full", listener);
    if (await breath(listener.stopped, true)) return "stopped";
    const measured = stages.measure(job.project, shell);
    tellOnce(listener, measured, () => ({ kind: "measure", measure: measureView(measured) }), "measure");
    return "done";
  };

  /** Has the kit cut and tells it; false if the job is to stop before. */
  const cut = async (job: Job, layup: Layup, listener: Listener): Promise<boolean> => {
    const kit = await cutter(job, layup, listener.stopped);
    if (kit === null || listener.stopped()) return false;
    tellOnce(listener, kit, () => ({ kind: "kit", kit }), "kit");
    return true;
  };

  /** Unrolls the wall and tells it; false if the job is to stop before. */
  const unrolled = async (site: Site, layup: Layup, listener: Listener): Promise<boolean> => {
    listener.tell({ kind: "stage", name: "tape" });
    const tape = await inSteps(unroll(site, layup), breath, listener.stopped);
    if (tape === null || listener.stopped()) return false;
    listener.tell({ kind: "tape", tape });
    // Only the kit can be left to wait for.
    listener.tell({ kind: "stage", name: "kit" });
    return true;
  };

  return async (job: Job, listener: Listener): Promise<Outcome> => {
    const { project, quality } = job;
    listener.tell({ kind: "stage", name: "shell" });
    const built = stages.shell(project);
    if (!built.ok) {
      listener.tell({ kind: "refused", refusals: built.refusals });
      return "refused";
    }
    const { shell } = built;
    if (quality === "measured") return measure(job, shell, listener);
    const follows = quality === "shape" || quality === "sketch";
    const fineness = follows && !known.has(shell) ? "sketch" : "preview";
    if (quality === "shape" && fineness === "sketch") {
      outline(job, shell, listener);
      return "done";
    }
    show(job, shell, fineness, listener);
    if (await breath(listener.stopped, true)) return "stopped";

    listener.tell({ kind: "stage", name: "lines" });
    const transitions = stages.transitions(project, shell, fineness);
    if (fineness !== "sketch") known.add(shell);
    const { laidThickness } = project.shop;
    tellOnce(
      listener,
      transitions,
      () => ({ kind: "lines", lines: lineViews(transitions, laidThickness) }),
      "lines",
    );
    if (quality === "shape") return "done";
    if (await breath(listener.stopped, true)) return "stopped";

    listener.tell({ kind: "stage", name: "layup" });
    const layup = await inSteps(stages.layup(project, shell, fineness), breath, listener.stopped);
    if (!layup) return "stopped";
    listener.tell({ kind: "layup", layup: layupView(layup, project.shop) });
    if (quality !== "full") return "done";
    if (await breath(listener.stopped, true)) return "stopped";

    const { site } = stages.ground(project, shell, fineness);
    const both = await Promise.all([cut(job, layup, listener), unrolled(site, layup, listener)]);
    return both.includes(false) ? "stopped" : "done";
  };
}
