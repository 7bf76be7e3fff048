import { bevelOf } from "../../core/layup/rib.ts";
import type { Outline } from "../../core/plan/chain.ts";
import type { Project, ZoneSpec } from "../../core/project/schema.ts";
import { placeAt, stationOf } from "./rim-places.ts";
import type { NewZone } from "./zone-edits.ts";

/** Ribs laid and moved along the rim. Stations and distances in mm, counter-clockwise from the shallow centre. */

type House = Pick<Project, "rules" | "materials" | "shop">;
export type RibZone = Extract<ZoneSpec, { kind: "rib" }>;
export type RowZone = Extract<ZoneSpec, { kind: "rib-row" }>;

/** Two ends of a row nearer to each other than this are a click, mm. */
const LEAST_ROW = 150;

/** What the house rules say of every rib. A rib that stops at the cove keeps its bevelled end off it. */
function houseRib({ rules, materials, shop }: House): Pick<RibZone, "top" | "foot" | "material"> {
  const { top, onto, overCove, material } = rules.ribs;
  if (overCove) return { top, foot: { kind: "over", onto }, material };
  const strip = materials.find(({ id }) => id === material);
  const clear = strip?.kind === "strip" ? Math.ceil(bevelOf(strip, shop.bevelDeg)) : 0;
  return { top, foot: { kind: "to", clear }, material };
}

/** A rib at a station of the rim, by the house rules. */
export const layRib = (house: House, outline: Outline, station: number): NewZone => ({
  kind: "rib",
  at: placeAt(outline, station),
  ...houseRib(house),
});

/** A row of ribs from one station of the rim to another, whichever way it was drawn, by the house rules; a very short one is one rib. */
export function layRow(house: House, outline: Outline, from: number, to: number): NewZone {
  if (Math.abs(to - from) < LEAST_ROW) return layRib(house, outline, (from + to) / 2);
  const { pitch, clear } = house.rules.ribs;
  const [start, end] = from < to ? [from, to] : [to, from];
  return {
    kind: "rib-row",
    from: placeAt(outline, start),
    to: endAt(outline, end),
    pitch,
    clear,
    ...houseRib(house),
  };
}

/** A rib, or a whole row, moved along the rim by so many mm; null where it has no place on this outline. */
export function slideRib<Z extends RibZone | RowZone>(zone: Z, outline: Outline, byMm: number): Z | null {
  if (zone.kind === "rib") {
    const at = stationOf(outline, zone.at);
    return at === null ? null : { ...zone, at: placeAt(outline, at + byMm, zone.at) };
  }
  const [from, to] = [stationOf(outline, zone.from), stationOf(outline, zone.to)];
  if (from === null || to === null) return null;
  return {
    ...zone,
    from: placeAt(outline, from + byMm, zone.from),
    to: endAt(outline, to + byMm, zone.to),
  };
}

/** A row with one of its ends at another station; the ends do not pass each other. */
export function moveRowEnd(zone: RowZone, outline: Outline, end: "from" | "to", station: number): RowZone {
  const { length } = outline.chain;
  const [from, to] = [stationOf(outline, zone.from), stationOf(outline, zone.to)];
  if (from === null || to === null) return zone;
  const along = (way: number) => way - Math.floor(way / length) * length;
  const long = end === "from" ? along(to - station) : along(station - from);
  // Past the other end the way round is nearly the whole rim: nobody means that by a drag.
  if (long < LEAST_ROW || Math.abs(long - along(to - from)) > length / 2) return zone;
  return end === "from"
    ? { ...zone, from: placeAt(outline, station, zone.from) }
    : { ...zone, to: endAt(outline, station, zone.to) };
}

/** The end of a row: where two runs meet it belongs to the first, so that a row along a whole side names that side alone. */
function endAt(outline: Outline, station: number, like?: RowZone["to"]) {
  const place = placeAt(outline, station, like);
  if (!("part" in place) || place.part > 0) return place;
  const before = placeAt(outline, station - 1e-3, like);
  return "part" in before ? { run: before.run, part: 1 } : place;
}
