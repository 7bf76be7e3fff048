import { around } from "../../../../core/layup/rim-marks.ts";
import type { Outline } from "../../../../core/plan/chain.ts";
import type { Project, ZoneSpec } from "../../../../core/project/schema.ts";
import { movedEnd, slidBand } from "../../../tools/band.ts";
import { type BandZone, widenBand } from "../../../tools/band-edges.ts";
import { snapped, snapsOn } from "../../../tools/band-snaps.ts";
import { moveRowEnd, type RowZone, slideRib } from "../../../tools/ribs.ts";
import { stationOf } from "../../../tools/rim-places.ts";
import type { LineView } from "../../../worker/messages.ts";
import { distanceRound, type Point } from "./flat-lines.ts";
import type { Board, Shown } from "./shown.ts";
import { figureAt } from "./things.ts";
import { partNear, placeAtPart, trackOf } from "./track.ts";

/** What of a zone is got hold of on the tape. */
export type Grip =
  | { readonly kind: "slide"; readonly zone: string }
  | { readonly kind: "end"; readonly zone: string; readonly end: End }
  | { readonly kind: "edge"; readonly zone: string; readonly side: 0 | 1 };

export type End = "from" | "to";
const ENDS: readonly End[] = ["from", "to"];

/** What edits on the tape work with. */
export interface Ground {
  readonly project: Project;
  readonly outline: Outline;
  readonly lines: readonly LineView[];
  readonly board: Board;
}

/** Stations slide in steps of this, mm. */
const STEP = 10;

/** What a press would get hold of: ends and edges of what is chosen first, then any rib, or a chosen part of a band. */
export function gripAt(ground: Ground, chosen: readonly string[], at: Point, reach: number): Grip | null {
  const { project, board } = ground;
  for (const zone of project.layup) {
    if (!chosen.includes(zone.id)) continue;
    const grip =
      zone.kind === "rib-row"
        ? gripOfRow(zone, ground, at, reach)
        : zone.kind === "band"
          ? gripOfBand(zone, ground, at, reach)
          : null;
    if (grip) return grip;
  }
  const under = figureAt(board.placed, at.along, at.down, reach / 2);
  const zone = under && project.layup.find(({ id }) => id === under.zone);
  if (!zone) return null;
  const slides =
    zone.kind === "rib" ||
    zone.kind === "rib-row" ||
    (zone.kind === "band" && zone.stretch !== undefined && chosen.includes(zone.id));
  return slides ? { kind: "slide", zone: zone.id } : null;
}

function gripOfRow(zone: RowZone, { outline, board }: Ground, at: Point, reach: number): Grip | null {
  if (board.face || at.down < -2 * reach || at.down > zone.top + 4 * reach) return null;
  for (const end of ENDS) {
    const station = stationOf(outline, zone[end]);
    if (station !== null && Math.abs(around(at.along - station, outline.chain.length)) < reach)
      return { kind: "end", zone: zone.id, end };
  }
  return null;
}

function gripOfBand(zone: BandZone, ground: Ground, at: Point, reach: number): Grip | null {
  const { board, outline } = ground;
  for (const end of ENDS) {
    const point = bandEnd(zone, end, ground);
    if (!point) continue;
    const aside = at.along - point.along;
    const off = board.face ? aside : around(aside, outline.chain.length);
    if (Math.hypot(off, at.down - point.down) < 1.5 * reach) return { kind: "end", zone: zone.id, end };
  }
  for (const { edges } of board.placed.filter((each) => each.zone === zone.id && each.edges)) {
    const off = (edges ?? []).map((edge) => distanceRound(edge, at.along, at.down, outline.chain.length));
    const side = off[0] <= off[1] ? 0 : 1;
    if (off[side] < reach) return { kind: "edge", zone: zone.id, side };
  }
  return null;
}

/** What the ends of bands are found on. */
export type LineGround = Pick<Ground, "lines" | "outline"> & { readonly board: Shown };

