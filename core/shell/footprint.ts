/**
 * Where a step, ledge, bench or seat stands in the plan, as a chain with the footprint on its left. It reaches past the
 * walls that it stands against, so that only its free edges are seen.
 */
import type { Outline } from "../plan/chain.ts";
import { allRound } from "./all-round.ts";
import { alongRim } from "./along-rim.ts";
import { atEnd, inCorner } from "./end-or-corner.ts";
import type { FootprintAsk, FootprintResult } from "./footprint-ask.ts";

/** Builds a footprint's chain. Refuses, with a figure that would work, what has no room. */
export function buildFootprint(outline: Outline, ask: FootprintAsk): FootprintResult {
  switch (ask.place.kind) {
    case "end":
      return atEnd(outline, ask, ask.place.end);
    case "corner":
      return inCorner(outline, ask, ask.place.corner, ask.place.shape);
    case "along":
      return alongRim(outline, ask, ask.place);
    case "round":
      return allRound(outline, ask);
  }
}
