import type { RimPlace } from "../project/schema.ts";
import type { Outline, Run } from "./chain.ts";
import { atMost } from "./outlines/drawn.ts";
import { stationOn } from "./point-at.ts";

/** A rim station told by the run that holds it: `distance` mm from the run's start, `part` of its length. */
export interface PlaceOnRun {
  readonly run: Run;
  readonly distance: number;
  readonly part: number;
}

/** The run that holds a rim station (any number: stations go round). The place where two runs meet belongs to the second. */
export function runAt(outline: Outline, station: number): PlaceOnRun {
  const { chain, runs } = outline;
  let nearest: PlaceOnRun | undefined;
  for (const run of runs) {
    const distance = stationOn(chain, station - run.from);
    if (distance < run.length) return { run, distance, part: distance / run.length };
    // Rounding may lose a station between the end of one run and the start of the next: it is the end of the first.
    if (!nearest || distance - run.length < nearest.distance - nearest.run.length)
      nearest = { run, distance, part: 1 };
  }
  if (!nearest) throw new RangeError("The outline has no runs.");
  return { ...nearest, distance: nearest.run.length };
}

/**
 * The rim station (0 ≤ station < outline length, mm) of a place given by run and part, or by run and distance. A run that
 * the outline does not have, or a distance past the run's end, gives a sentence that says what there is.
 */
export function resolveRimPlace(outline: Outline, place: RimPlace): { station: number } | { error: string } {
  const run = outline.runs.find((one) => one.id === place.run);
  if (!run) {
    const known = outline.runs.map((one) => one.id).join(", ");
    return { error: `The outline has no run ${place.run}; it has ${known}.` };
  }
  const distance = "part" in place ? place.part * run.length : place.distance;
  // A place typed from a tape may miss the run's end by a rounding error, not by more.
  if (distance > run.length + 1e-6) {
    const length = atMost(run.length);
    return { error: `${place.run} is ${length} long, so there is no place ${distance} mm from its start.` };
  }
  return { station: stationOn(outline.chain, run.from + Math.min(distance, run.length)) };
}
