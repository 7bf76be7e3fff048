/** One thread of a race: packs until its time is over and tells of every better plan. */
import { parentPort, workerData } from "node:worker_threads";
import { packMarker } from "../../core/packing/pack-marker.ts";
import type { Start } from "./race.ts";

const { order, endMs, leastMm } = workerData as Start;
const isOver = () => performance.timeOrigin + performance.now() >= endMs;
let least = false;
const packed = packMarker(order, {
  until: () => least || isOver(),
  onBest: (plan) => {
    parentPort?.postMessage(plan);
    least = plan.markers.reduce((sum, { usedMm }) => sum + usedMm, 0) <= leastMm;
  },
});
if (!packed.ok) throw new Error(packed.why);
