import type { FieldNear } from "../surface/bricks.ts";
import type { Strip } from "../surface/strip.ts";
import { pointBetweenRays, reachAt, type SpanPlace, spanPlace, stripPoint } from "../surface/strip-point.ts";

/** What one piece of cloth has to cover: the part of a strip between two stations (mm, as the strip counts them), so far to each side. */
export interface ClothZone {
  /** The surface that the strip lies on. */
  readonly near: FieldNear;
  readonly strip: Strip;
  readonly from: number;
  readonly to: number;
  /** mm ≥ 0 from the strip's line. */
  readonly left: number;
  readonly right: number;
}

/** Where a zone's two edges lie at a station: distances from the line, the left one positive, the right one negative, mm. */
export function edgesAt(
  { strip, left, right }: ClothZone,
  place: SpanPlace,
): readonly [low: number, high: number] {
  return [-reachAt(strip.right, place, right), reachAt(strip.left, place, left)];
}

/**
 * The point of a zone at a place, `w` mm to the left of the line (right where negative): point, unit normal and direction of the line's
 * parallel there, nine numbers in `out`. False where there is no surface.
 */
export function zonePoint(zone: ClothZone, place: SpanPlace, w: number, out: Float64Array): boolean {
  return stripPoint(zone.near, sideOf(zone, w), place, Math.abs(w), out);
}

/**
 * The same to a fraction of a millimetre, which it lies above or below the surface: out[0…2] is the point, out[6…8] the direction. Costs no evaluation of
 * the field.
 */
export function roughZonePoint(zone: ClothZone, place: SpanPlace, w: number, out: Float64Array): void {
  pointBetweenRays(sideOf(zone, w), place, Math.abs(w), out);
}

const sideOf = ({ strip }: ClothZone, w: number) => (w >= 0 ? strip.left : strip.right);

/** Two stations whose edges and line are nearer together than this are not both taken, mm. */
const CLOSEST = 8;

/**
 * Stations at which a zone is looked at, from its beginning to its end, so that neither the line nor an edge has a gap much over `step`
 * mm between them; among them all at which an edge comes short of its full width or reaches it.
 */
export function zoneStations(zone: ClothZone, step: number): number[] {
  const { strip, from, to } = zone;
  const turn = strip.to - strip.from;
  const wanted: { at: number; needed: boolean }[] = [];
  const want = (at: number, needed: boolean) => {
    if (at > from && at < to) wanted.push({ at, needed });
  };
  const first = strip.closed ? Math.floor((from - strip.from) / turn) : 0;
  for (let lap = first; lap === first || (strip.closed && strip.from + lap * turn < to); lap++) {
    for (let i = 0; i + 1 < strip.stations.length; i++) {
      const [a, b] = [strip.stations[i] + lap * turn, strip.stations[i + 1] + lap * turn];
      if (b <= from || a >= to) continue;
      want(a, false);
      for (const u of cornersWithin(zone, i)) want(a + u * (b - a), true);
    }
    want(strip.to + lap * turn, false);
  }
  wanted.push({ at: to, needed: true });
  const kept = [from];
  let marks = marksAt(zone, from);
  const gaps: number[] = [];
  for (const { at, needed } of wanted) {
    const next = marksAt(zone, at);
    const moved = apart(marks, next);
    if (at === kept[kept.length - 1] || (moved < CLOSEST && !needed)) continue;
    kept.push(at);
    gaps.push(moved);
    marks = next;
  }
  return kept.flatMap((at, i) => {
    if (i === gaps.length) return [at];
    const parts = Math.max(1, Math.ceil(gaps[i] / step - 1e-9));
    return Array.from({ length: parts }, (_, part) => at + ((kept[i + 1] - at) * part) / parts);
  });
}

/** Where within span i an edge leaves or reaches its full width, as parts of the span. */
function cornersWithin({ strip, left, right }: ClothZone, i: number): number[] {
  const corners = (
    [
      [strip.left, left],
      [strip.right, right],
    ] as const
  ).flatMap(([side, width]) => {
    const [a, b] = [side.spans.ends[i], side.spans.ends[i + 1]];
    return a < width !== b < width ? [(width - a) / (b - a)] : [];
  });
  return corners.sort((a, b) => a - b);
}

const here = new Float64Array(9);

/** The line and both edges at a station: three points. */
function marksAt(zone: ClothZone, station: number): Float64Array {
  const place = spanPlace(zone.strip, station);
  const [low, high] = edgesAt(zone, place);
  const marks = new Float64Array(9);
  for (const [i, w] of [0, low, high].entries()) {
    roughZonePoint(zone, place, w, here);
    for (let k = 0; k < 3; k++) marks[3 * i + k] = here[k];
  }
  return marks;
}

function apart(a: Float64Array, b: Float64Array): number {
  let most = 0;
  for (let i = 0; i < a.length; i += 3)
    most = Math.max(most, Math.hypot(a[i] - b[i], a[i + 1] - b[i + 1], a[i + 2] - b[i + 2]));
  return most;
}
