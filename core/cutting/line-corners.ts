import type { Strip } from "../surface/strip.ts";

/** The line turns where its direction changes by more than this over a span, rad per mm: a radius of 2.5 m. */
const TURNS = 1 / 2500;
/** A turn by less than this is no corner, rad: 15°. */
const CORNER = Math.PI / 12;

/** Stations (mm from the strip's beginning) at which each corner of a strip's line begins and ends: its tangent points. */
export function cornersOfLine({ stations, left, right }: Strip): (readonly [number, number])[] {
  // A side of no width has no parallels to tell a turn by.
  const { spans } = left.halfWidth > 0 ? left : right;
  const corners: (readonly [number, number])[] = [];
  let start = 0;
  let turned = 0;
  for (let i = 0; i < stations.length; i++) {
    const turn = i + 1 < stations.length ? spans.slopes[i * spans.columns.count] : 0;
    const length = i + 1 < stations.length ? stations[i + 1] - stations[i] : 1;
    const goesOn = Math.abs(turn) / length > TURNS && turn * turned >= 0;
    if (goesOn) {
      if (turned === 0) start = i;
      turned += turn;
      continue;
    }
    if (Math.abs(turned) > CORNER) corners.push([stations[start] - stations[0], stations[i] - stations[0]]);
    turned = 0;
  }
  return corners;
}
