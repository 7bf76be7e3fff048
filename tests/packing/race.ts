import { join } from "node:path";
import { Worker } from "node:worker_threads";
import { buildSync } from "esbuild";
import type { MarkerOrder, MarkerPlan } from "../../core/packing/order.ts";
import { type Instance, orderOf, totalArea } from "./instances.ts";
import { provedLength } from "./prove.ts";

/** What came out for an instance; `bestAfter` is when the plan was found. */
export interface Raced {
  readonly name: string;
  /** In the unit of the instance's file. */
  readonly length: number;
  readonly width: number;
  /** Area of the pieces over the area of the strip they take. */
  readonly density: number;
  readonly seconds: number;
  readonly bestAfter: number;
}

/** Sent to a worker. */
export interface Start {
  readonly order: MarkerOrder;
  /** When to stop, ms since 1970. */
  readonly endMs: number;
  /** A marker of this length cannot be made shorter, mm. */
  readonly leastMm: number;
}

/** Part of the time that is left for the threads to end and for the proof, and how much of it at the most, s. */
const [LEFT, MOST_LEFT] = [0.1, 0.5];

/**
 * Packs an instance on several threads at once, each with a seed of its own, and takes the shortest plan after some seconds
 * of wall time, or as soon as one leaves no waste. The plan is proved before it is told.
 */
export async function race(instance: Instance, seconds: number, threads = 2): Promise<Raced> {
  const started = performance.now();
  const endMs = performance.timeOrigin + started + 1000 * (seconds - Math.min(LEFT * seconds, MOST_LEFT));
  program ??= bundled();
  const area = totalArea(instance);
  let best: { readonly plan: MarkerPlan; readonly after: number } | null = null;
  const used = (plan: MarkerPlan) => plan.markers.reduce((sum, { usedMm }) => sum + usedMm, 0);
  const workers = Array.from({ length: threads }, (_, i) => {
    const order = orderOf(instance, i + 1);
    const leastMm = (area / instance.width) * (order.stock[0].widthMm / instance.width) * (1 + 1e-9);
    const workerData: Start = { order, endMs, leastMm };
    const worker = new Worker(program as string, { eval: true, workerData });
    return { worker, leastMm };
  });
  try {
    await Promise.race([
      ...workers.map(
        ({ worker, leastMm }) =>
          new Promise<void>((done, fail) => {
            worker.on("message", (plan: MarkerPlan) => {
              if (best === null || used(plan) < used(best.plan))
                best = { plan, after: (performance.now() - started) / 1000 };
              if (used(plan) <= leastMm) done();
            });
            worker.on("error", fail);
          }),
      ),
      Promise.all(workers.map(({ worker }) => new Promise((done) => worker.on("exit", done)))),
    ]);
  } finally {
    await Promise.all(workers.map(({ worker }) => worker.terminate()));
  }
  const found = best as { readonly plan: MarkerPlan; readonly after: number } | null;
  if (found === null) throw new Error(`${instance.name}: no plan within ${seconds} s`);
  const length = provedLength(instance, found.plan);
  return {
    name: instance.name,
    length: length / instance.parts,
    width: instance.width / instance.parts,
    density: area / (length * instance.width),
    seconds: (performance.now() - started) / 1000,
    bestAfter: found.after,
  };
}

/** The program of a thread, made once: threads do not read TypeScript by themselves. */
let program: string | undefined;

function bundled(): string {
  const entryPoints = [join(import.meta.dirname, "race-worker.ts")];
  return buildSync({ entryPoints, bundle: true, platform: "node", write: false }).outputFiles[0].text;
}
