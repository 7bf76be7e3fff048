import type { ZoneSpec } from "../../../core/project/schema.ts";

/** A band on the foot of the wall: the whole loop, or a stretch of it. */
export const footBand = (stretch?: { from: number; to: number }): Extract<ZoneSpec, { kind: "band" }> => ({
  kind: "band",
  id: "z",
  on: "foot",
  ...(stretch && { stretch }),
  halfWidths: [260, 310],
  plies: 1,
  material: "woven-600",
});
