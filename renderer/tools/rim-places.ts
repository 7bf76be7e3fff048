import { buildOutline } from "../../core/plan/build-outline.ts";
import type { Outline } from "../../core/plan/chain.ts";
import { resolveRimPlace, runAt } from "../../core/plan/rim-place.ts";
import type { OutlineSpec, RimPlace } from "../../core/project/schema.ts";

/** Places of a file are kept to these: finer than any tape. */
const PARTS = 1e6;
const PER_MM = 100;

const built = new WeakMap<OutlineSpec, Outline | null>();

/** The rim's outline as a project has it; null where it cannot be built. Remembered. */
export function outlineOf(spec: OutlineSpec): Outline | null {
  const known = built.get(spec);
  if (known !== undefined) return known;
  const result = buildOutline(spec);
  const outline = result.ok ? result.outline : null;
  built.set(spec, outline);
  return outline;
}

/** The place on a named run at a rim station (mm, any number: stations go round), told in the manner of another place. */
export function placeAt(outline: Outline, station: number, like?: RimPlace): RimPlace {
  const { run, distance, part } = runAt(outline, station);
  if (like && "distance" in like) return { run: run.id, distance: Math.floor(distance * PER_MM) / PER_MM };
  return { run: run.id, part: Math.round(part * PARTS) / PARTS };
}

/** The rim station of a place, mm; null where the outline has no such place. */
export function stationOf(outline: Outline, place: RimPlace): number | null {
  const found = resolveRimPlace(outline, place);
  return "station" in found ? found.station : null;
}
