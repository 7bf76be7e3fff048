import { type SpanPlace, spanPlace } from "../surface/strip-point.ts";
import { type ClothZone, edgesAt, zoneStations } from "./zone.ts";

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
  /** How many cuts on each side lie before this column: it belongs to the cloth between that cut and the next. */
  readonly flaps: { readonly left: number; readonly right: number };
  /** The cut whose far side this column is: the column before stands at the same station, on its near side. */
  readonly after: Cut | null;
}

/**
 * Columns of places all over a zone, at most `step` mm apart each way. At a cut there are two columns at one station, one for each
 * side of it. `base` is a distance to the left of the line that every column as wide as that has a place at.
 */
export function latticeOver(zone: ClothZone, cuts: readonly Cut[], base: number, step: number): Column[] {
  const stations = zoneStations(zone, step);
  const columns: Column[] = [];
  const add = (station: number, after: Cut | null) => {
    const before = (side: Cut["side"]) =>
      cuts.filter((cut) => cut.side === side && (cut.station < station || cut === after)).length;
    const place = spanPlace(zone.strip, station);
    const at = cuts.filter((cut) => cut.station === station);
    const marks = [base, ...at.map((cut) => (cut.side === "left" ? cut.tip : -cut.tip))];
    const ws = spreadAcross(edgesAt(zone, place), marks, step);
    columns.push({ station, place, ws, flaps: { left: before("left"), right: before("right") }, after });
  };
  const within = cuts.map((cut) => cut.station);
  for (const station of [...new Set([...stations, ...within])].sort((a, b) => a - b)) {
    add(station, null);
    for (const cut of cuts) if (cut.station === station) add(station, cut);
  }
  return columns;
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
