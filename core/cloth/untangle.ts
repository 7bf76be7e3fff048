import { areaD, FillRule, type PathD, unionD } from "clipper2-ts";
import { pairsOf, pathOf } from "../layup/clip-path.ts";
import { isSimple } from "./simple.ts";

/**
 * An outline may lie over itself by this much, mm²: where two lines of sight meet in a tight corner they cross by a little. No larger are the crumbs that hang on
 * it by a point and the gaps that close at their mouth.
 */
const DUST = 1000;
/** Decimals of a millimetre to which an untangled outline is kept. */
const PRECISION = 3;

/**
 * A ring (x y pairs, mm, counter-clockwise) without what little it meets itself by: a simple polygon, the ring itself where it is one. What lies over itself by
 * more, hangs together at points only, or goes round a gap, comes back as it is: not simple.
 */
export function untangled(ring: Float64Array): Float64Array {
  if (isSimple(ring)) return ring;
  const path = pathOf(ring);
  const covered = unionD([path], [], FillRule.Positive, PRECISION);
  const turnedOver = unionD([path], [], FillRule.Negative, PRECISION);
  // What is covered twice counts twice in the area of the ring, what is turned over counts against it.
  const twice = areaD(path) - areaOf(covered) + 2 * Math.abs(areaOf(turnedOver));
  const [largest, ...others] = covered
    .flatMap(partedAtPoints)
    .sort((a, b) => Math.abs(areaD(b)) - Math.abs(areaD(a)));
  const dropped = others.reduce((sum, other) => sum + Math.abs(areaD(other)), 0);
  if (!largest || twice > DUST || dropped > DUST) return ring;
  const cleared = Float64Array.from(pairsOf(largest));
  return isSimple(cleared) ? cleared : ring;
}

const areaOf = (rings: readonly PathD[]): number => rings.reduce((sum, ring) => sum + areaD(ring), 0);

/** A ring that comes to a point more than once, as the rings that it is made of. */
export function partedAtPoints(ring: PathD): PathD[] {
  const parts: PathD[] = [];
  const way: PathD = [];
  for (const point of ring) {
    const before = way.findIndex(({ x, y }) => x === point.x && y === point.y);
    if (before >= 0) parts.push(way.splice(before));
    way.push(point);
  }
  return [...parts, way];
}
