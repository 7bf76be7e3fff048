import type { ZoneSpec } from "../../../../core/project/schema.ts";
import { movedEnd } from "../../../tools/band.ts";
import { placeAt, stationOf } from "../../../tools/rim-places.ts";
import { bandEnd, type LineGround, trackUnder } from "./grips.ts";
import { partsAlong } from "./track.ts";

/** Where a zone stands along the rim, to be typed: a rib at its place, a row and a part of a band at both ends. */
export type RimEnd = "at" | "from" | "to";

export function rimEndsOf(zone: ZoneSpec): readonly RimEnd[] {
  if (zone.kind === "rib") return ["at"];
  return zone.kind === "rib-row" || zone.kind === "band" ? ["from", "to"] : [];
}

/** The rim station of an end, mm; null where the zone has no such end on the wall. */
export function stationOfEnd(zone: ZoneSpec, end: RimEnd, ground: LineGround): number | null {
  if (zone.kind === "rib") return end === "at" ? stationOf(ground.outline, zone.at) : null;
  if (end === "at") return null;
  if (zone.kind === "rib-row") return stationOf(ground.outline, zone[end]);
  return zone.kind === "band" ? (bandEnd(zone, end, ground)?.along ?? null) : null;
}

/** A zone with one end at another rim station (mm), told in the manner in which it was; null where that is no place for it. */
export function withStation(
  zone: ZoneSpec,
  end: RimEnd,
  station: number,
  ground: LineGround,
): ZoneSpec | null {
  const { outline } = ground;
  if (zone.kind === "rib") return { ...zone, at: placeAt(outline, station, zone.at) };
  if (end === "at") return null;
  if (zone.kind === "rib-row") return { ...zone, [end]: placeAt(outline, station, zone[end]) };
  const under = zone.kind === "band" ? trackUnder(zone, ground) : null;
  if (zone.kind !== "band" || !under) return null;
  const now = (zone.stretch ?? { from: 0, to: 1 })[end];
  const off = (part: number) => Math.abs(part - now - Math.round(part - now));
  const [nearest] = partsAlong(under.track, station).sort((a, b) => off(a) - off(b));
  if (nearest === undefined) return null;
  const moved = movedEnd(zone, end, Number(nearest.toFixed(6)), under.line);
  return moved === zone ? null : moved;
}
