import { type BallBetween, ballBetween } from "./ball-between.ts";
import { type Carrier, carrierOf, carrierTouch, carrierTravel, onOneCarrier } from "./carrier.ts";
import type { Chain, Segment } from "./chain.ts";
import { JOINT_GAP, makeChain } from "./make-chain.ts";
import { arc, cutSegment, type Place, segmentEnd, segmentStart, TURN } from "./segments.ts";

/** A closed outline whose corners have all grown to one radius, or as far as they could. */
export interface GrownOutline {
  readonly chain: Chain;
  /** The radius of its tightest corners: the one asked for, or `largest` where that is smaller. */
  readonly radius: number;
  /** The largest radius to which all corners can grow: there a disc spans the outline. Infinity if that was not met. */
  readonly largest: number;
  /**
   * The radius at which a neighbour of a corner is first used up, so that from there on the corner lies between others.
   * Up to it `cornerGrowth` tells the whole story. Infinity if that was not met.
   */
  readonly firstMerge: number;
}

/**
 * Re-fillets every corner of a closed outline whose radius is below `radius` (mm), all at once: what is left is what a disc of
 * that radius can sweep without leaving the outline (its opening by the disc). Stretches between two corners that grow
 * together are used up, and their corners become one; bends that turn outwards stay as they are.
 *
 * The radius is followed from nothing to the one asked for. Three things happen on the way: an arc's own radius is reached,
 * and it becomes a corner; a stretch is used up; or a corner spans from one neighbour to the other, which ends the growth.
 */
export function growCorners(chain: Chain, radius: number): GrownOutline {
  if (!chain.closed) throw new RangeError("Only a closed outline has corners to grow.");
  let ring: Part[] = stretchesOf(chain);
  if (ring.length < 2) {
    // A whole circle is as round as it gets.
    const largest = bendOf(ring[0]);
    return { chain, radius: Math.min(radius, largest), largest, firstMerge: Infinity };
  }

  let now = 0;
  let firstMerge = Infinity;
  for (;;) {
    const next = nextEvent(ring, now, radius);
    if (!next) return { chain: drawRing(ring, radius), radius, largest: Infinity, firstMerge };
    if (next.kind === "used-up") firstMerge = Math.min(firstMerge, next.radius);
    now = next.radius;
    const after = next.kind === "span" ? null : mergeAt(ring, next.index, now);
    if (!after) return { chain: drawRing(ring, now), radius: now, largest: now, firstMerge };
    ring = after;
  }
}

/** A stretch of the outline on one line or circle, as far as it is left between the corners beside it. */
interface Stretch {
  readonly kind: "stretch";
  readonly whole: Segment;
  readonly carrier: Carrier;
  readonly head: Place;
  readonly tail: Place;
}

/** A growing corner between the stretches before and after it in the ring. */
interface Corner {
  readonly kind: "corner";
  readonly before: Stretch;
  readonly after: Stretch;
  readonly ball: BallBetween;
  /** Its centre at the radius at which it came to be. */
  readonly born: readonly [number, number];
}

type Part = Stretch | Corner;

/** The outline's stretches in order, split segments joined again. */
function stretchesOf(chain: Chain): Stretch[] {
  const stretches: Stretch[] = [];
  const first = onOneCarrier(chain, 0)[0];
  let at = first;
  do {
    const group = onOneCarrier(chain, at);
    const whole = group.map((i) => chain.segments[i]).reduce(joined);
    stretches.push({
      kind: "stretch",
      whole,
      carrier: carrierOf(whole),
      head: segmentStart(whole),
      tail: segmentEnd(whole),
    });
    at = (group[group.length - 1] + 1) % chain.segments.length;
  } while (at !== first);
  return stretches;
}

/** Two segments of one carrier, end to end, as one. */
function joined(a: Segment, b: Segment): Segment {
  const length = a.length + b.length;
  if (a.kind === "line") return b.kind === "line" ? { ...a, bx: b.bx, by: b.by, length } : a;
  return b.kind === "arc" ? { ...a, sweep: a.sweep + b.sweep, length } : a;
}

/** Radius at which a stretch itself becomes a corner: an arc's that turns inwards; Infinity for the rest. */
function bendOf(part: Part): number {
  if (part.kind === "corner" || part.whole.kind === "line" || part.whole.sweep < 0) return Infinity;
  return part.whole.radius;
}

const beside = (ring: readonly Part[], index: number, by: 1 | -1): Part =>
  ring[(index + by + ring.length) % ring.length];

type Event = { readonly kind: "bend" | "used-up" | "span"; readonly index: number; readonly radius: number };

/** What happens next to the ring as the radius grows from `now` to `most`, or null for nothing. */
function nextEvent(ring: readonly Part[], now: number, most: number): Event | null {
  let next: Event | null = null;
  let limit = most;
  const offer = (kind: Event["kind"], index: number, radius: number) => {
    // An arc of just the radius asked for is round enough already.
    if (radius > limit || (kind === "bend" && radius >= limit)) return;
    next = { kind, index, radius };
    limit = radius;
  };
  ring.forEach((part, i) => {
    if (part.kind === "corner") offer("span", i, Math.max(now, part.ball.widest));
    else offer("bend", i, Math.max(now, bendOf(part)));
  });
  // Last, so that of things that happen at one radius a stretch's end comes first.
  ring.forEach((_, i) => {
    const radius = usedUpAt(ring, i, now, limit);
    if (radius !== null) offer("used-up", i, radius);
  });
  return next;
}

