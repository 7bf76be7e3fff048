import type { ZoneSpec } from "../../core/project/schema.ts";
import type { NewZone } from "./zone-edits.ts";

/** A zone as it would lie on another tread, wall, run or transition, with the same figures. */
export function copiedTo(zone: ZoneSpec, target: string): NewZone {
  switch (zone.kind) {
    case "band":
    case "pad":
      return { ...zone, on: target };
    case "gussets":
      return { ...zone, under: target };
    case "stiffener":
      return { ...zone, run: target };
    case "rib":
      return { ...zone, at: { ...zone.at, run: target } };
    case "rib-row":
      return { ...zone, from: { ...zone.from, run: target }, to: { ...zone.to, run: target } };
    case "stroke":
      return {
        ...zone,
        path: zone.path.map((place) =>
          "wall" in place ? { ...place, wall: { ...place.wall, run: target } } : { ...place, face: target },
        ),
      };
  }
}
