import type { Arc, Line, Segment } from "./chain.ts";

/** A full turn, radians. */
export const TURN = 2 * Math.PI;

/** A place on a segment or chain: point (mm) and unit direction of travel. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly tx: number;
  readonly ty: number;
}

/** The straight line from a to b (mm). Throws a RangeError when the two points are the same or not finite. */
export function line(ax: number, ay: number, bx: number, by: number): Line {
  const length = Math.hypot(bx - ax, by - ay);
  if (!(length > 0 && length < Infinity)) {
    throw new RangeError(`A line needs two different points: (${ax}, ${ay}) to (${bx}, ${by}).`);
  }
  return { kind: "line", ax, ay, bx, by, length, ux: (bx - ax) / length, uy: (by - ay) / length };
}

/**
 * The arc about (cx, cy) that leaves at angle `start` and turns through `sweep` (radians, positive counter-clockwise).
 * Throws a RangeError unless the radius is positive and 0 < |sweep| ≤ 2π.
 */
export function arc(cx: number, cy: number, radius: number, start: number, sweep: number): Arc {
  const turn = Math.abs(sweep);
  if (!(radius > 0 && radius < Infinity && turn > 0 && turn <= TURN * (1 + 1e-12))) {
    throw new RangeError(`An arc needs a radius and a turn of at most 2π: radius ${radius}, turn ${sweep}.`);
  }
  return { kind: "arc", cx, cy, radius, start, sweep, length: radius * turn };
}

/** The place `s` mm along a segment (0 … its length). */
export function segmentAt(segment: Segment, s: number): Place {
  if (segment.kind === "line") {
    const { ax, ay, ux, uy } = segment;
    return { x: ax + s * ux, y: ay + s * uy, tx: ux, ty: uy };
  }
  const { cx, cy, radius, start, sweep } = segment;
  const way = Math.sign(sweep);
  const angle = start + (way * s) / radius;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  return { x: cx + radius * cos, y: cy + radius * sin, tx: -way * sin, ty: way * cos };
}

/** The place where a segment begins. */
export const segmentStart = (segment: Segment): Place => segmentAt(segment, 0);

/** The place where a segment ends; a line's end point is returned to the last bit. */
export function segmentEnd(segment: Segment): Place {
  if (segment.kind === "line") return { x: segment.bx, y: segment.by, tx: segment.ux, ty: segment.uy };
  return segmentAt(segment, segment.length);
}

/** Signed curvature, 1/mm: positive where the segment turns counter-clockwise, zero on a line. */
export const curvatureOf = (segment: Segment): number =>
  segment.kind === "line" ? 0 : Math.sign(segment.sweep) / segment.radius;

/** The same segment travelled the other way. */
export function reverseSegment(segment: Segment): Segment {
  if (segment.kind === "line") return line(segment.bx, segment.by, segment.ax, segment.ay);
  const { cx, cy, radius, start, sweep } = segment;
  return arc(cx, cy, radius, start + sweep, -sweep);
}

/** The segment moved by (dx, dy). */
export function moveSegment(segment: Segment, dx: number, dy: number): Segment {
  if (segment.kind === "line") {
    const { ax, ay, bx, by } = segment;
    return { ...segment, ax: ax + dx, ay: ay + dy, bx: bx + dx, by: by + dy };
  }
  return { ...segment, cx: segment.cx + dx, cy: segment.cy + dy };
}

/**
 * The part of a segment from `from` to `to` mm along it (0 ≤ from < to ≤ length). A line keeps its exact direction,
 * however short the part is.
 */
export function cutSegment(segment: Segment, from: number, to: number): Segment {
  if (segment.kind === "line") {
    const { ax, ay, ux, uy } = segment;
    const whole = to === segment.length;
    return {
      ...segment,
      ax: ax + from * ux,
      ay: ay + from * uy,
      bx: whole ? segment.bx : ax + to * ux,
      by: whole ? segment.by : ay + to * uy,
      length: to - from,
    };
  }
  const { cx, cy, radius, start, sweep } = segment;
  const way = Math.sign(sweep);
  const end = to === segment.length ? sweep : (way * to) / radius;
  const begin = (way * from) / radius;
  return arc(cx, cy, radius, start + begin, end - begin);
}
