import type { Chain, Segment } from "./chain.ts";
import { makeChain } from "./make-chain.ts";
import { arc, line } from "./segments.ts";

export type Point = readonly [number, number];

/**
 * An arc with a larger radius (mm: 500 km) is taken for its chord. Figures that large lose the sixth decimal of a millimetre
 * to rounding, and the chord of such an arc leaves a kink of no more than 3e-6 radians over a span of 3 m.
 */
const STRAIGHT = 5e8;

/**
 * The arc that leaves (x, y) with the heading `heading` (radians) and reaches the end of a chord of length `chord` while
 * turning through `turn` (|turn| < 2π). A turn too small to see gives a line.
 */
export function arcFromHeading(x: number, y: number, heading: number, turn: number, chord: number): Segment {
  if (chord > 2 * STRAIGHT * Math.sin(Math.abs(turn) / 2)) {
    const along = heading + turn / 2;
    return line(x, y, x + chord * Math.cos(along), y + chord * Math.sin(along));
  }
  const radius = chord / (2 * Math.sin(Math.abs(turn) / 2));
  const way = Math.sign(turn);
  const toCentre = heading + (way * Math.PI) / 2;
  return arc(
    x + radius * Math.cos(toCentre),
    y + radius * Math.sin(toCentre),
    radius,
    toCentre + Math.PI,
    turn,
  );
}

/**
 * The arc from a to b with the given bulge: tan(turn / 4), positive counter-clockwise, 0 for a line. The same figure as in
 * drawing-exchange files. Throws a RangeError when the two points are the same.
 */
export function arcFromBulge(a: Point, b: Point, bulge: number): Segment {
  const chord = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const radius = (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  if (!(radius < STRAIGHT)) return line(a[0], a[1], b[0], b[1]);
  const aside = (1 - bulge * bulge) / (4 * bulge);
  const cx = (a[0] + b[0]) / 2 - aside * (b[1] - a[1]);
  const cy = (a[1] + b[1]) / 2 + aside * (b[0] - a[0]);
  return arc(cx, cy, radius, Math.atan2(a[1] - cy, a[0] - cx), 4 * Math.atan(bulge));
}

/**
 * The arc from a through b to c. Three points in a row give a line. Throws a RangeError when two of the points are the
 * same, or when they are in one line and b does not lie between the others.
 */
export function arcThroughPoints(a: Point, b: Point, c: Point): Segment {
  const [px, py] = [b[0] - a[0], b[1] - a[1]];
  const [qx, qy] = [c[0] - b[0], c[1] - b[1]];
  const cross = px * qy - py * qx;
  const dot = px * qx + py * qy;
  if (Math.hypot(px, py) === 0 || Math.hypot(qx, qy) === 0 || (cross === 0 && dot < 0)) {
    throw new RangeError(`No arc runs from (${a}) through (${b}) to (${c}).`);
  }
  // The turn at b is the angle at the circumference, so the arc turns through twice as much about its centre.
  return arcFromBulge(a, c, Math.tan(Math.atan2(cross, dot) / 2));
}

/** A vertex of a path: the segment from it to the next vertex has this bulge (0 for a line). */
export interface BulgeVertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

/** The chain of lines and arcs through vertices with bulges; the last vertex of an open chain has a bulge of no account. */
export function chainFromBulges(vertices: readonly BulgeVertex[], closed: boolean): Chain {
  const count = closed ? vertices.length : vertices.length - 1;
  const segments = vertices.slice(0, count).map((vertex, i) => {
    const next = vertices[(i + 1) % vertices.length];
    return arcFromBulge([vertex.x, vertex.y], [next.x, next.y], vertex.bulge);
  });
  return makeChain(segments, closed);
}
