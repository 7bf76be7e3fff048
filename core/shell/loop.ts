/** Plan loops made from parts of the outline: offset, cut, joined and rounded. Lines and arcs stay lines and arcs. */
import type { Chain, Segment } from "../plan/chain.ts";
import { makeChain } from "../plan/make-chain.ts";
import { arc, line, segmentEnd, segmentStart, TURN } from "../plan/segments.ts";

/** A segment moved sideways: `left` mm to the left of its direction. Null when an arc would shrink to nothing. */
export function shiftSegment(s: Segment, left: number): Segment | null {
  if (s.kind === "line") {
    const dx = -s.uy * left;
    const dy = s.ux * left;
    return { ...s, ax: s.ax + dx, ay: s.ay + dy, bx: s.bx + dx, by: s.by + dy };
  }
  const radius = s.radius - Math.sign(s.sweep) * left;
  return radius > 1e-6 ? arc(s.cx, s.cy, radius, s.start, s.sweep) : null;
}

/** Every segment moved sideways by `left`; null when an arc would vanish (its radius is too small for the offset). */
export function shiftSegments(segments: readonly Segment[], left: number): Segment[] | null {
  const moved = segments.map((s) => shiftSegment(s, left));
  return moved.includes(null) ? null : (moved as Segment[]);
}

/** Rounding of the joint that follows a segment, or null to leave the joint as it is (it must be smooth then). */
export type JointRadius = (joint: number) => number | null;

/**
 * Joins segments whose carriers meet at each joint into a smooth chain: every joint with a radius is rounded by the
 * arc that touches both neighbours' carriers on the inside of the turn. Neighbours may stop short of the joint or run
 * past it. Null when an arc finds no room: its neighbours would have to run backwards.
 */
export function roundJoints(
  segments: readonly Segment[],
  closed: boolean,
  radiusAt: JointRadius,
): Chain | null {
  const n = segments.length;
  const trimmed: Segment[] = [...segments];
  const rounds: (Segment | null)[] = segments.map(() => null);
  for (let i = 0; i < (closed ? n : n - 1); i++) {
    const radius = radiusAt(i);
    if (radius === null) continue;
    const a = segments[i];
    const b = segments[(i + 1) % n];
    const round = roundBetween(a, b, radius);
    if (round === null) return null;
    rounds[i] = round;
  }
  for (let i = 0; i < n; i++) {
    const from = rounds[(i + n - 1) % n];
    const to = rounds[i];
    const begin = from && (closed || i > 0) ? segmentEnd(from) : null;
    const end = to ? segmentStart(to) : null;
    const cut = between(segments[i], begin, end);
    if (cut === null) return null;
    trimmed[i] = cut;
  }
  const joined = trimmed.flatMap((s, i) => (rounds[i] ? [s, rounds[i]] : [s]));
  return makeChain(
    joined.filter((s) => s.length > 1e-9),
    closed,
  );
}

/** The arc of `radius` that leaves a's carrier and joins b's, turning the way the two turn at their joint. */
function roundBetween(a: Segment, b: Segment, radius: number): Segment | null {
  const ea = segmentEnd(a);
  const sb = segmentStart(b);
  const turn = Math.atan2(ea.tx * sb.ty - ea.ty * sb.tx, ea.tx * sb.tx + ea.ty * sb.ty);
  const side = turn >= 0 ? 1 : -1;
  // Start beside the joint, then Newton on the two distances: the centre lies `radius` to the inner side of both.
  let x = (ea.x + sb.x) / 2;
  let y = (ea.y + sb.y) / 2;
  const bx = -(ea.ty + sb.ty) * side;
  const by = (ea.tx + sb.tx) * side;
  const bl = Math.hypot(bx, by) || 1;
  x += (bx / bl) * radius;
  y += (by / bl) * radius;
  for (let step = 0; step < 60; step++) {
    const p = leftOf(a, x, y);
    const q = leftOf(b, x, y);
    const ep = p.d - side * radius;
    const eq = q.d - side * radius;
    if (Math.abs(ep) + Math.abs(eq) < 1e-11) break;
    const det = p.nx * q.ny - p.ny * q.nx;
    if (Math.abs(det) < 1e-9) return null;
    x -= (ep * q.ny - eq * p.ny) / det;
    y -= (eq * p.nx - ep * q.nx) / det;
  }
  const p = leftOf(a, x, y);
  const q = leftOf(b, x, y);
  if (!(Math.abs(p.d - side * radius) + Math.abs(q.d - side * radius) < 1e-6)) return null;
  const start = Math.atan2(-side * p.ny, -side * p.nx);
  const end = Math.atan2(-side * q.ny, -side * q.nx);
  let sweep = end - start;
  if (side > 0) while (sweep <= 0) sweep += TURN;
  else while (sweep >= 0) sweep -= TURN;
  return Math.abs(sweep) > 1.9 * Math.PI ? null : arc(x, y, radius, start, sweep);
}

