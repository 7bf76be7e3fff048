import type { Outline } from "../plan/chain.ts";
import type { FittingSpec } from "../project/schema.ts";
import type { Refusal } from "./shell.ts";

/** Fittings on the wall whose place the outline does not have: none is lost in silence. Lengths mm. */
export function checkFittings(fittings: readonly FittingSpec[], outline: Outline): Refusal[] {
  return fittings.flatMap(({ id, at }, i): Refusal[] => {
    if (!("wall" in at)) return [];
    const path = `shell.fittings[${i}].at.wall`;
    const place = at.wall;
    const run = outline.runs.find((one) => one.id === place.run);
    if (!run) {
      const wouldWork = `one of ${outline.runs.length} runs: ${outline.runs.map((one) => one.id).join(", ")}`;
      return [
        {
          path: `${path}.run`,
          value: place.run,
          why: `${id} is on ${place.run}, which is no run of this outline`,
          wouldWork,
        },
      ];
    }
    if (!("distance" in place) || place.distance <= run.length + 1e-6) return [];
    return [
      {
        path: `${path}.distance`,
        value: place.distance,
        why: `${id} is ${place.distance} mm along ${run.id}, which is ${Math.floor(run.length)} mm long`,
        wouldWork: `at most ${Math.floor(run.length)} mm`,
      },
    ];
  });
}
