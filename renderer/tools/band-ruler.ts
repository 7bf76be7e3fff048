import type { Drawing } from "../worker/drawing/drawing.ts";
import type { Ruler } from "./ruler.ts";

/** How far a ruler runs on beyond the cloth, mm: an edge can be dragged as far. */
const BEYOND = 900;

/**
 * The ruler across a band, from its right (negative) to its left, at the station that lies nearest to the eye. It is the row of
 * the drawing there, carried on straight at both ends. `within`: looked for in so large a part of the band about its middle, so
 * that on a short one it keeps clear of the ends.
 */
export function acrossAt(
  { positions, inCloth }: Drawing,
  eye: readonly [number, number, number],
  within = 1,
): Ruler {
  const stations = middleOf(inCloth, within);
  let nearest = Infinity;
  let station = 0;
  for (let v = 0; v < inCloth.length / 2; v++) {
    if (inCloth[2 * v + 1] !== 0 || !stations.has(inCloth[2 * v])) continue;
    const off = Math.hypot(...[0, 1, 2].map((k) => positions[3 * v + k] - eye[k]));
    if (off >= nearest) continue;
    nearest = off;
    station = inCloth[2 * v];
  }
  const row: { across: number; at: readonly number[] }[] = [];
  for (let v = 0; v < inCloth.length / 2; v++) {
    if (inCloth[2 * v] !== station) continue;
    row.push({ across: inCloth[2 * v + 1], at: [...positions.subarray(3 * v, 3 * v + 3)] });
  }
  row.sort((a, b) => a.across - b.across);
  // Both sides begin on the band's own line.
  const once = row.filter(({ across }, i) => i === 0 || across - row[i - 1].across > 1e-3);
  const carried = [
    carriedOn(once[1], once[0]),
    ...once,
    carriedOn(once[once.length - 2], once[once.length - 1]),
  ];
  return {
    points: Float32Array.from(carried.flatMap(({ at }) => [...at])),
    figures: Float64Array.from(carried.map(({ across }) => across)),
  };
}

/** The stations of a drawing's rows in so large a part of its length about its middle; at the least the one nearest to that. */
function middleOf(inCloth: Float32Array, within: number): ReadonlySet<number> {
  const all = [...new Set(inCloth.filter((_, i) => i % 2 === 0))].sort((a, b) => a - b);
  const middle = (all[0] + all[all.length - 1]) / 2;
  const off = (station: number) => Math.abs(station - middle);
  const least = Math.min(...all.map(off));
  const most = Math.max(least, (within / 2) * (all[all.length - 1] - all[0]));
  return new Set(all.filter((station) => off(station) <= most));
}

interface Row {
  readonly across: number;
  readonly at: readonly number[];
}

function carriedOn(before: Row, end: Row): Row {
  const t = BEYOND / Math.abs(end.across - before.across);
  return {
    across: end.across + t * (end.across - before.across),
    at: end.at.map((p, k) => p + t * (p - before.at[k])),
  };
}
