/** How long bars take to cut, and `npm run bench -- bars FILE` for instances of the shared one-dimensional format. */
import { cutBars } from "../../core/cutting/bars/cut-bars.ts";
import { cutting5600 } from "../bars/cutting-5600.ts";
import { readBarInstances } from "../bars/instances.ts";
import { instancesAt, type Odd } from "./instance-file.ts";
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

/** Cuts each instance of a file, or of the files of a folder, for so many seconds at most; what cannot be cut has a row with the reason. */
export function* benchBars(path: string, seconds: number): Generator<BarsRow | Odd> {
  for (const entry of instancesAt(path, readBarInstances)) {
    if ("problem" in entry) {
      yield entry;
      continue;
    }
    const { name, capacity, demands } = entry.instance;
    const started = performance.now();
    const spent = () => (performance.now() - started) / 1000;
    // A little is left for what goes on between two questions.
    const stop = () => spent() > 0.9 * seconds;
    const plan = cutBars(demands, [{ id: "bar", lengthMm: capacity }], { ...bare, effort: Infinity, stop });
    yield { name, bars: plan.cost, bound: plan.bound, seconds: spent() };
  }
}
