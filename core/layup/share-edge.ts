import type { FieldNear } from "../surface/bricks.ts";
import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";

/** A share within this of 1 is the whole: rounding. */
export const WHOLE = 1 - 1e-9;
/** Edges are found to this, mm. */
const CLOSE = 1e-5;

const here = new Float64Array(9);

/** Share (0…1) of a face (index in `field.faces`) at a station of a curve. */
export function shareAt(curve: SurfaceCurve, near: FieldNear, face: number, station: number): number {
  curvePointAt(curve, station, here);
  return near(here[0], here[1], here[2]).shares(here[0], here[1], here[2])[face];
}

/**
 * The station at which a curve leaves the plain stretch of a face, where the face's share stops being 1: the tangent line
 * of a radius. `inside` is a station on the plain stretch, `outside` one beyond its end (either may be the greater).
 */
export function shareEdge(
  curve: SurfaceCurve,
  near: FieldNear,
  face: number,
  inside: number,
  outside: number,
): number {
  return edgeOfPlain((station) => 1 - shareAt(curve, near, face, station), inside, outside);
}

/**
 * Where a way leaves a plain stretch: `missing` gives what a face's share lacks of 1 at a place of the way (mm); nothing at
 * `inside`, something at `outside`. Beyond the tangent line the share falls off in proportion to the way, so the edge is
 * foreseen from two places outside it; halving helps where it is not.
 */
export function edgeOfPlain(missing: (at: number) => number, inside: number, outside: number): number {
  let low = inside;
  let high = outside;
  let above = missing(high);
  let further = Number.NaN;
  let furtherAbove = 0;
  for (let round = 0; round < 60 && Math.abs(high - low) > CLOSE; round++) {
    const foreseen = high - (above * (further - high)) / (furtherAbove - above);
    const between = (foreseen - low) * (high - foreseen) > 0;
    // A little outside what is foreseen, so that the next round has a fresh slope close by.
    const at = between && round % 4 !== 3 ? foreseen + 0.02 * (high - foreseen) : (low + high) / 2;
    const value = missing(at);
    if (value > 1e-9) {
      further = high;
      furtherAbove = above;
      high = at;
      above = value;
      const last = high - (above * (further - high)) / (furtherAbove - above);
      if (Math.abs(high - last) < CLOSE && (last - low) * (high - last) >= 0) return last;
    } else low = at;
  }
  return (low + high) / 2;
}

/**
 * The two neighbouring points of a curve between which the face's share first stops being whole after point `from`
 * (which has the whole), looking up to its end; null if it never does. Halves the way: right where the share, once lost, does
 * not come back.
 */
export function spanLeaving(
  curve: SurfaceCurve,
  near: FieldNear,
  face: number,
  from: number,
): readonly [number, number] | null {
  const wholeAt = (i: number) => {
    const [x, y, z] = curve.points.subarray(3 * i, 3 * i + 3);
    return near(x, y, z).shares(x, y, z)[face] >= WHOLE;
  };
  let low = from;
  let high = curve.stations.length - 1;
  if (wholeAt(high)) return null;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (wholeAt(middle)) low = middle;
    else high = middle;
  }
  return [low, high];
}
