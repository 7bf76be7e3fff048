import type { ZoneSpec } from "../../core/project/schema.ts";

/**
 * Zones that lie already where this one goes, by id: bands on the same stretch of a transition, gussets under the same tread, pads and
 * stiffeners on the same place. They may be meant, as a second ply may be; whoever lays one is told. Ribs keep clear of each other
 * by sight, and free bands cross as they like.
 */
export function liesThere(layup: readonly ZoneSpec[], zone: ZoneSpec): string[] {
  return layup.filter((other) => other.id !== zone.id && share(other, zone)).map(({ id }) => id);
}

function share(a: ZoneSpec, b: ZoneSpec): boolean {
  if (a.kind === "band" && b.kind === "band")
    return a.on === b.on && partsOf(a).some((p) => partsOf(b).some((q) => p.from < q.to && q.from < p.to));
  if (a.kind === "gussets" && b.kind === "gussets") return a.under === b.under;
  if (a.kind === "pad" && b.kind === "pad") return a.on === b.on;
  return a.kind === "stiffener" && b.kind === "stiffener" && a.run === b.run;
}

/** The parts of its transition that a band lies on; one past the start of a closed line lies on two, one from a part to itself on all. */
function partsOf({ stretch }: Extract<ZoneSpec, { kind: "band" }>): { from: number; to: number }[] {
  if (!stretch || stretch.from === stretch.to) return [{ from: 0, to: 1 }];
  const { from, to } = stretch;
  if (from < to) return [{ from, to }];
  return [
    { from, to: 1 },
    { from: 0, to },
  ];
}
