import {
  areaD,
  differenceD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathD,
} from "clipper2-ts";
import { partedAtPoints } from "../cloth/untangle.ts";
import { pairsOf, pathOf } from "../layup/clip-path.ts";
import { boxOf } from "../packing/ring.ts";

/** Decimals of a millimetre to which outlines are kept. */
const PRECISION = 4;
/** Corners stay sharp up to this many times the trim, but for what would stick out of the roll. */
const MITER = 2;

/**
 * An outline (x y pairs, mm, counter-clockwise) made wider all round by `trim` mm, but for its darts: their sides, from mouth to tip and out again, stay
 * where they are and are carried on straight to the new edge.
 */
export function trimmed(outline: Float64Array, darts: readonly Float64Array[], trim: number): Float64Array {
  if (trim === 0) return outline;
  const grown = inflatePathsD([pathOf(outline)], trim, JoinType.Miter, EndType.Polygon, MITER, PRECISION);
  const wide = intersectD(grown, [boxAround(outline, trim)], FillRule.NonZero, PRECISION);
  const open = darts.map((dart) => carriedOn(pathOf(dart), 3 * trim));
  const rings = open.length > 0 ? differenceD(wide, open, FillRule.NonZero, PRECISION) : wide;
  // A dart that is all but closed may cut off a crumb; a gap that the trim closes at its mouth is closed all through.
  const [ring] = rings.flatMap(partedAtPoints).sort((a, b) => areaD(b) - areaD(a));
  return Float64Array.from(pairsOf(ring));
}

/** The box of an outline, wider to all sides by `trim` mm. */
function boxAround(outline: Float64Array, trim: number): PathD {
  const { left: x, low: y, width, height } = boxOf(outline);
  const [left, right] = [x - trim, x + width + trim];
  const [low, high] = [y - trim, y + height + trim];
  return [
    { x: left, y: low },
    { x: right, y: low },
    { x: right, y: high },
    { x: left, y: high },
  ];
}

/** A dart's line with both of its ends carried on by `length` mm. */
function carriedOn(line: PathD, length: number): PathD {
  const beyond = (end: number, before: number) => {
    const [a, b] = [line[before], line[end]];
    const size = Math.hypot(b.x - a.x, b.y - a.y) || 1;
    return { x: b.x + ((b.x - a.x) / size) * length, y: b.y + ((b.y - a.y) / size) * length };
  };
  const last = line.length - 1;
  return [beyond(0, 1), ...line, beyond(last, last - 1)];
}
