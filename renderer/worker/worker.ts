import { expose, transfer, wrap } from "comlink";
import { makeBreath } from "./breath.ts";
import { type Cutter, cutHere, cutThere } from "./cutter.ts";
import { type Cutting, makeCutting } from "./cutting.ts";
import type { Job, Part } from "./messages.ts";
import { makeRehearsal } from "./rehearsal.ts";
import { makeJobRunner, type Outcome } from "./run-job.ts";
import { makeStages } from "./stages.ts";
import { makeTrials, type Trials } from "./trials.ts";

/** What the window may ask of the worker. A newer job stops the one under way at its next pause. */
export interface WorkerApi extends Trials {
  run(job: Job, tell: (part: Part) => void): Promise<Outcome>;
  /** Makes ready for drags of a job's shell, until a job comes. */
  rehearse(job: Job): Promise<void>;
  /** From now on kits are cut at the other end of a port, or for whoever is there. */
  cutAt(port: MessagePort): void;
  cutFor(port: MessagePort): void;
}

const breathe = () => new Promise<void>((resume) => setTimeout(resume, 0));
const stages = makeStages();
let cutter: Cutter = cutHere(makeBreath(breathe));
let leaveOff = () => {};
const runJob = makeJobRunner(breathe, stages, (...order) => cutter(...order));
const rehearse = makeRehearsal(breathe);
let newest = 0;

const api: WorkerApi = {
  ...makeTrials(stages),
  async run(job, tell) {
    const own = ++newest;
    leaveOff();
    const heard: unknown[] = [];
    const outcome = await runJob(job, {
      tell: (part) => heard.push(tell(transfer(part, buffersOf(part)))),
      stopped: () => own !== newest,
    });
    await Promise.all(heard);
    return outcome;
  },
  rehearse(job) {
    const own = newest;
    return rehearse(job, () => own !== newest);
  },
  cutAt(port) {
    const cutting = wrap<Cutting>(port);
    cutter = cutThere(cutting);
    leaveOff = () => void cutting.leaveOff();
  },
  cutFor(port) {
    expose(makeCutting(makeBreath(breathe)), port);
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
