import type { Strip, StripSide } from "../surface/strip.ts";
import { mm } from "./adrift.ts";
import type { Site } from "./site.ts";

/** A line that runs so near to the rim is meant to lie on it, mm. */
const ON_RIM = 1;

/**
 * What there is to say of a strip that begins below the rim and climbs over it onto the coping, a sentence for each side. What would stay below is told
 * as the figure by which the strip is laid: its half width on that side, or the width of both.
 */
export function climbsOverRim({ transitions }: Site, strip: Strip, figure: "half width" | "width"): string[] {
  const sides = figure === "width" ? 2 : 1;
  const rims = transitions.filter(({ kind }) => kind === "rim");
  const top = Math.min(...rims.map(({ curve }) => lowestOf(curve.points)));
  return [strip.left, strip.right].flatMap((side) => {
    const { least, lengthMm } = belowRim(side, strip.stations, top);
    if (lengthMm === 0) return [];
    return [
      `it climbs over the rim on one side, over ${mm(lengthMm)} of its length: ` +
        (least < 1
          ? "no width there stays below"
          : `a ${figure} of at most ${mm(Math.floor(sides * least))} there stays below`),
    ];
  });
}

/** The width at which no part of a side has passed the height of the rim, and the length of line over which it does, mm. */
function belowRim(side: StripSide, stations: Float64Array, top: number): { least: number; lengthMm: number } {
  let least = Infinity;
  let lengthMm = 0;
  for (let i = 0; i < stations.length; i++) {
    const width = widthBelow(side, i, top);
    if (width === null) continue;
    least = Math.min(least, width);
    const [before, after] = [stations[Math.max(0, i - 1)], stations[Math.min(stations.length - 1, i + 1)]];
    lengthMm += (after - before) / 2;
  }
  return { least, lengthMm };
}

/** The last grid width before the side passes the height of the rim, which is surely below it; null where it does not, or begins there. */
function widthBelow({ points, columns, halfWidth }: StripSide, sample: number, top: number): number | null {
  const height = (column: number) => points[3 * (sample * columns + column) + 2];
  if (height(0) > top - ON_RIM) return null;
  for (let c = 1; c < columns; c++) if (height(c) > top) return ((c - 1) * halfWidth) / (columns - 1);
  return null;
}

function lowestOf(points: ArrayLike<number>): number {
  let least = Infinity;
  for (let i = 2; i < points.length; i += 3) least = Math.min(least, points[i]);
  return least;
}
