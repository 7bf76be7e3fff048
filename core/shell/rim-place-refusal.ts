import type { Outline } from "../plan/chain.ts";
import { nearestWord } from "../project/nearest-word.ts";
import type { RimPlace } from "../project/schema.ts";
import type { Refusal } from "./shell.ts";
import { tenths } from "./tenths.ts";

/**
 * Why a place on the rim is none of this outline (a run that it does not have, a distance in mm past the run's end), by the
 * path of the figure that is wrong; undefined for a place that is there. `path` leads to the place, `who` stands at it.
 */
export function refuseRimPlace(
  outline: Outline,
  place: RimPlace,
  path: string,
  who: string,
): Refusal | undefined {
  const runs = outline.runs.map(({ id }) => id);
  const run = outline.runs.find(({ id }) => id === place.run);
  if (!run) {
    const meant = nearestWord(place.run, runs);
    return {
      path: `${path}.run`,
      value: place.run,
      why: `${who} is on ${place.run}, which is no run of this outline`,
      wouldWork: `${meant ? `${meant}, if that is meant, or another` : "one"} of ${runs.length} runs: ${runs.join(", ")}`,
    };
  }
  if (!("distance" in place) || place.distance <= run.length + 1e-6) return undefined;
  return {
    path: `${path}.distance`,
    value: place.distance,
    why: `${who} is ${tenths(place.distance)} mm along ${run.id}, which is ${Math.floor(run.length)} mm long`,
    wouldWork: `at most ${Math.floor(run.length)} mm`,
  };
}
