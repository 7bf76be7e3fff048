import { type SpanPlace, spanPlace } from "../surface/strip-point.ts";
import { type ClothZone, edgesAt, roughZonePoint, zoneStations } from "./zone.ts";

/** A cut from an edge of a piece along a ray of its strip. */
export interface Cut {
  readonly side: "left" | "right";
  /** mm, as the strip counts. */
  readonly station: number;
  /** Distance from the strip's line at which the cut ends, mm ≥ 0. */
  readonly tip: number;
}

/** Places straight across a zone at one station, from its right edge to its left. */
export interface Column {
  readonly station: number;
  readonly place: SpanPlace;
  /** Distances to the left of the line, rising, mm; the first and last are the zone's edges. */
  readonly ws: readonly number[];
  /** Of each of them the point, mm, three numbers: rough, as what it lies off the surface is no matter to its place in cloth. */
  readonly points: Float64Array;
  /** How many cuts on each side lie before this column: it belongs to the cloth between that cut and the next. */
  readonly flaps: { readonly left: number; readonly right: number };
  /** The cut whose far side this column is: the column before stands at the same station, on its near side. */
  readonly after: Cut | null;
}

/** Across the zone places may lie this many steps apart: nothing is drawn through them. */
const ACROSS = 1.5;

/**
 * Columns of places all over a zone, at most `step` mm apart along it; every column has a place on the line. At a cut there are two columns at
 * one station, one for each side of it, with a place at its tip.
 */
export function latticeOver(zone: ClothZone, cuts: readonly Cut[], step: number): Column[] {
  const stations = zoneStations(zone, step);
  const columns: Column[] = [];
  const add = (station: number, after: Cut | null) => {
    const before = (side: Cut["side"]) =>
      cuts.filter((cut) => cut.side === side && (cut.station < station || cut === after)).length;
    const place = spanPlace(zone.strip, station);
    const at = cuts.filter((cut) => cut.station === station);
    const marks = [0, ...at.map((cut) => (cut.side === "left" ? cut.tip : -cut.tip))];
    const ws = spreadAcross(edgesAt(zone, place), marks, ACROSS * step);
    const flaps = { left: before("left"), right: before("right") };
    columns.push({ station, place, ws, points: pointsAt(zone, place, ws), flaps, after });
  };
  const within = cuts.map((cut) => cut.station);
  for (const station of [...new Set([...stations, ...within])].sort((a, b) => a - b)) {
    add(station, null);
    for (const cut of cuts) if (cut.station === station) add(station, cut);
  }
  return columns;
}

const here = new Float64Array(9);

function pointsAt(zone: ClothZone, place: SpanPlace, ws: readonly number[]): Float64Array {
  const points = new Float64Array(3 * ws.length);
  ws.forEach((w, k) => {
    roughZonePoint(zone, place, w, here);
    for (let c = 0; c < 3; c++) points[3 * k + c] = here[c];
  });
  return points;
}

/** Distances from one edge to the other, through the marks between them, at most `step` apart. */
function spreadAcross(
  [low, high]: readonly [number, number],
  marks: readonly number[],
  step: number,
): number[] {
  const inside = marks.filter((w) => w > low + 1e-6 && w < high - 1e-6);
  const turns = [low, ...[...new Set(inside)].sort((a, b) => a - b), high];
  return turns.flatMap((w, i) => {
    if (i === turns.length - 1) return [w];
    const parts = Math.max(1, Math.ceil((turns[i + 1] - w) / step - 1e-9));
    return Array.from({ length: parts }, (_, part) => w + ((turns[i + 1] - w) * part) / parts);
  });
}
