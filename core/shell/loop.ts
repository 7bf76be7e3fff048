/** Plan loops made from parts of the outline: offset, cut, joined and rounded. Lines and arcs stay lines and arcs. */
import type { Chain, Segment } from "../plan/chain.ts";
import { makeChain } from "../plan/make-chain.ts";
import { arc, line, segmentEnd, segmentStart, TURN } from "../plan/segments.ts";

/** A segment moved sideways: `left` mm to the left of its direction. Null when an arc would shrink to nothing. */
function shiftSegment(s: Segment, left: number): Segment | null {
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

/** A rounding error, mm: further than this beyond its end a segment is not touched. */
const BEYOND = 1e-3;

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
  const fitted = fitJoints(segments, closed, radiusAt);
  return "chain" in fitted ? fitted.chain : null;
}

/**
 * As `roundJoints`; where there is no room, `short` is the segment that would run backwards (null: no such arc at all).
 * `onIt`: arcs must touch the segments themselves, not their carriers beyond them.
 */
function fitJoints(
  segments: readonly Segment[],
  closed: boolean,
  radiusAt: JointRadius,
  onIt = false,
): { chain: Chain } | { short: number | null } {
  const n = segments.length;
  const trimmed: Segment[] = [...segments];
  const rounds: (Segment | null)[] = segments.map(() => null);
  for (let i = 0; i < (closed ? n : n - 1); i++) {
    const radius = radiusAt(i);
    if (radius === null) continue;
    const a = segments[i];
    const b = segments[(i + 1) % n];
    const round = roundBetween(a, b, radius);
    if (round === null) return { short: null };
    rounds[i] = round;
  }
  for (let i = 0; i < n; i++) {
    const from = rounds[(i + n - 1) % n];
    const to = rounds[i];
    const begin = from && (closed || i > 0) ? segmentEnd(from) : null;
    const end = to ? segmentStart(to) : null;
    const cut = between(segments[i], begin, end);
    if (cut === null) return { short: i };
    if (onIt && cut.length > segments[i].length + BEYOND) return { short: null };
    trimmed[i] = cut;
  }
  const joined = trimmed.flatMap((s, i) => (rounds[i] ? [s, rounds[i]] : [s]));
  const chain = makeChain(
    joined.filter((s) => s.length > 1e-9),
    closed,
  );
  return { chain };
}

/** The arc of `radius` that leaves a's carrier and joins b's, turning the way the two turn at their joint. */
function roundBetween(a: Segment, b: Segment, radius: number): Segment | null {
  const ea = segmentEnd(a);
  const sb = segmentStart(b);
  const turn = Math.atan2(ea.tx * sb.ty - ea.ty * sb.tx, ea.tx * sb.tx + ea.ty * sb.ty);
  const side = turn >= 0 ? 1 : -1;
  // Start where the centre would be between straight sides, then Newton on the two distances: it lies `radius` to the inner
  // side of both. Two circles nearly alike have another answer close by, far round them: the start must be nearer to this one.
  const mx = ea.tx + sb.tx;
  const my = ea.ty + sb.ty;
  const ml = Math.hypot(mx, my) || 1;
  const half = Math.min(Math.abs(turn) / 2, 1.3);
  const gap = ((sb.x - ea.x) * mx + (sb.y - ea.y) * my) / ml;
  const inward = (side * (radius - (gap / 2) * Math.sin(half))) / Math.cos(half);
  let x = (ea.x + sb.x) / 2 - (my / ml) * inward;
  let y = (ea.y + sb.y) / 2 + (mx / ml) * inward;
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
 * The same closed outline with every inward arc for which `least(i)` > 0 at least that round, as a ball of that radius
 * rolling inside it would leave it: arcs that are too tight are drawn anew between the segments that the ball still
 * touches; a segment too short to be touched goes as well. Null when nothing but arcs would be left.
 */
export function rounder(chain: Chain, least: (segment: number) => number): Chain | null {
  const n = chain.segments.length;
  const wanted = chain.segments.map((s, i) =>
    s.kind === "arc" && s.sweep > 0 && s.radius < least(i) - 1e-9 ? least(i) : 0,
  );
  if (wanted.every((w) => w === 0)) return chain;
  for (let attempt = 0; attempt < n; attempt++) {
    const first = wanted.indexOf(0);
    if (first < 0) return null;
    const kept: number[] = [];
    const radii: (number | null)[] = [];
    for (let k = 0; k < n; k++) {
      const i = (first + k) % n;
      if (wanted[i] > 0) radii[kept.length - 1] = Math.max(radii[kept.length - 1] ?? 0, wanted[i]);
      else {
        kept.push(i);
        radii.push(null);
      }
    }
    if (kept.length < 2) return null;
    const fitted = fitJoints(
      kept.map((i) => chain.segments[i]),
      true,
      (j) => radii[j],
      true,
    );
    if ("chain" in fitted) return fitted.chain;
    if (fitted.short === null) return null;
    // The ball passes this segment by: it goes with the corner beside it.
    const before = radii[(fitted.short + kept.length - 1) % kept.length] ?? 0;
    wanted[kept[fitted.short]] = Math.max(radii[fitted.short] ?? 0, before);
  }
  return null;
}
