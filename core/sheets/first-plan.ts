import type { CutLot } from "../cutting/lots/cut-lot.ts";
import { barsTake, markersTake } from "../cutting/lots/takes.ts";

/** What a first plan of a lot takes of each material, as a list in a sentence: metres of roll, sheets, bars. */
export function firstPlanWords({ demand, markers, strips }: CutLot): string {
  const takes = demand.flatMap(({ material }) => {
    const { id } = material;
    return [
      ...strips.filter((own) => own.material === id).map(({ plan }) => `${id} ${barsTake(plan)}`),
      ...markers
        .filter((own) => own.material === id)
        .map(({ plan }) => `${id} ${markersTake(material, plan)}`),
    ];
  });
  return takes.join(", ");
}
