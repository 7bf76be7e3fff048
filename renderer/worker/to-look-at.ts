import type { Results } from "./results.ts";

/** How many things there are to look at: figures that cannot be built, zones adrift, doubts about zones, pieces and the shell. */
export function toLookAt({ refusals, adrift, zones, kit, measure }: Results): number {
  const doubts = zones.reduce((sum, zone) => sum + zone.doubts.length, 0);
  return refusals.length + adrift.length + doubts + (kit?.doubts.length ?? 0) + (measure?.doubts.length ?? 0);
}
