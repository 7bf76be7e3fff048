import { lastUpTo } from "../surface/last-up-to.ts";
import type { StripSide } from "../surface/strip.ts";
import { reachAt } from "../surface/strip-point.ts";
import type { ClothZone } from "./zone.ts";

/**
 * How much the parallels of a zone's line turn within the surface along it: what is needed to foretell shear. By Gauss and Bonnet the difference of
 * what two parallels turn between two stations is the Gaussian curvature between them, ∬K dA, and by Chebyshev's equation
 * ω_uv = −K sin ω the shear of cloth whose warp runs along the parallels changes by about as much.
 */
export interface Turning {
  /** Rising, from the zone's beginning to its end, mm. */
  readonly stations: readonly number[];
  /** Distances to the left of the line of the parallels looked at, rising from the zone's right edge to its left, mm. */
  readonly ws: readonly number[];
  /** Turn to the left of each parallel from the zone's beginning to each station, rad; station after station. */
  readonly turned: Float64Array;
  /** Whether the zone reaches so far at the station: 1 or 0. */
  readonly there: Uint8Array;
}

/** rad: 3°. */
const LITTLE = Math.PI / 60;

/** Measures the turning of a zone from the rays of its strip; costs no evaluation of the field. */
export function turningOf(zone: ClothZone): Turning {
  const { strip, from, to } = zone;
  const ws = [
    ...columnsWithin(strip.right, zone.right)
      .map((w) => -w)
      .reverse(),
    0,
    ...columnsWithin(strip.left, zone.left),
  ];
  const stations = [from];
  const turned: number[] = ws.map(() => 0);
  const there: number[] = [];
  const length = strip.to - strip.from;
  const reaches = (span: number, u: number) => {
    const place = { span, u };
    const [low, high] = [-reachAt(strip.right, place, zone.right), reachAt(strip.left, place, zone.left)];
    for (const w of ws) there.push(w >= low - 1e-6 && w <= high + 1e-6 ? 1 : 0);
  };
  const firstLap = strip.closed ? Math.floor((from - strip.from) / length) : 0;
  for (let lap = firstLap; lap === firstLap || (strip.closed && strip.from + lap * length < to); lap++) {
    for (let span = 0; span + 1 < strip.stations.length; span++) {
      const a = strip.stations[span] + lap * length;
      const b = strip.stations[span + 1] + lap * length;
      const low = Math.max(a, from);
      const high = Math.min(b, to);
      if (!(high > low)) continue;
      const middle = { span, u: ((low + high) / 2 - a) / (b - a) };
      const reach = [reachAt(strip.right, middle, zone.right), reachAt(strip.left, middle, zone.left)];
      if (there.length === 0) reaches(span, (low - a) / (b - a));
      const before = turned.length - ws.length;
      ws.forEach((w, k) => {
        const own =
          w < 0
            ? -slopeAt(strip.right, span, Math.min(-w, reach[0]))
            : slopeAt(strip.left, span, Math.min(w, reach[1]));
        turned.push(turned[before + k] - (own * (high - low)) / (b - a));
      });
      stations.push(high);
      reaches(span, (high - a) / (b - a));
    }
  }
  return thinned({ stations, ws, turned: Float64Array.from(turned), there: Uint8Array.from(there) });
}

/** The turning of the part of a zone between two stations, from that of the whole: straight between the stations that it has. */
export function turningBetween({ stations, ws, turned, there }: Turning, from: number, to: number): Turning {
  const m = ws.length;
  const last = stations.length - 2;
  const first = lastUpTo(stations, from, last);
  const spots = [{ i: first, station: from }];
  for (let i = first + 1; i <= last + 1 && stations[i] < to; i++)
    if (stations[i] > from) spots.push({ i, station: stations[i] });
  spots.push({ i: lastUpTo(stations, to, last), station: to });
  const part = { turned: new Float64Array(m * spots.length), there: new Uint8Array(m * spots.length) };
  for (const [row, { i, station }] of spots.entries()) {
    const at = Math.min(i, last);
    const u = (station - stations[at]) / (stations[at + 1] - stations[at]);
    const nearer = u < 0.5 ? at : at + 1;
    for (let k = 0; k < m; k++) {
      const [a, b] = [turned[at * m + k], turned[(at + 1) * m + k]];
      part.turned[row * m + k] = a + u * (b - a);
      part.there[row * m + k] = there[nearer * m + k];
    }
  }
  return { stations: spots.map(({ station }) => station), ws, ...part };
}

/** The same with only those stations between which something turns by LITTLE, or from which on the zone reaches less or further. */
function thinned({ stations, ws, turned, there }: Turning): Turning {
  const m = ws.length;
  const last = stations.length - 1;
  const kept = [0];
  for (let i = 1; i < last; i++) {
    const before = kept[kept.length - 1];
    let wanted = false;
    for (let k = 0; k < m && !wanted; k++) {
      const turns = Math.abs(turned[(i + 1) * m + k] - turned[before * m + k]) > LITTLE;
      wanted =
        turns || there[i * m + k] !== there[before * m + k] || there[i * m + k] !== there[(i + 1) * m + k];
    }
    if (wanted) kept.push(i);
  }
  kept.push(last);
  return {
    stations: kept.map((i) => stations[i]),
    ws,
    turned: Float64Array.from(kept.flatMap((i) => [...turned.subarray(i * m, (i + 1) * m)])),
    there: Uint8Array.from(kept.flatMap((i) => [...there.subarray(i * m, (i + 1) * m)])),
  };
}

/** Distances of a side's columns that lie within a width, and the width itself. */
function columnsWithin({ spans }: StripSide, width: number): number[] {
  const { count, spacing } = spans.columns;
  const inner = Array.from({ length: count - 1 }, (_, c) => (c + 1) * spacing).filter(
    (w) => w < width - 0.3 * spacing,
  );
  return width > 0 ? [...inner, width] : [];
}

/** dℓ/dw of a span at w, mm per mm: straight between the columns. Past the rays' end nothing turns any more but what turned there. */
function slopeAt({ spans }: StripSide, span: number, w: number): number {
  const { columns, slopes } = spans;
  const column = Math.max(0, Math.min(columns.count - 2, Math.floor(w / columns.spacing)));
  const k = span * columns.count + column;
  if (columns.count === 1) return slopes[k];
  return slopes[k] + (w / columns.spacing - column) * (slopes[k + 1] - slopes[k]);
}
