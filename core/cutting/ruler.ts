import { lastUpTo } from "../surface/last-up-to.ts";
import { type Strip, unrollStrip } from "../surface/strip.ts";

/**
 * Lengths that run along a zone side by side: of a band its middle and both edges, of a strip of core its developed length.
 * Where the zone turns, one line grows faster than another.
 */
export interface Ruler {
  /** Rising from 0 to `length`, mm. */
  readonly stations: Float64Array;
  /** Running length of each line at each station, mm, never falling; the first line is the one that stations count along. */
  readonly lines: readonly Float64Array[];
  readonly length: number;
  readonly closed: boolean;
}

/** The ruler of one ply of a band, `left` and `right` mm wide: middle, left edge, right edge. Station 0 is the strip's beginning. */
export function rulerOf(strip: Strip, left: number, right: number): Ruler {
  const flat = unrollStrip(strip, strip.from, strip.to, left, right);
  return {
    stations: flat.along,
    lines: [flat.along, runningSum(flat.leftEdges), runningSum(flat.rightEdges)],
    length: flat.midLengthMm,
    closed: strip.closed,
  };
}

/** Running length of a line at a station, mm. Straight between samples; on a closed ruler stations may pass its ends. */
export function lineAt(ruler: Ruler, line: number, station: number): number {
  const { stations, length, closed } = ruler;
  const values = ruler.lines[line];
  const turn = closed ? Math.floor(station / length) : 0;
  const at = station - turn * length;
  const low = lastUpTo(stations, at, stations.length - 2);
  const part = (at - stations[low]) / (stations[low + 1] - stations[low]);
  const value = values[low] + (values[low + 1] - values[low]) * Math.min(1, Math.max(0, part));
  return value + turn * values[values.length - 1];
}

/** The shortest and the longest of the lines between two stations, mm. */
export function lengthsBetween(
  ruler: Ruler,
  from: number,
  to: number,
): readonly [least: number, most: number] {
  let least = Infinity;
  let most = 0;
  for (let line = 0; line < ruler.lines.length; line++) {
    const length = lineAt(ruler, line, to) - lineAt(ruler, line, from);
    least = Math.min(least, length);
    most = Math.max(most, length);
  }
  return [least, most];
}

/**
 * Stations at even steps of the fastest line, mm, from 0 to the ruler's length (both included): close together where the
 * zone turns, as far apart as the steps where it is straight.
 */
export function evenStations(ruler: Ruler, steps: number): Float64Array {
  const { stations, lines } = ruler;
  const fastest = new Float64Array(stations.length);
  for (let i = 1; i < stations.length; i++) {
    fastest[i] = fastest[i - 1] + Math.max(...lines.map((line) => line[i] - line[i - 1]));
  }
  const even = new Float64Array(steps + 1);
  let span = 0;
  for (let step = 1; step < steps; step++) {
    const wanted = (fastest[fastest.length - 1] * step) / steps;
    while (fastest[span + 1] < wanted) span++;
    const part = (wanted - fastest[span]) / (fastest[span + 1] - fastest[span]);
    even[step] = stations[span] + (stations[span + 1] - stations[span]) * part;
  }
  even[steps] = ruler.length;
  return even;
}

function runningSum(lengths: Float64Array): Float64Array {
  const sums = new Float64Array(lengths.length + 1);
  for (let i = 0; i < lengths.length; i++) sums[i + 1] = sums[i] + lengths[i];
  return sums;
}
