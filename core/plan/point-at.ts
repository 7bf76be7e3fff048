import type { Chain } from "./chain.ts";
import { curvatureOf, type Place, segmentAt } from "./segments.ts";

/** A place on a chain, with what the chain does there. */
export interface ChainPlace extends Place {
  /** Signed curvature, 1/mm, positive counter-clockwise. */
  readonly curvature: number;
  readonly segment: number;
}

/** A station brought onto the chain: round a closed chain as often as needed, held to the ends of an open one. */
export function stationOn(chain: Chain, station: number): number {
  const { length, closed } = chain;
  if (!closed) return Math.min(Math.max(station, 0), length);
  const on = station - Math.floor(station / length) * length;
  return on < length ? on : 0;
}

/** The segment that holds a station already on the chain; a joint belongs to the segment after it. */
function segmentIndexAt(chain: Chain, station: number): number {
  const { stations } = chain;
  let low = 0;
  let high = chain.segments.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (stations[middle] <= station) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The place at a station (mm along the chain; see `stationOn` for stations off its ends). */
export function pointAt(chain: Chain, station: number): ChainPlace {
  const on = stationOn(chain, station);
  const segment = segmentIndexAt(chain, on);
  const piece = chain.segments[segment];
  return { ...segmentAt(piece, on - chain.stations[segment]), curvature: curvatureOf(piece), segment };
}
