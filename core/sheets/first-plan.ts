import type { CutLot } from "../cutting/lots/cut-lot.ts";
import { fixed } from "../units/print.ts";

/** What a first plan of a lot takes of each material, as a list in a sentence: metres of roll, sheets, bars. */
export function firstPlanWords({ demand, markers, strips }: CutLot): string {
  const takes = demand.map(({ material: { id, kind } }) => {
    if (kind === "strip") {
      const bars = strips.find(({ material }) => material === id)?.plan.bars ?? [];
      return `${id} ${bars.reduce((sum, { times }) => sum + times, 0)} bars`;
    }
    const own = markers.find(({ material }) => material === id)?.plan.markers ?? [];
    if (kind === "sheet") return `${id} ${own.length} sheets`;
    return `${id} ${fixed(own.reduce((sum, { usedMm }) => sum + usedMm, 0) / 1000, 1)} m of roll`;
  });
  return takes.join(", ");
}
