/** One thread of a race: packs until its time is over and tells of every better plan. */
import { parentPort, workerData } from "node:worker_threads";
import { packMarker } from "../../core/packing/pack-marker.ts";
import type { Start } from "./race.ts";

const { order, seconds, leastMm } = workerData as Start;
const end = performance.now() + 1000 * seconds;
let least = false;
const packed = packMarker(order, {
  until: () => least || performance.now() >= end,
  onBest: (plan) => {
    parentPort?.postMessage(plan);
    least = plan.markers.reduce((sum, { usedMm }) => sum + usedMm, 0) <= leastMm;
  },
});
if (!packed.ok) throw new Error(packed.why);
