import { zone as zoneSchema } from "../../core/project/layup-schema.ts";
import type { ZoneSpec } from "../../core/project/schema.ts";

export type BandZone = Extract<ZoneSpec, { kind: "band" }>;

const { minValue, maxValue } = zoneSchema.options[0].shape.halfWidths.def.items[0];
const [LEAST, MOST] = [minValue ?? 0, maxValue ?? Infinity];

/** A band with the half width of one side (0 left of its line, 1 right) brought to whole mm within what a project allows. */
export function widenBand(zone: BandZone, side: 0 | 1, halfWidthMm: number): BandZone {
  const width = Math.round(Math.min(MOST, Math.max(LEAST, halfWidthMm)));
  const [left, right] = zone.halfWidths;
  return { ...zone, halfWidths: side === 0 ? [width, right] : [left, width] };
}
