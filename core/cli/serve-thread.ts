import { parentPort } from "node:worker_threads";
import { type Asked, type Told, takeStep } from "./crew.ts";
import { openWorkshop } from "./workshop.ts";

/** The other end of a crew's thread: does the steps that it is asked for, and tells what came of each. */
export function serveThread(): void {
  const port = parentPort;
  if (!port) throw new Error("This is the main thread: there is nobody to serve.");
  const tell = (told: Told) => port.postMessage(told);
  const workshop = openWorkshop((stage) => tell({ stage }));
  port.on("message", ({ id, step, args }: Asked) => {
    try {
      tell({ id, gives: takeStep(workshop, step, args) });
    } catch (fault) {
      tell({ id, fault });
    }
  });
}
