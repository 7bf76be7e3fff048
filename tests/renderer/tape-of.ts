import type { Site } from "../../core/layup/site.ts";
import type { Project } from "../../core/project/schema.ts";
import { makeResultsStore, type Results } from "../../renderer/worker/results.ts";
import type { Stages } from "../../renderer/worker/stages.ts";
import { makeUnroller } from "../../renderer/worker/unroll.ts";

/** The tape of a project's shell without its zones, as the worker's own code gives it on stages that may know the shell. */
export function tapeOf(project: Project, stages: Stages): Results & { readonly site: Site } {
  const built = stages.shell(project);
  if (!built.ok) throw new Error("The project cannot be built.");
  const { site } = stages.ground(project, built.shell, "preview");
  const steps = makeUnroller()(site, { zones: [], adrift: [] });
  let step = steps.next();
  while (!step.done) step = steps.next();
  return { ...makeResultsStore().getState(), tape: step.value, site };
}