/** Distance of a point to the left of a segment's carrier, and its gradient. */
function leftOf(s: Segment, x: number, y: number): { d: number; nx: number; ny: number } {
  if (s.kind === "line") return { d: (y - s.ay) * s.ux - (x - s.ax) * s.uy, nx: -s.uy, ny: s.ux };
  const l = Math.hypot(x - s.cx, y - s.cy) || 1e-12;
  const sense = Math.sign(s.sweep);
  return { d: sense * (s.radius - l), nx: (-sense * (x - s.cx)) / l, ny: (-sense * (y - s.cy)) / l };
}

type Point = { readonly x: number; readonly y: number };

/** The part of a segment's carrier from one point of it to another, in its direction; null when that runs backwards. */
function between(s: Segment, begin: Point | null, end: Point | null): Segment | null {
  const a = begin ?? segmentStart(s);
  const b = end ?? segmentEnd(s);
  if (s.kind === "line") {
    const along = (b.x - a.x) * s.ux + (b.y - a.y) * s.uy;
    if (along < -1e-9) return null;
    return along < 1e-9 ? { ...s, ax: a.x, ay: a.y, bx: b.x, by: b.y, length: 0 } : line(a.x, a.y, b.x, b.y);
  }
  const way = Math.sign(s.sweep);
  // Angles are counted from the middle of the arc, so that an end that moved a little either way keeps its sense.
  const middle = s.start + s.sweep / 2;
  const from = turned(Math.atan2(a.y - s.cy, a.x - s.cx) - middle) * way;
  const to = turned(Math.atan2(b.y - s.cy, b.x - s.cx) - middle) * way;
  const full = !begin && !end;
  if (full) return s;
  if (to - from < -1e-12) return null;
  return to - from < 1e-12
    ? { ...s, length: 0 }
    : arc(s.cx, s.cy, s.radius, middle + way * from, way * (to - from));
}

const turned = (a: number): number => a - TURN * Math.round(a / TURN);

/**
 * The same closed outline with every inward corner arc at least as round as `least` asks: the arc is drawn anew
 * between its neighbours. `least(i)` is the smallest radius wanted for segment i (0: leave it). Null when there is no room.
 */
export function rounder(chain: Chain, least: (segment: number) => number): Chain | null {
  const n = chain.segments.length;
  const tight = chain.segments.map((s, i) => s.kind === "arc" && s.sweep > 0 && s.radius < least(i) - 1e-9);
  if (!tight.includes(true)) return chain;
  if (tight.some((t, i) => t && tight[(i + 1) % n])) return null;
  // Begin behind a corner, so that the loop over what is left keeps each corner's two neighbours side by side.
  const kept: Segment[] = [];
  const radii: (number | null)[] = [];
  const first = tight.indexOf(false);
  for (let k = 0; k < n; k++) {
    const i = (first + k) % n;
    if (tight[i]) {
      radii[kept.length - 1] = least(i);
      continue;
    }
    kept.push(chain.segments[i]);
    radii.push(null);
  }
  return roundJoints(kept, true, (j) => radii[j]);
}
