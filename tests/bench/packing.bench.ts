import { packMarker } from "../../core/packing/pack-marker.ts";
import { type Raced, race } from "../packing/race.ts";
import { readInstances } from "../packing/read-instances.ts";
import { shopOrder } from "../packing/shop-order.ts";
import { instancesAt, type Odd } from "./instance-file.ts";
import type { Stage } from "./stage.ts";

const steps = (way: "hand" | "table", quantity: number, count: number) => () =>
  packMarker(shopOrder(way, quantity), { until: (made) => made >= count });

export const stages: Stage[] = [
  { name: "packing: first plan for 120 pieces, hand cut", run: steps("hand", 10, 1) },
  { name: "packing: 500 steps for 36 pieces, hand cut", run: steps("hand", 3, 500) },
  { name: "packing: 500 steps for 36 pieces, table cut", run: steps("table", 3, 500) },
];

/**
 * Packs every instance in a file or in the files of a folder, one after the other, each for so many seconds on two threads, and gives a
 * row for each as it is done; every layout is proved free of overlap first. What cannot be packed has a row with the reason.
 */
export async function* benchPacking(path: string, seconds: number): AsyncGenerator<Raced | Odd> {
  for (const entry of instancesAt(path, readInstances)) {
    if ("problem" in entry) yield entry;
    else
      yield await race(entry.instance, seconds).catch(
        (error): Odd => ({ name: entry.name, problem: `cannot be packed: ${error.message}` }),
      );
  }
}
