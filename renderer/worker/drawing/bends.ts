import type { SurfaceCurve } from "../../../core/surface/curve.ts";

/** How far a drawn strip may lie from where it is, mm. */
const OFF = 0.5;
/** At this distance above its line, too: so a strip does not twist away either. */
const ABOVE = 50;

/**
 * The samples of a curve on a surface that a strip need be drawn at: both ends, and those between that do not lie on the straight line
 * from one to the next.
 */
export function bendsOf({ points, normals, stations }: SurfaceCurve): number[] {
  const last = stations.length - 1;
  const offOf = (i: number, a: number, b: number): number => {
    const t = (stations[i] - stations[a]) / (stations[b] - stations[a]);
    let on = 0;
    let above = 0;
    for (let k = 0; k < 3; k++) {
      const [at, from, to] = [3 * i + k, 3 * a + k, 3 * b + k];
      const point = points[at] - points[from] - t * (points[to] - points[from]);
      const lean = normals[at] - normals[from] - t * (normals[to] - normals[from]);
      on += point * point;
      above += (point + ABOVE * lean) ** 2;
    }
    return Math.sqrt(Math.max(on, above));
  };
  return bends(last, OFF, offOf);
}

/** The points of a polyline, x y z each, without those that lie within `within` mm of the straight line from one to the next. */
export function straightened(points: Float32Array, within: number): Float32Array {
  const offOf = (i: number, a: number, b: number): number => {
    let square = 0;
    let along = 0;
    for (let k = 0; k < 3; k++) {
      const way = points[3 * b + k] - points[3 * a + k];
      square += way * way;
      along += way * (points[3 * i + k] - points[3 * a + k]);
    }
    const t = square > 0 ? Math.min(1, Math.max(0, along / square)) : 0;
    let off = 0;
    for (let k = 0; k < 3; k++)
      off += (points[3 * i + k] - points[3 * a + k] - t * (points[3 * b + k] - points[3 * a + k])) ** 2;
    return Math.sqrt(off);
  };
  const kept = bends(points.length / 3 - 1, within, offOf);
  const left = new Float32Array(3 * kept.length);
  kept.forEach((at, i) => {
    left.set(points.subarray(3 * at, 3 * at + 3), 3 * i);
  });
  return left;
}

/**
 * Of samples 0 to `last` both ends, and those between that are off by more than `within`, by Douglas and Peucker's division at the one
 * that is furthest off (Cartographica 10, 1973). `offOf` says how far a sample is off the straight line between two others.
 */
function bends(
  last: number,
  within: number,
  offOf: (i: number, from: number, to: number) => number,
): number[] {
  const kept = [0];
  const divide = (a: number, b: number): void => {
    let furthest = a;
    let most = within;
    for (let i = a + 1; i < b; i++) {
      const off = offOf(i, a, b);
      if (off <= most) continue;
      most = off;
      furthest = i;
    }
    if (furthest > a) {
      divide(a, furthest);
      divide(furthest, b);
    } else kept.push(b);
  };
  if (last > 0) divide(0, last);
  return kept;
}
