import { expose, transfer } from "comlink";
import type { Job, Part } from "./messages.ts";
import { makeJobRunner, type Outcome } from "./run-job.ts";
import { makeStages } from "./stages.ts";
import { makeTrials, type Trials } from "./trials.ts";

/** What the window may ask of the worker. A newer job stops the one under way at its next pause. */
export interface WorkerApi extends Trials {
  run(job: Job, tell: (part: Part) => void): Promise<Outcome>;
}

const stages = makeStages();
const runJob = makeJobRunner(() => new Promise((resume) => setTimeout(resume, 0)), stages);
let newest = 0;

const api: WorkerApi = {
  ...makeTrials(stages),
  async run(job, tell) {
    const own = ++newest;
    const heard: unknown[] = [];
    const outcome = await runJob(job, {
      tell: (part) => heard.push(tell(transfer(part, buffersOf(part)))),
      stopped: () => own !== newest,
    });
    await Promise.all(heard);
    return outcome;
  },
};

expose(api);

/** Buffers that were made for this part alone and may change hands. */
function buffersOf(part: Part): ArrayBuffer[] {
  const arrays: ArrayBufferView[] = [];
  if (part.kind === "shell") {
    const { positions, normals, triangles, owner, rim } = part.shell;
    arrays.push(
      positions,
      normals,
      triangles,
      owner,
      rim,
      ...part.shell.fittings.map((each) => each.outline),
    );
  } else if (part.kind === "layup") {
    for (const { drawing } of part.layup.zones) {
      if (!drawing) continue;
      const { positions, normals, inCloth, triangles, edges } = drawing;
      arrays.push(positions, normals, inCloth, triangles, edges);
    }
  }
  if (part.kind === "shell" || part.kind === "lines")
    for (const line of part.lines ?? []) arrays.push(line.inside, line.outside);
  return arrays.map((array) => array.buffer as ArrayBuffer);
}
