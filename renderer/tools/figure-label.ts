import type { ZoneSpec } from "../../core/project/schema.ts";
import type { FigurePath } from "../document/figure-path.ts";
import { faceName, lineName } from "../parts/names.ts";
import { words } from "../words.ts";
import type { Mend } from "./mend.ts";

/** What a figure of some zones is called: the half widths by the faces that they reach onto, if all reach onto the same. */
export function figureLabel(path: FigurePath, zones: readonly ZoneSpec[]): string {
  const key = path.join(".");
  const plain = words.floor.figures[key as keyof typeof words.floor.figures] ?? key;
  if (path[0] !== "halfWidths") return plain;
  const sides = new Set(
    zones.map((zone) => (zone.kind === "band" ? sideName(zone.on, Number(path[1])) : plain)),
  );
  return sides.size === 1 ? [...sides][0] : plain;
}

function sideName(on: string, side: number): string {
  if (on === "foot") return side === 0 ? words.floor.upTheWall : words.floor.ontoTheFloor;
  const face = on.split("#")[0].split("|")[side];
  return face === undefined
    ? words.floor.figures[side === 0 ? "halfWidths.0" : "halfWidths.1"]
    : words.floor.ontoFace(faceName(face));
}

/** What a mend of a zone changes: "margin: 80 mm instead of 150 mm". */
export function mendInWords({ path, from, to }: Mend, zone: ZoneSpec): string {
  const told = (value: string | number) => {
    if (typeof value === "number") return path[0] === "plies" ? String(value) : `${value} mm`;
    return path[0] === "on" && zone.kind === "band" ? lineName(value) : faceName(value);
  };
  return words.floor.mended(figureLabel(path, [zone]), told(from), told(to));
}
