import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { packMarker } from "../../core/packing/pack-marker.ts";
import { readInstances } from "../packing/instances.ts";
import { type Raced, race } from "../packing/race.ts";
import { shopOrder } from "../packing/shop-order.ts";
import { BenchError } from "./against.ts";
import type { Stage } from "./stage.ts";

const steps = (way: "hand" | "table", quantity: number, count: number) => () =>
  packMarker(shopOrder(way, quantity), { until: (made) => made >= count });

export const stages: Stage[] = [
  { name: "packing: first plan for 120 pieces, hand cut", run: steps("hand", 10, 1) },
  { name: "packing: 500 steps for 36 pieces, hand cut", run: steps("hand", 3, 500) },
  { name: "packing: 500 steps for 36 pieces, table cut", run: steps("table", 3, 500) },
];

/**
 * Packs every instance in the files of a folder, one after the other, each for so many seconds on two threads, and tells of
 * each as it is done; every layout is proved free of overlap first. Files of other formats are told to `skip`.
 */
export async function benchPacking(
  folder: string,
  seconds: number,
  tell: (row: Raced) => void,
  skip: (file: string) => void,
): Promise<void> {
  if (!statSync(folder, { throwIfNoEntry: false })?.isDirectory())
    throw new BenchError(`There is no folder ${folder}.`);
  for (const file of readdirSync(folder).sort()) {
    const path = join(folder, file);
    const instances = statSync(path).isFile() ? readInstances(readFileSync(path, "utf8")) : null;
    if (instances === null) skip(file);
    else for (const instance of instances) tell(await race(instance, seconds));
  }
}