/** The radius from `now` to `limit` at which the corners beside a stretch meet on it; null when they do not. */
function usedUpAt(ring: readonly Part[], index: number, now: number, limit: number): number | null {
  const part = ring[index];
  if (part.kind === "corner") return null;
  const [before, after] = [beside(ring, index, -1), beside(ring, index, 1)];
  if (before.kind === "stretch" && after.kind === "stretch") return null;
  const left = (r: number) => part.whole.length - takenFrom(part, before, after, r);
  if (left(limit) > JOINT_GAP / 4) return null;
  // What a growing disc leaves uncovered of a stretch only ever shrinks, so halving finds the one place.
  let [low, high] = [now, limit];
  for (let i = 0; i < 80 && high - low > 1e-13 * high; i++) {
    const middle = (low + high) / 2;
    if (left(middle) > 0) low = middle;
    else high = middle;
  }
  return high;
}

/** Length that the corners beside a stretch take from it at radius r. */
function takenFrom(stretch: Stretch, before: Part, after: Part, r: number): number {
  const atHead = before.kind === "corner" ? fromJoint(before, stretch, stretch.head, r) : 0;
  const atTail = after.kind === "corner" ? -fromJoint(after, stretch, stretch.tail, r) : 0;
  return atHead + atTail;
}

/** How far along a stretch from its joint a corner touches it. */
function fromJoint(corner: Corner, stretch: Stretch, joint: Place, r: number): number {
  const [x, y] = centreAt(corner, r);
  const [nx, ny] = carrierTouch(stretch.carrier, x, y, joint);
  return carrierTravel(stretch.carrier, joint.x, joint.y, x + r * nx, y + r * ny);
}

/**
 * Centre of a corner with radius r. At its widest, rounding may put it out of reach by a hair; where there is next to nothing
 * between its birth and its widest (two radii that are the same but for rounding), it stays where it began.
 */
function centreAt({ ball, born }: Corner, r: number): readonly [number, number] {
  return ball.centre(Math.min(r, ball.widest)) ?? ball.centre(r * (1 - 1e-12)) ?? born;
}

/**
 * The ring after a stretch has gone: it, and the corners beside it, give way to one corner between what then lies next. Null
 * when nothing may lie there: one stretch all round, or two that face each other squarely.
 */
function mergeAt(ring: readonly Part[], index: number, r: number): Part[] | null {
  const gone = ring[index] as Stretch;
  const [left, right] = [beside(ring, index, -1), beside(ring, index, 1)];
  const before = left.kind === "corner" ? left.before : left;
  const after = right.kind === "corner" ? right.after : right;
  if (before === after || before === gone || after === gone) return null;
  const corner = [left, right].find((part): part is Corner => part.kind === "corner");
  const [x, y] = corner
    ? centreAt(corner, r)
    : gone.whole.kind === "arc"
      ? [gone.whole.cx, gone.whole.cy]
      : [gone.head.x, gone.head.y];
  const from = carrierTouch(before.carrier, x, y, before.tail);
  const to = carrierTouch(after.carrier, x, y, after.head);
  if (turnBetween(from, to) > Math.PI - 1e-7) return null;
  const ball = ballBetween(before.carrier, after.carrier, x, y);
  const parts = ring.filter((part) => part !== gone && part !== left && part !== right);
  if (left.kind === "stretch") parts.push(left);
  if (right.kind === "stretch" && right !== left) parts.push(right);
  // Put the ring in order again: it begins with the stretch after the new corner.
  const order = ring.filter((part) => parts.includes(part));
  const start = order.indexOf(after);
  return [
    ...order.slice(start),
    ...order.slice(0, start),
    { kind: "corner", before, after, ball, born: [x, y] },
  ];
}

/** Turn from one outward direction to another, counter-clockwise, 0 … 2π. */
function turnBetween(from: readonly [number, number], to: readonly [number, number]): number {
  const turn = Math.atan2(from[0] * to[1] - from[1] * to[0], from[0] * to[0] + from[1] * to[1]);
  return turn < -1e-9 ? turn + TURN : Math.max(0, turn);
}

/** The ring as a chain, its corners drawn with radius r. */
function drawRing(ring: readonly Part[], r: number): Chain {
  const segments = ring.flatMap((part, i): Segment[] => {
    if (part.kind === "corner") {
      const [x, y] = centreAt(part, r);
      const from = carrierTouch(part.before.carrier, x, y, part.before.tail);
      const turn = turnBetween(from, carrierTouch(part.after.carrier, x, y, part.after.head));
      return turn * r > JOINT_GAP / 4 ? [arc(x, y, r, Math.atan2(from[1], from[0]), turn)] : [];
    }
    const [before, after] = [beside(ring, i, -1), beside(ring, i, 1)];
    const from = before.kind === "corner" ? fromJoint(before, part, part.head, r) : 0;
    const to = part.whole.length + (after.kind === "corner" ? fromJoint(after, part, part.tail, r) : 0);
    return to - from > JOINT_GAP / 4
      ? [cutSegment(part.whole, Math.max(0, from), Math.min(to, part.whole.length))]
      : [];
  });
  return makeChain(segments, true);
}
