import type { Project, ZoneSpec } from "../../../core/project/schema.ts";
import { makeStages } from "../../../renderer/worker/stages.ts";
import { makeTrials } from "../../../renderer/worker/trials.ts";

/** Trials without a worker: the same code on this thread. */
export function trialsHere() {
  const trials = makeTrials(makeStages());
  return {
    ...trials,
    laying: (project: Project) => async (zones: readonly ZoneSpec[]) => trials.lay(project, zones),
  };
}