/** The line of a band with its track on the board; null where it does not lie there. */
export function trackUnder({ on }: BandZone, { lines, board, outline }: LineGround) {
  const line = lines.find(({ id }) => id === on);
  const track = line && trackOf(board, line, outline);
  return line && track ? { line, track } : null;
}

/** Where an end of a band lies on the board; null where it has none, or not there. */
export function bandEnd(zone: BandZone, end: End, ground: LineGround): Point | null {
  const under = trackUnder(zone, ground);
  if (!under || (under.line.closed && !zone.stretch)) return null;
  return placeAtPart(under.track, (zone.stretch ?? { from: 0, to: 1 })[end]);
}

/** The zone as a drag of a grip from one point to another leaves it. `free`: not held to whole steps. */
export function dragged(
  grip: Grip,
  zone: ZoneSpec,
  ground: Ground,
  from: Point,
  to: Point,
  free: boolean,
): ZoneSpec {
  const { outline } = ground;
  const whole = (mm: number) => (free ? mm : Math.round(mm / STEP) * STEP);
  const by = around(to.along - from.along, outline.chain.length);
  if (grip.kind === "slide" && (zone.kind === "rib" || zone.kind === "rib-row")) {
    const at = stationOf(outline, zone.kind === "rib" ? zone.at : zone.from);
    if (at === null) return zone;
    return slideRib(zone, outline, whole(at + by) - at) ?? zone;
  }
  if (grip.kind === "slide" && zone.kind === "band") {
    const under = trackUnder(zone, ground);
    if (!under) return zone;
    const { closed, lengthMm } = under.line;
    const off = partNear(under.track, to).part - partNear(under.track, from).part;
    return slidBand(zone, whole((closed ? around(off, 1) : off) * lengthMm) / lengthMm, under.line);
  }
  if (grip.kind === "end" && zone.kind === "rib-row") {
    const at = stationOf(outline, zone[grip.end]);
    return at === null ? zone : moveRowEnd(zone, outline, grip.end, whole(at + by));
  }
  if (grip.kind === "end" && zone.kind === "band") return withEndNear(zone, grip.end, ground, to, free);
  if (grip.kind === "edge" && zone.kind === "band") {
    const line = ground.board.placed.find((each) => each.zone === zone.id)?.line;
    if (!line) return zone;
    const off = ({ along, down }: Point) => distanceRound(line, along, down, outline.chain.length);
    const width = zone.halfWidths[grip.side] + off(to) - off(from);
    return widenBand(zone, grip.side, whole(width));
  }
  return zone;
}

/** A band with an end at the place of its line that is nearest to a point, where it catches as it does on the shell. */
function withEndNear(zone: BandZone, end: End, ground: Ground, at: Point, free: boolean): ZoneSpec {
  const under = trackUnder(zone, ground);
  if (!under) return zone;
  const { line, track } = under;
  const { part } = partNear(track, at);
  const snaps = snapsOn({ ...ground, zones: ground.project.layup }, line, zone.id);
  return movedEnd(zone, end, free ? part : snapped(part, snaps, line), line);
}

/** How a changed zone lies against its figures of before: moved along as it is, or else drawn from what it says. */
export interface Moved {
  readonly zone: ZoneSpec;
  /** mm; null where it is not only moved. */
  readonly along: number | null;
}

export function movedBy(before: ZoneSpec, after: ZoneSpec, outline: Outline): Moved {
  const by = (a: Parameters<typeof stationOf>[1], b: Parameters<typeof stationOf>[1]) => {
    const [from, to] = [stationOf(outline, a), stationOf(outline, b)];
    return from === null || to === null ? 0 : around(to - from, outline.chain.length);
  };
  if (before.kind === "rib" && after.kind === "rib") return { zone: after, along: by(before.at, after.at) };
  if (before.kind === "rib-row" && after.kind === "rib-row") {
    const [start, end] = [by(before.from, after.from), by(before.to, after.to)];
    return { zone: after, along: Math.abs(start - end) < 0.5 ? start : null };
  }
  return { zone: after, along: null };
}
