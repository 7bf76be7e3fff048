import { lastUpTo } from "../surface/last-up-to.ts";
import type { StripSide } from "../surface/strip.ts";
import { reachAt, type SpanPlace } from "../surface/strip-point.ts";
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
  const m = ws.length;
  const length = strip.to - strip.from;
  const firstLap = strip.closed ? Math.floor((from - strip.from) / length) : 0;
  const laps = strip.closed ? Math.max(1, Math.ceil((to - strip.from) / length) - firstLap) : 1;
  const stations = [from];
  const room = m * (laps * strip.stations.length + 1);
  const turned = new Float64Array(room);
  const there = new Uint8Array(room);
  const reaches = (row: number, place: SpanPlace) => {
    const low = -reachAt(strip.right, place, zone.right);
    const high = reachAt(strip.left, place, zone.left);
    for (let k = 0; k < m; k++) there[row * m + k] = ws[k] >= low - 1e-6 && ws[k] <= high + 1e-6 ? 1 : 0;
  };
  for (let lap = firstLap; lap < firstLap + laps; lap++) {
    for (let span = 0; span + 1 < strip.stations.length; span++) {
      const a = strip.stations[span] + lap * length;
      const b = strip.stations[span + 1] + lap * length;
      const low = Math.max(a, from);
      const high = Math.min(b, to);
      if (!(high > low)) continue;
      const middle = { span, u: ((low + high) / 2 - a) / (b - a) };
      const right = reachAt(strip.right, middle, zone.right);
      const left = reachAt(strip.left, middle, zone.left);
      const row = stations.length;
      if (row === 1) reaches(0, { span, u: (low - a) / (b - a) });
      for (let k = 0; k < m; k++) {
        const w = ws[k];
        const own =
          w < 0
            ? -slopeAt(strip.right, span, Math.min(-w, right))
            : slopeAt(strip.left, span, Math.min(w, left));
        turned[row * m + k] = turned[(row - 1) * m + k] - (own * (high - low)) / (b - a);
      }
      stations.push(high);
      reaches(row, { span, u: (high - a) / (b - a) });
    }
  }
  return thinned({ stations, ws, turned, there });
}

/** The turning of the part of a zone between two stations, from that of the whole: straight between the stations that it has. */
export function turningBetween({ stations, ws, turned, there }: Turning, from: number, to: number): Turning {
  const m = ws.length;
  const last = stations.length - 2;
  const first = lastUpTo(stations, from, last);
  const end = lastUpTo(stations, to, last);
  // Those between the two ends, and the ends themselves.
  let begin = first + 1;
  while (begin <= last + 1 && stations[begin] <= from) begin++;
  let past = begin;
  while (past <= last + 1 && stations[past] < to) past++;
  const rows = past - begin + 2;
  const part: Turning = {
    stations: [from, ...stations.slice(begin, past), to],
    ws,
    turned: new Float64Array(m * rows),
    there: new Uint8Array(m * rows),
  };
  for (let row = 0; row < rows; row++) {
    const at = Math.min(row === 0 ? first : row === rows - 1 ? end : begin + row - 1, last);
    const u = (part.stations[row] - stations[at]) / (stations[at + 1] - stations[at]);
    const nearer = u < 0.5 ? at : at + 1;
    for (let k = 0; k < m; k++) {
      const a = turned[at * m + k];
      part.turned[row * m + k] = a + u * (turned[(at + 1) * m + k] - a);
      part.there[row * m + k] = there[nearer * m + k];
    }
  }
  return part;
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
  const thin: Turning = {
    stations: kept.map((i) => stations[i]),
    ws,
    turned: new Float64Array(m * kept.length),
    there: new Uint8Array(m * kept.length),
  };
  for (let row = 0; row < kept.length; row++) {
    thin.turned.set(turned.subarray(kept[row] * m, (kept[row] + 1) * m), row * m);
    thin.there.set(there.subarray(kept[row] * m, (kept[row] + 1) * m), row * m);
  }
  return thin;
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
