import type { Strip, StripSide } from "../surface/strip.ts";
import type { LaidBand, LaidRibs, LaidStiffener, LaidZone } from "./laid.ts";
import { around } from "./rim-marks.ts";
import type { Site } from "./site.ts";
import { placeOnTape } from "./tape.ts";
import { type TapeLine, tapeLine, tellingPoints } from "./tape-line.ts";

/** A part of a zone as it lies on the unrolled wall. */
export interface TapeFigure {
  /** `rib 3`, or "" where the zone is one figure. */
  readonly name: string;
  /** Closed outline: along, down pairs, mm, the first point not repeated; of a band all round its upper edge there, its lower edge back. */
  readonly outline: TapeLine;
  /** The middle line of a strip, the transition or path of a band. */
  readonly line: TapeLine;
  /** Of a band: its edges on the left and on the right of its line. */
  readonly edges: readonly [TapeLine, TapeLine] | null;
}

/** The figures of a zone on the unrolled wall: none for one that lies on treads and risers alone. */
export function zoneOnTape(site: Site, zone: LaidZone): TapeFigure[] {
  switch (zone.kind) {
    case "rib":
    case "rib-row":
      return ribFigures(zone);
    case "stiffener":
      return [stiffenerFigure(site, zone)];
    case "band":
    case "stroke":
      return onWall(zone) ? bandFigure(site, zone) : [];
    default:
      return [];
  }
}

function ribFigures(zone: LaidRibs): TapeFigure[] {
  const half = zone.material.kind === "strip" ? zone.material.width / 2 : 0;
  return zone.ribs.map(({ name, rimStationMm: at, topDownMm, footDownMm }) => ({
    name: zone.kind === "rib" ? "" : `rib ${name}`,
    outline: box(at - half, at + half, topDownMm, footDownMm),
    line: Float64Array.of(at, topDownMm, at, footDownMm),
    edges: null,
  }));
}

function stiffenerFigure(site: Site, { material, curve }: LaidStiffener): TapeFigure {
  const half = material.kind === "strip" ? material.width / 2 : 0;
  const { length } = site.shell.outline.chain;
  const last = 3 * (curve.stations.length - 1);
  const [start, end] = [0, last].map((at) => placeOnTape(site, curve.points.subarray(at, at + 3)));
  const to = start.station + around(end.station - start.station - curve.length, length) + curve.length;
  const down = -start.outMm;
  return {
    name: "",
    outline: box(start.station, to, down - half, down + half),
    line: Float64Array.of(start.station, down, to, down),
    edges: null,
  };
}

const box = (from: number, to: number, top: number, bottom: number): TapeLine =>
  Float64Array.of(from, top, to, top, to, bottom, from, bottom);

/** Whether a band runs on the wall: along its foot or rim, or through places told by the wall. */
function onWall({ spec }: LaidBand): boolean {
  if (spec.kind === "stroke") return spec.path.every((place) => "wall" in place);
  if (spec.kind !== "band") return false;
  return spec.on === "foot" || spec.on === "rim" || spec.on.startsWith("wall|");
}

function bandFigure(site: Site, { strip }: LaidBand): TapeFigure[] {
  const line = sideLine(site, strip, strip.left, 0, null);
  if (line.length < 4) return [];
  const edge = (side: StripSide) => sideLine(site, strip, side, side.columns - 1, line);
  const [left, right] = [edge(strip.left), edge(strip.right)];
  if (left.length < 4 || right.length < 4) return [];
  const back: number[] = [];
  for (let i = right.length - 2; i >= 0; i -= 2) back.push(right[i], right[i + 1]);
  return [{ name: "", outline: Float64Array.of(...left, ...back), line, edges: [left, right] }];
}

/**
 * One column of a strip's grid on the tape. A point that the tape does not reach, behind a riser or across a corner of the floor,
 * is put as far beyond the strip's own line as it lies from it along the surface.
 */
function sideLine(
  site: Site,
  strip: Strip,
  side: StripSide,
  column: number,
  beyond: TapeLine | null,
): TapeLine {
  const count = strip.stations.length;
  const points = new Float64Array(3 * count);
  for (let i = 0; i < count; i++) {
    const at = 3 * (i * side.columns + column);
    points.set(side.points.subarray(at, at + 3), 3 * i);
  }
  const { length } = site.shell.outline.chain;
  const { line } = tapeLine(site, points, tellingPoints(points, count), (i, { station }) => {
    if (!beyond) return null;
    const here = downOf(beyond, station, length);
    return { down: here + side.cut[i], furthest: here + FURTHEST * side.cut[i] };
  });
  return line;
}

/** A tape that hangs square to the rim crosses a band aslant where its line climbs, over at most so many times its width. */
const FURTHEST = 3;

/** Down of a tape's line at the point nearest to a rim station, mm. */
function downOf(line: TapeLine, station: number, length: number): number {
  let nearest = Infinity;
  let down = 0;
  for (let i = 0; i < line.length; i += 2) {
    const off = Math.abs(around(line[i] - station, length));
    if (off >= nearest) continue;
    nearest = off;
    down = line[i + 1];
  }
  return down;
}
