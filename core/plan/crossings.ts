import type { Arc, Chain, Line, Segment } from "./chain.ts";
import { segmentBounds } from "./chain-bounds.ts";
import { turnTo } from "./nearest.ts";
import { segmentEnd, segmentStart } from "./segments.ts";

/** A place where a chain meets itself: the two segments, in order, and the point (mm). */
export interface Crossing {
  readonly first: number;
  readonly second: number;
  readonly x: number;
  readonly y: number;
}

/** Tangent circles are found to cross as far as the root of a rounding error away from their joint, mm. */
const NEAR_JOINT = 0.01;
/** Ends that touch count as meeting, mm. */
const TOUCH = 1e-7;

/** Places where a chain crosses, touches or runs along itself (other than at its joints), one for each pair of segments. */
export function crossings(chain: Chain): Crossing[] {
  const { segments, closed } = chain;
  const count = segments.length;
  const boxes = segments.map(segmentBounds);
  const found: Crossing[] = [];
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const a = boxes[i];
      const b = boxes[j];
      if (a.minX > b.maxX + TOUCH || b.minX > a.maxX + TOUCH) continue;
      if (a.minY > b.maxY + TOUCH || b.minY > a.maxY + TOUCH) continue;
      const joints: { x: number; y: number }[] = [];
      if (j === i + 1) joints.push(segmentStart(segments[j]));
      if (closed && i === 0 && j === count - 1) joints.push(segmentStart(segments[0]));
      const away = ([x, y]: readonly [number, number]) =>
        joints.every((joint) => Math.hypot(x - joint.x, y - joint.y) > NEAR_JOINT);
      const meeting = meetings(segments[i], segments[j]).find(away);
      if (meeting) found.push({ first: i, second: j, x: meeting[0], y: meeting[1] });
    }
  }
  return found;
}

export type Meeting = readonly [number, number];

/** Points common to two segments, mm; where they run along each other, the ends of the common stretch. */
export function meetings(a: Segment, b: Segment): Meeting[] {
  const common =
    a.kind === "line"
      ? b.kind === "line"
        ? linesMeet(a, b)
        : lineMeetsCircle(a, b)
      : b.kind === "line"
        ? lineMeetsCircle(b, a)
        : circlesMeet(a, b);
  const ends = [a, b].flatMap((segment) => [segmentStart(segment), segmentEnd(segment)]);
  const candidates = common ?? ends.map(({ x, y }): Meeting => [x, y]);
  return candidates.filter(([x, y]) => holds(a, x, y) && holds(b, x, y));
}

/** Whether a point is on a segment, given that it is on its line or circle or very near it. */
function holds(segment: Segment, x: number, y: number): boolean {
  if (segment.kind === "line") {
    const px = x - segment.ax;
    const py = y - segment.ay;
    const along = px * segment.ux + py * segment.uy;
    const off = Math.abs(px * segment.uy - py * segment.ux);
    return off < 10 * TOUCH && along >= -TOUCH && along <= segment.length + TOUCH;
  }
  const px = x - segment.cx;
  const py = y - segment.cy;
  if (Math.abs(Math.hypot(px, py) - segment.radius) > 10 * TOUCH) return false;
  const turn = turnTo(segment, px, py);
  const slack = TOUCH / segment.radius;
  return turn <= Math.abs(segment.sweep) + slack || turn >= 2 * Math.PI - slack;
}

/** Where two endless lines meet; null when they are one line, so that the ends must tell. */
function linesMeet(a: Line, b: Line): Meeting[] | null {
  const cross = a.ux * b.uy - a.uy * b.ux;
  const px = b.ax - a.ax;
  const py = b.ay - a.ay;
  if (Math.abs(cross) < 1e-12) return Math.abs(px * a.uy - py * a.ux) < TOUCH ? null : [];
  const along = (px * b.uy - py * b.ux) / cross;
  return [[a.ax + along * a.ux, a.ay + along * a.uy]];
}

function lineMeetsCircle(line: Line, circle: Arc): Meeting[] {
  const px = circle.cx - line.ax;
  const py = circle.cy - line.ay;
  const foot = px * line.ux + py * line.uy;
  const off = Math.abs(px * line.uy - py * line.ux);
  if (off > circle.radius + TOUCH) return [];
  const half = Math.sqrt(Math.max(0, (circle.radius - off) * (circle.radius + off)));
  return [foot - half, foot + half].map((s): Meeting => [line.ax + s * line.ux, line.ay + s * line.uy]);
}

/** Where two circles meet; null when they are one circle. */
function circlesMeet(a: Arc, b: Arc): Meeting[] | null {
  const apart = Math.hypot(b.cx - a.cx, b.cy - a.cy);
  if (apart < TOUCH) return Math.abs(a.radius - b.radius) < TOUCH ? null : [];
  if (apart > a.radius + b.radius + TOUCH || apart < Math.abs(a.radius - b.radius) - TOUCH) return [];
  const ux = (b.cx - a.cx) / apart;
  const uy = (b.cy - a.cy) / apart;
  const along = (apart + ((a.radius - b.radius) * (a.radius + b.radius)) / apart) / 2;
  const half = Math.sqrt(Math.max(0, (a.radius - along) * (a.radius + along)));
  return [-half, half].map((s): Meeting => [a.cx + along * ux - s * uy, a.cy + along * uy + s * ux]);
}
