import type { Outline } from "../../../../core/plan/chain.ts";
import type { Project, ZoneSpec } from "../../../../core/project/schema.ts";
import { widenBand } from "../../../tools/band-edges.ts";
import { moveRowEnd, slideRib } from "../../../tools/ribs.ts";
import { stationOf } from "../../../tools/rim-places.ts";
import { distanceRound, figureAt, type Placed } from "./things.ts";

/** What of a zone is got hold of on the tape. */
export type Grip =
  | { readonly kind: "slide"; readonly zone: string }
  | { readonly kind: "end"; readonly zone: string; readonly end: "from" | "to" }
  | { readonly kind: "edge"; readonly zone: string; readonly side: 0 | 1 };

export interface Point {
  readonly along: number;
  readonly down: number;
}

export interface Ground {
  readonly project: Project;
  readonly outline: Outline;
  readonly placed: readonly Placed[];
}

/** Stations slide in steps of this, mm. */
const STEP = 10;

/** What a press would get hold of: ends of a chosen row and edges of a chosen band first, then any rib. */
export function gripAt(
  { project, outline, placed }: Ground,
  chosen: readonly string[],
  { along, down }: Point,
  reach: number,
): Grip | null {
  const { length } = outline.chain;
  for (const zone of project.layup) {
    if (!chosen.includes(zone.id)) continue;
    if (zone.kind === "rib-row" && down > -2 * reach && down < zone.top + 4 * reach) {
      for (const end of ["from", "to"] as const) {
        const station = stationOf(outline, zone[end]);
        if (station !== null && Math.abs(roundTo(along - station, length)) < reach)
          return { kind: "end", zone: zone.id, end };
      }
    }
    if (zone.kind !== "band") continue;
    for (const { edges } of placed.filter((each) => each.zone === zone.id && each.edges)) {
      const off = (edges ?? []).map((edge) => distanceRound(edge, along, down, length));
      const side = off[0] <= off[1] ? 0 : 1;
      if (off[side] < reach) return { kind: "edge", zone: zone.id, side };
    }
  }
  const under = figureAt(placed, along, down, reach / 2);
  const zone = under && project.layup.find(({ id }) => id === under.zone);
  return zone?.kind === "rib" || zone?.kind === "rib-row" ? { kind: "slide", zone: zone.id } : null;
}

/** A difference of stations the short way round. */
const roundTo = (difference: number, length: number): number =>
  difference - Math.round(difference / length) * length;

/** The zone as a drag of a grip from one point to another leaves it. `free`: not held to whole steps. */
export function dragged(
  grip: Grip,
  zone: ZoneSpec,
  { outline, placed }: Ground,
  from: Point,
  to: Point,
  free: boolean,
): ZoneSpec {
  const { length } = outline.chain;
  const whole = (station: number) => (free ? station : Math.round(station / STEP) * STEP);
  const by = roundTo(to.along - from.along, length);
  if (grip.kind === "slide" && (zone.kind === "rib" || zone.kind === "rib-row")) {
    const at = stationOf(outline, zone.kind === "rib" ? zone.at : zone.from);
    if (at === null) return zone;
    return slideRib(zone, outline, whole(at + by) - at) ?? zone;
  }
  if (grip.kind === "end" && zone.kind === "rib-row") {
    const at = stationOf(outline, zone[grip.end]);
    return at === null ? zone : moveRowEnd(zone, outline, grip.end, whole(at + by));
  }
  if (grip.kind === "edge" && zone.kind === "band") {
    const line = placed.find((each) => each.zone === zone.id)?.line;
    if (!line) return zone;
    const off = ({ along, down }: Point) => distanceRound(line, along, down, length);
    const width = zone.halfWidths[grip.side] + off(to) - off(from);
    return widenBand(zone, grip.side, free ? width : Math.round(width / STEP) * STEP);
  }
  return zone;
}

/** How a changed zone lies against its figures of before: moved along, or its edges moved out. */
export interface Moved {
  readonly zone: string;
  readonly along: number;
  readonly edges: readonly [number, number];
  readonly ends: readonly [number, number] | null;
}

export function movedBy(before: ZoneSpec, after: ZoneSpec, outline: Outline): Moved {
  const { length } = outline.chain;
  const still: Moved = { zone: after.id, along: 0, edges: [0, 0], ends: null };
  if (before.kind === "rib" && after.kind === "rib") {
    const [a, b] = [stationOf(outline, before.at), stationOf(outline, after.at)];
    return a === null || b === null ? still : { ...still, along: roundTo(b - a, length) };
  }
  if (before.kind === "rib-row" && after.kind === "rib-row") {
    const from = [stationOf(outline, before.from), stationOf(outline, after.from)];
    const to = [stationOf(outline, before.to), stationOf(outline, after.to)];
    if (from[0] === null || from[1] === null || to[0] === null || to[1] === null) return still;
    const [a, b] = [roundTo(from[1] - from[0], length), roundTo(to[1] - to[0], length)];
    return { ...still, along: Math.abs(a - b) < 0.5 ? a : 0, ends: [from[1], to[1]] };
  }
  if (before.kind === "band" && after.kind === "band") {
    const [a, b] = [before.halfWidths, after.halfWidths];
    return { ...still, edges: [b[0] - a[0], b[1] - a[1]] };
  }
  return still;
}
