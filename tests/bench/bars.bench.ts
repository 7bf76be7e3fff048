/** How long bars take to cut, and `npm run bench -- bars FILE` for instances of the shared one-dimensional format. */
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { cutBars } from "../../core/cutting/bars/cut-bars.ts";
import { cutting5600 } from "../bars/cutting-5600.ts";
import { readBarInstances } from "../bars/instances.ts";
import { BenchError } from "./against.ts";
import type { Stage } from "./stage.ts";

const bare = { kerfMm: 0, endTrimMm: 0, keepFromMm: 0 };

/** Strips like those of ten shells, every rib of another length, from two lengths of stock with kerf and end trim. */
const ribs = Array.from({ length: 60 }, (_, k) => ({
  id: `rib ${k}`,
  lengthMm: 700 + ((k * 617) % 1100) + (k % 10) / 10,
  quantity: 10,
}));
const strips = [
  { id: "2440", lengthMm: 2440 },
  { id: "3000", lengthMm: 3000 },
];

export const stages: Stage[] = [
  { name: "bars: the 5600 problem", run: () => cutBars(cutting5600, [{ id: "roll", lengthMm: 5600 }], bare) },
  {
    name: "bars: 600 ribs from two lengths",
    run: () => cutBars(ribs, strips, { kerfMm: 3, endTrimMm: 10, keepFromMm: 400 }),
  },
];

/** One line of `bench -- bars`: how many bars, how many are needed at least, and how long that took. */
export interface BarsRow {
  readonly name: string;
  readonly bars: number;
  readonly bound: number;
  readonly seconds: number;
}

/** Cuts each instance of a file, for so many seconds at most. Throws a BenchError for a file that is not in the shared format. */
export function* benchBars(path: string, seconds: number): Generator<BarsRow> {
  for (const { name, capacity, demands } of read(path)) {
    const started = performance.now();
    const spent = () => (performance.now() - started) / 1000;
    // A little is left for what goes on between two questions.
    const stop = () => spent() > 0.9 * seconds;
    const plan = cutBars(demands, [{ id: "bar", lengthMm: capacity }], { ...bare, effort: Infinity, stop });
    if (plan.tooLong.length > 0) throw new BenchError(`${path}, ${name}: ${plan.tooLong[0].says}`);
    yield { name, bars: plan.cost, bound: plan.bound, seconds: Number(spent().toFixed(3)) };
  }
}

function read(path: string) {
  try {
    return readBarInstances(readFileSync(path, "utf8"), basename(path, ".json"));
  } catch (error) {
    throw new BenchError(`${path}: ${error instanceof Error ? error.message : error}`);
  }
}
