import { parentPort, workerData } from "node:worker_threads";
import { type Asked, type ThreadData, type Told, takeStep } from "./crew.ts";
import { openWorkshop } from "./workshop.ts";

/** What is being worked on is told so often at the most, ms: a search may take thousands of steps a second. */
const PART = 500;

/** The other end of a crew's thread: does the steps that it is asked for, and tells what came of each. */
export function serveThread(): void {
  const port = parentPort;
  if (!port) throw new Error("This is the main thread: there is nobody to serve.");
  const tell = (told: Told) => port.postMessage(told);
  const { flag } = workerData as ThreadData;
  let lastPart = Number.NEGATIVE_INFINITY;
  const workshop = openWorkshop({
    onStage: (stage) => tell({ stage }),
    onPart: (part) => {
      if (performance.now() - lastPart < PART) return;
      lastPart = performance.now();
      tell({ part });
    },
    onBetter: (better) => tell({ better }),
    stop: () => Atomics.load(flag, 0) !== 0,
  });
  port.on("message", ({ id, step, args }: Asked) => {
    try {
      tell({ id, gives: takeStep(workshop, step, args) });
    } catch (fault) {
      tell({ id, fault });
    }
  });
}
