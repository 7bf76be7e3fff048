import type { Outline } from "../../core/plan/chain.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { pointAt } from "../../core/plan/point-at.ts";
import { runAt } from "../../core/plan/rim-place.ts";
import type { RimPlace, SurfacePlace, ZoneSpec } from "../../core/project/schema.ts";
import type { LineView } from "../worker/messages.ts";
import { nearestOn, pointOn } from "./line-place.ts";
import { placeAt, stationOf } from "./rim-places.ts";
import type { NewZone } from "./zone-edits.ts";

/** What mirroring is done on: the rim and the lines of the shell. */
export interface Halves {
  readonly outline: Outline;
  readonly lines: readonly LineView[];
}

/** Both halves are the same to within this, mm. */
const SAME = 15;

/** A zone on the other side of the centre line; null where the shell has no such place there, or it is the same place. */
export function mirrored(zone: ZoneSpec, halves: Halves): NewZone | null {
  const twin = twinOf(zone, halves);
  return twin && JSON.stringify(twin) !== JSON.stringify(zone) ? twin : null;
}

function twinOf(zone: ZoneSpec, halves: Halves): ZoneSpec | null {
  switch (zone.kind) {
    case "rib": {
      const at = rim(zone.at, halves.outline);
      return at && { ...zone, at };
    }
    case "rib-row": {
      // What began at one end of a row ends there seen in the mirror.
      const from = rim(zone.to, halves.outline, "start");
      const to = rim(zone.from, halves.outline, "end");
      return from && to && { ...zone, from, to };
    }
    case "stiffener": {
      const run = halves.outline.runs.find(({ id }) => id === zone.run);
      const twin = run && station(halves.outline, run.from + run.length / 2);
      return twin === null || twin === undefined
        ? null
        : { ...zone, run: runAt(halves.outline, twin).run.id };
    }
    case "gussets": {
      const under = face(zone.under, halves.lines);
      return under === null ? null : { ...zone, under };
    }
    case "pad": {
      const on = face(zone.on, halves.lines);
      return on === null ? null : { ...zone, on };
    }
    case "band":
      return band(zone, halves.lines);
    case "stroke": {
      const path = zone.path.map((place) => surface(place, halves));
      return path.every((place) => place !== null) ? { ...zone, path } : null;
    }
  }
}

/** The rim station opposite to one; null where the rim is not the same there. */
function station(outline: Outline, of: number): number | null {
  const { x, y } = pointAt(outline.chain, of);
  const found = nearest(outline.chain, x, -y);
  return Math.abs(found.distance) > SAME ? null : found.station;
}

/** `side`: where two runs meet, an end belongs to the run before it and a start to the one after. */
function rim(place: RimPlace, outline: Outline, side?: "start" | "end"): RimPlace | null {
  const at = stationOf(outline, place);
  const twin = at === null ? null : station(outline, at);
  if (twin === null) return null;
  const aside = side === "end" ? -1e-3 : side === "start" ? 1e-3 : 0;
  const found = placeAt(outline, twin + aside, place);
  // The thousandth of a millimetre was only to tell which run is meant.
  return "part" in found ? { ...found, part: Number(found.part.toFixed(5)) } : found;
}

type Point = readonly [number, number, number];
const across = ([x, y, z]: Point): Point => [x, -y, z];

function band(zone: Extract<ZoneSpec, { kind: "band" }>, lines: readonly LineView[]): ZoneSpec | null {
  const line = lines.find(({ id }) => id === zone.on);
  if (!line) return null;
  const middle = across(pointOn(line.outside, line.closed, 0.37));
  const twin = lines.find(
    (each) => each.kind === line.kind && nearestOn(each.outside, each.closed, middle).distance < SAME,
  );
  if (!twin) return null;
  const { stretch, ...whole } = zone;
  if (!stretch) return { ...whole, on: twin.id };
  const part = (at: number) =>
    Number(
      nearestOn(twin.outside, twin.closed, across(pointOn(line.outside, line.closed, at))).part.toFixed(5),
    );
  const { kind, id, on: _, ...figures } = whole;
  return { kind, id, on: twin.id, stretch: { from: part(stretch.to), to: part(stretch.from) }, ...figures };
}

/** The face that lies where this one does, on the other side: told by the box in plan of the lines round it. */
function face(id: string, lines: readonly LineView[]): string | null {
  const box = planBox(id, lines);
  if (!box) return null;
  const ids = new Set(lines.flatMap(({ between }) => between));
  for (const other of ids) {
    const its = planBox(other, lines);
    if (!its) continue;
    const pairs = [
      [its.minX, box.minX],
      [its.maxX, box.maxX],
      [its.minY, -box.maxY],
      [its.maxY, -box.minY],
      [its.top, box.top],
    ];
    if (pairs.every(([a, b]) => Math.abs(a - b) < SAME) && kindOf(other) === kindOf(id)) return other;
  }
  return null;
}

/** `bench-left/top` and `bench-right/top` are of a kind. */
const kindOf = (id: string) => id.slice(id.lastIndexOf("/") + 1);

function planBox(id: string, lines: readonly LineView[]) {
  const box = { minX: Infinity, maxX: -Infinity, minY: Infinity, maxY: -Infinity, top: -Infinity };
  for (const { between, outside } of lines) {
    if (!between.includes(id)) continue;
    for (let i = 0; i < outside.length; i += 3) {
      box.minX = Math.min(box.minX, outside[i]);
      box.maxX = Math.max(box.maxX, outside[i]);
      box.minY = Math.min(box.minY, outside[i + 1]);
      box.maxY = Math.max(box.maxY, outside[i + 1]);
      box.top = Math.max(box.top, outside[i + 2]);
    }
  }
  return box.maxX > box.minX ? box : null;
}

function surface(place: SurfacePlace, halves: Halves): SurfacePlace | null {
  if ("wall" in place) {
    const wall = rim(place.wall, halves.outline);
    return wall && { ...place, wall };
  }
  const twin = face(place.face, halves.lines);
  return twin === null ? null : { ...place, face: twin, acrossPart: 1 - place.acrossPart };
}
