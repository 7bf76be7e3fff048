import type { Job } from "./messages.ts";
import { makeJobRunner } from "./run-job.ts";

/** After so many shapes, and the full result before them, the engine has made the code for them about as quick as it gets. */
const TIMES = 4;

/**
 * Makes a rehearsal of drags: shapes that nobody sees, worked out while there is nothing else to do. A worker's first shapes take
 * several times as long as those after them, and as much again beside them, until the engine has compiled what they run through; a drag
 * is to find that done. One that was stopped goes on another time.
 */
export function makeRehearsal(
  breathe: () => Promise<void>,
): (job: Job, stopped: () => boolean) => Promise<void> {
  let left = TIMES;
  return async (job, stopped) => {
    while (left > 0 && !stopped()) {
      left--;
      // By a runner of its own each time: one that remembers the shape would not work it out again.
      await makeJobRunner(breathe)({ ...job, quality: "shape" }, { tell() {}, stopped });
      await breathe();
    }
  };
}
