import { cutInSteps } from "../../core/cutting/cut-kit.ts";
import type { Layup } from "../../core/layup/laid.ts";
import type { Site } from "../../core/layup/site.ts";
import { guessLines } from "../../core/shell/line-guesses.ts";
import type { Shell } from "../../core/shell/shell.ts";
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

/** Longest time worked without looking up for a newer job, ms. */
const BREATH_MS = 25;
const FINER: readonly Fineness[] = ["sketch", "preview", "full"];

/**
 * Makes a runner of jobs: project → shell → lines → lay-up, then kit and tape, each told as soon as it is there; and, as a job of its own,
 * the shell's full mesh and its measures.
 * `breathe` lets messages in. What was told before and has not changed is not told again.
 */
export function makeJobRunner(breathe: () => Promise<void>, stages = makeStages()) {
  const layupView = makeLayupView();
  const unroll = makeUnroller();
  const told = new Map<Part["kind"], unknown>();
  /** The finest mesh told of the shell that was told last. */
  let shown: { readonly shell: Shell; readonly fineness: Fineness } | null = null;
  /** Shells whose lines are known as exactly as they get: a zone dragged on one is laid where it will stay. */
  const known = new WeakSet<Shell>();
  let last = performance.now();

  /** Pauses if it is time; true if the job is to stop. */
  const stopAt = async ({ stopped }: Listener, now = false) => {
    if (now || performance.now() - last > BREATH_MS) {
      await breathe();
      last = performance.now();
    }
    return stopped();
  };

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

  /** Runs steps to their end, with pauses; null if the job is to stop before. */
  const inSteps = async <T>(steps: Generator<void, T>, listener: Listener): Promise<T | null> => {
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
      if (await stopAt(listener)) return null;
    }
  };

  const measure = async (job: Job, shell: Shell, listener: Listener): Promise<Outcome> => {
    show(job, shell, "full", listener);
    if (await stopAt(listener, true)) return "stopped";
    const measured = stages.measure(job.project, shell);
    tellOnce(listener, measured, () => ({ kind: "measure", measure: measureView(measured) }), "measure");
    return "done";
  };

  /** Cuts the kit and tells it; false if the job is to stop before. */
  const cut = async (job: Job, layup: Layup, listener: Listener): Promise<boolean> => {
    listener.tell({ kind: "stage", name: "kit" });
    if ((await inSteps(cutInSteps(job.project, layup), listener)) === null) return false;
    const kit = stages.kit(job.project, layup, job.shells);
    tellOnce(listener, kit, () => ({ kind: "kit", kit }), "kit");
    return true;
  };

  /** Unrolls the wall and tells it; false if the job is to stop before. */
  const unrolled = async (site: Site, layup: Layup, listener: Listener): Promise<boolean> => {
    listener.tell({ kind: "stage", name: "tape" });
    const tape = await inSteps(unroll(site, layup), listener);
    if (tape) listener.tell({ kind: "tape", tape });
    return tape !== null;
  };

  return async (job: Job, listener: Listener): Promise<Outcome> => {
    const { project, quality } = job;
    last = performance.now();
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
    if (await stopAt(listener, true)) return "stopped";

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
    if (await stopAt(listener, true)) return "stopped";

    listener.tell({ kind: "stage", name: "layup" });
    const layup = await inSteps(stages.layup(project, shell, fineness), listener);
    if (!layup) return "stopped";
    listener.tell({ kind: "layup", layup: layupView(layup, project.shop) });
    if (quality !== "full") return "done";
    if (await stopAt(listener, true)) return "stopped";

    const { site } = stages.ground(project, shell, fineness);
    const rest = [() => cut(job, layup, listener), () => unrolled(site, layup, listener)];
    for (const go of job.first === "tape" ? rest.reverse() : rest) {
      if (!(await go())) return "stopped";
      if (await stopAt(listener, true)) return "stopped";
    }
    return "done";
  };
}
