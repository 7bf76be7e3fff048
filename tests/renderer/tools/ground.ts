import type { Project } from "../../../core/project/schema.ts";
import { outlineOf } from "../../../renderer/tools/rim-places.ts";
import type { Ground } from "../../../renderer/tools/tool.ts";
import type { LineView, Part, ShellView } from "../../../renderer/worker/messages.ts";
import { makeJobRunner } from "../../../renderer/worker/run-job.ts";
import { makeStages } from "../../../renderer/worker/stages.ts";
import { makeTrials } from "../../../renderer/worker/trials.ts";

/** The ground of a project as the window has it, with the worker's own code on this thread. */
export async function groundOf(project: Project) {
  const stages = makeStages();
  const parts: Part[] = [];
  const run = makeJobRunner(() => Promise.resolve(), stages);
  await run(
    { project, quality: "sketch", shells: 1 },
    { tell: (part) => parts.push(part), stopped: () => false },
  );
  const trials = makeTrials(stages);
  let shell: ShellView | null = null;
  let lines: readonly LineView[] = [];
  for (const part of parts) {
    if (part.kind === "shell") shell = part.shell;
    if (part.kind === "lines") lines = part.lines;
  }
  const outline = outlineOf(project.shell.outline);
  if (!shell || !outline) throw new Error("The project cannot be built.");
  const ground: Ground = {
    project,
    outline,
    shell,
    lines,
    bands: trials.bands(project),
    brush: 300,
    placesOf: async (aims) => trials.places(project, aims),
    zones: project.layup,
  };
  return { ground, shell, trials, stages };
}
