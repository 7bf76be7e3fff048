import { arcFromHeading, type Point } from "./arcs.ts";
import type { Chain, Segment } from "./chain.ts";
import { makeChain } from "./make-chain.ts";

/**
 * How much more the curve may turn at one end of a span than at the other before the tangent there gives way. It keeps the
 * tightest arc of a span of length L that turns through β at its end at about 2L/(20 β) or more.
 */
const UNEVEN = 20;
/**
 * Below this ratio of its two end angles a span gives up turning one way only. It comes to that at a point that turns sharply
 * between stretches that are straight on both sides, where no tangent can even things out.
 */
const NEXT_TO_NOTHING = 1 / 200;

export interface Biarcs {
  readonly chain: Chain;
  /** The span that each segment belongs to: span i runs from point i to point i + 1. */
  readonly spans: readonly number[];
}

/**
 * A smooth closed chain of arcs through the points (mm): two arcs a span, one where one is enough. Points on a circle give
 * that circle; points in convex position give a convex chain. Throws a RangeError for fewer than three points or for a
 * point repeated next to itself.
 *
 * The tangent at a point is that of the circle through it and its two neighbours, which shares out the turn there in
 * proportion to the spans; see `evenTangents` for its limits.
 */
export function biarcs(points: readonly Point[]): Biarcs {
  const count = points.length;
  if (count < 3) throw new RangeError(`A smooth outline needs three points or more, and not ${count}.`);
  const chords = points.map((point, i) => {
    const next = points[(i + 1) % count];
    const dx = next[0] - point[0];
    const dy = next[1] - point[1];
    const length = Math.hypot(dx, dy);
    if (!(length > 0)) throw new RangeError(`Points ${i + 1} and ${((i + 1) % count) + 1} are the same.`);
    return { dx, dy, length, heading: Math.atan2(dy, dx) };
  });
  const { leaving, arriving } = evenTangents(chords);

  const segments: Segment[] = [];
  const spans: number[] = [];
  chords.forEach(({ length, heading }, i) => {
    const [x, y] = points[i];
    for (const segment of biarc(x, y, heading, length, leaving[i], arriving[i])) {
      segments.push(segment);
      spans.push(i);
    }
  });
  return { chain: makeChain(segments, true), spans };
}

interface Chord {
  readonly dx: number;
  readonly dy: number;
  readonly length: number;
}

/**
 * The angles that the curve makes with its chords: on span i it turns through `leaving[i]` from its tangent to the chord
 * and through `arriving[i]` from the chord to the next tangent (radians, positive counter-clockwise).
 *
 * By the angle at the circumference, the circle through a point and its neighbours meets each chord at the angle that the
 * chord subtends at the third point. Where a span would turn more than twenty times as much at one end as at the other,
 * the tangent at the busy end is turned towards the chord: a curve that runs into three points in a row leaves the last of
 * them straight, as it must if it is not to swing out and back. Whether the two ends turn the same way does not matter here,
 * so that the curve has no jump as a point is dragged through a straight line.
 */
function evenTangents(chords: readonly Chord[]): { leaving: number[]; arriving: number[] } {
  const count = chords.length;
  const leaving: number[] = [];
  const arriving: number[] = [];
  const angle = (ax: number, ay: number, bx: number, by: number) =>
    Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  for (let i = 0; i < count; i++) {
    const into = chords[(i + count - 1) % count];
    const out = chords[i];
    const across = { dx: into.dx + out.dx, dy: into.dy + out.dy };
    leaving[i] = angle(into.dx, into.dy, across.dx, across.dy);
    arriving[(i + count - 1) % count] = angle(across.dx, across.dy, out.dx, out.dy);
  }
  const evenLeaving = [...leaving];
  const evenArriving = [...arriving];
  for (let i = 0; i < count; i++) {
    const last = (i + count - 1) % count;
    const turn = arriving[last] + leaving[i];
    const way = Math.sign(turn);
    const allowed = (farEnd: number) => UNEVEN * Math.abs(farEnd);
    const before = allowed(leaving[last]);
    const after = allowed(arriving[i]);
    const all = Math.abs(turn);
    let share = arriving[last] * way;
    if (before + after >= all) share = Math.min(Math.max(share, all - after), before);
    else if (before + after > 0) share = (all * before) / (before + after);
    evenArriving[last] = way * share;
    evenLeaving[i] = turn - way * share;
  }
  return { leaving: evenLeaving, arriving: evenArriving };
}

/**
 * Two arcs from (x, y) over a chord: the heading goes from heading − α over the joint's heading + δ to heading + β. The
 * chords of the two arcs are L·sin((β+δ)/2)/sin((α+β)/2) and L·sin((α−δ)/2)/sin((α+β)/2), from the two components of their sum.
 */
function biarc(x: number, y: number, heading: number, chord: number, alpha: number, beta: number): Segment[] {
  const delta = jointHeading(alpha, beta);
  const sine = Math.sin((alpha + beta) / 2);
  // Equal chords are the limit where α + β vanishes; else they come from the same formula.
  const even = delta === (alpha - beta) / 2;
  const half = chord / (2 * Math.cos((alpha + beta) / 4));
  const first = even ? half : (chord * Math.sin((beta + delta) / 2)) / sine;
  const second = even ? half : (chord * Math.sin((alpha - delta) / 2)) / sine;
  const turn = alpha + delta;
  if (Math.abs(alpha - beta) < 1e-12) return [arcFromHeading(x, y, heading - alpha, alpha + beta, chord)];
  const along = heading + (delta - alpha) / 2;
  return [
    arcFromHeading(x, y, heading - alpha, turn, first),
    arcFromHeading(
      x + first * Math.cos(along),
      y + first * Math.sin(along),
      heading + delta,
      beta - delta,
      second,
    ),
  ];
}

/**
 * Heading of the curve at the joint of the two arcs, from the chord. Halfway, which makes their chords equal, unless one arc
 * would then turn against the other on a span that turns one way (α, β of one sign): that arc becomes a line. When α is next
 * to nothing beside β this would leave too tight an arc; from there the joint goes back to halfway, without a jump.
 */
function jointHeading(alpha: number, beta: number): number {
  const half = (alpha - beta) / 2;
  if (alpha * beta <= 0) return half;
  const small = Math.min(Math.abs(alpha), Math.abs(beta));
  const great = Math.max(Math.abs(alpha), Math.abs(beta));
  if (small >= great / 3) return half;
  const straight = Math.abs(alpha) < Math.abs(beta) ? -alpha : beta;
  const limit = great * NEXT_TO_NOTHING;
  return small >= limit ? straight : half + (straight - half) * (small / limit);
}
