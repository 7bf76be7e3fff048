import type { Outline } from "../../../../core/plan/chain.ts";
import { pointAt } from "../../../../core/plan/point-at.ts";
import type { FittingSpec, ShellSpec } from "../../../../core/project/schema.ts";
import { setting } from "../../../document/figure-path.ts";
import { zoneName } from "../../../parts/names.ts";
import { stationOf } from "../../../tools/rim-places.ts";
import { words } from "../../../words.ts";
import { rimHandle } from "./feature-handles.ts";
import { type Handle, onGrain, type Spot } from "./handle.ts";

/** Where a fitting stands in the plan and which way its width lies, radians; null where the outline has no such place. */
export function fittingPlace(
  outline: Outline,
  { at }: FittingSpec,
): { at: Spot; turn: number; wall: boolean } | null {
  if ("floor" in at) return { at: onFloor(outline, at.floor), turn: 0, wall: false };
  const station = stationOf(outline, at.wall);
  if (station === null) return null;
  const { x, y, tx, ty } = pointAt(outline.chain, station);
  return { at: { x, y }, turn: Math.atan2(ty, tx), wall: true };
}

/** A handle for each fitting, in the shell's plan: along the rim, or anywhere over the floor. */
export function fittingHandles(shell: ShellSpec, outline: Outline): Handle[] {
  return shell.fittings.flatMap(({ id, at }, i): Handle[] => {
    const name = words.drawing.handles.fitting(zoneName(id));
    const path = ["shell", "fittings", i, "at"];
    if ("wall" in at) {
      const station = stationOf(outline, at.wall);
      if (station === null) return [];
      return [{ ...rimHandle(outline, station, at.wall, [...path, "wall"]), id: `fitting ${id}`, name }];
    }
    const spot = onFloor(outline, at.floor);
    return [
      {
        id: `fitting ${id}`,
        name,
        at: spot,
        shape: "point",
        along: null,
        stride: 1,
        value: spot.x,
        told: (print) => words.drawing.alongAcross(print(spot.x), print(spot.y)),
        field: `shell.fittings[${i}]`,
        to: ({ x, y }, grain) =>
          setting([...path, "floor"], floorParts(outline, onGrain(x, grain), onGrain(y, grain))),
      },
    ];
  });
}

function onFloor({ extent }: Outline, floor: { alongPart: number; acrossPart: number }): Spot {
  return { x: floor.alongPart * extent.length, y: (floor.acrossPart - 0.5) * extent.width };
}

/** A plan point as parts of the outline's box: along from the shallow end, across from the right side. */
export function floorParts({ extent }: Outline, x: number, y: number) {
  const part = (value: number) => Math.round(Math.min(1, Math.max(0, value)) * 1e6) / 1e6;
  return { alongPart: part(x / extent.length), acrossPart: part(y / extent.width + 0.5) };
}
