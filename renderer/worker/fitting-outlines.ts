import { type KeepOut, keepOuts } from "../../core/layup/keep-outs.ts";
import type { Shell } from "../../core/shell/shell.ts";
import type { Field } from "../../core/surface/field.ts";
import type { FittingView } from "./messages.ts";

/** Points round an opening. */
const POINTS = 40;
/** How far from the rim's outline, inwards, the wall is looked for, mm. */
const REACH = 900;
/** The field's value is this many times the distance to the surface at the most: a step by it never goes through. */
const LIPSCHITZ = 1.06;
/** Least step, mm: through the surface in the end, and small enough for the field to be straight over it. */
const LEAST = 0.01;

type Place = (s: number) => readonly [number, number, number];

/**
 * The openings of a shell's fittings as closed lines on its gel coat: round where width and height are the same, else square.
 * A point that finds no surface is left out, and a fitting with none.
 */
export function fittingOutlines(shell: Shell): FittingView[] {
  return keepOuts(shell).flatMap((keepOut): FittingView[] => {
    const points: number[] = [];
    for (let i = 0; i < POINTS; i++) {
      const [u, v] = around(keepOut, i / POINTS);
      const found = firstCrossing(shell.field, lineAt(shell, keepOut, u, v), REACH_OF[keepOut.on](shell));
      if (found) points.push(...found);
    }
    const { id, kind } = keepOut;
    return points.length > 0 ? [{ id, kind, outline: Float32Array.from(points) }] : [];
  });
}

/** A point on the edge of an opening: along and up (or across) from its middle, mm. */
function around({ halfWidth, halfHeight }: KeepOut, part: number): [number, number] {
  const [cos, sin] = [Math.cos(2 * Math.PI * part), Math.sin(2 * Math.PI * part)];
  if (halfWidth === halfHeight) return [halfWidth * cos, halfHeight * sin];
  const out = Math.max(Math.abs(cos), Math.abs(sin));
  return [(halfWidth * cos) / out, (halfHeight * sin) / out];
}

/** The line on which the surface is looked for: square to the rim, or plumb. It starts in the ground and runs into the water. */
function lineAt(shell: Shell, keepOut: KeepOut, u: number, v: number): Place {
  const { x, y } = keepOut;
  if (keepOut.on === "floor") {
    const { min } = shell.field.bounds;
    return (s) => [x + u, y + v, min[2] + s];
  }
  const { tx, ty, depth } = keepOut;
  // Outwards is to the right of the way round.
  return (s) => [x + u * tx + (40 - s) * ty, y + u * ty - (40 - s) * tx, v - depth];
}

const REACH_OF = {
  wall: () => REACH,
  floor: ({ field }: Shell) => field.bounds.max[2] - field.bounds.min[2],
} as const;

/** Where a line first comes out of the ground into the water, in steps as long as the field says that no surface is near. */
function firstCrossing(field: Field, at: Place, reach: number): readonly [number, number, number] | null {
  let before = { s: 0, value: 0 };
  for (let s = 0; s <= reach; ) {
    const value = field.evaluate(...at(s));
    if (value <= 0 && before.value > 0)
      return at(before.s + ((s - before.s) * before.value) / (before.value - value));
    before = { s, value };
    s += Math.max(Math.abs(value) / LIPSCHITZ, LEAST);
  }
  return null;
}
