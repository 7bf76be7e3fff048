import type { Chain, Segment } from "./chain.ts";
import { cutSegment, moveSegment, reverseSegment, segmentEnd, segmentStart } from "./segments.ts";

/** Two segments meet when the gap between them is at most this, mm. */
export const JOINT_GAP = 1e-6;

/**
 * Joins segments, each beginning where the last one ended, into a chain. Directions are not looked at: see `kinks`.
 * Throws a RangeError that names the joint when two segments are more than 1e-6 mm apart.
 */
export function makeChain(segments: readonly Segment[], closed: boolean): Chain {
  if (segments.length === 0) throw new RangeError("A chain needs at least one segment.");
  const stations = new Float64Array(segments.length + 1);
  segments.forEach((segment, i) => {
    stations[i + 1] = stations[i] + segment.length;
    const next = segments[i + 1] ?? (closed ? segments[0] : undefined);
    if (!next) return;
    const here = segmentEnd(segment);
    const there = segmentStart(next);
    const gap = Math.hypot(there.x - here.x, there.y - here.y);
    if (!(gap <= JOINT_GAP)) {
      throw new RangeError(
        `Segment ${i + 1} of ${segments.length} ends ${gap} mm from where the next begins.`,
      );
    }
  });
  return { segments, closed, length: stations[segments.length], stations };
}

/** The same chain travelled the other way. */
export const reverseChain = (chain: Chain): Chain =>
  makeChain(chain.segments.map(reverseSegment).reverse(), chain.closed);

/** The chain moved by (dx, dy). */
export const moveChain = (chain: Chain, dx: number, dy: number): Chain => ({
  ...chain,
  segments: chain.segments.map((segment) => moveSegment(segment, dx, dy)),
});

/**
 * The stretch of a chain from one station to another, as an open chain. On a closed chain the stretch may run past
 * station 0 (to < from, or to > length); `from` equal to `to` gives the whole round. On an open one 0 ≤ from < to ≤ length.
 */
export function cutChain(chain: Chain, from: number, to: number): Chain {
  const { segments, stations, length, closed } = chain;
  const begin = closed ? from - Math.floor(from / length) * length : from;
  const end = closed && to <= from ? begin + (length - ((from - to) % length)) : begin + (to - from);
  if (
    !(
      begin >= 0 &&
      end > begin &&
      (closed ? end <= begin + length * (1 + 1e-12) : end <= length * (1 + 1e-12))
    )
  ) {
    throw new RangeError(`There is no stretch from ${from} to ${to} mm on a chain of ${length} mm.`);
  }
  const cut: Segment[] = [];
  for (let lap = 0; lap * length < end; lap++) {
    segments.forEach((segment, i) => {
      const at = lap * length + stations[i];
      const low = Math.max(0, begin - at);
      const high = Math.min(segment.length, end - at);
      // A sliver shorter than the joint tolerance is rounding, not a segment.
      if (high - low > JOINT_GAP)
        cut.push(low === 0 && high === segment.length ? segment : cutSegment(segment, low, high));
    });
  }
  return makeChain(cut, false);
}

/** A joint at which the direction of travel turns by more than the tolerance. */
export interface Kink {
  /** The segment after the joint. */
  readonly segment: number;
  /** Signed turn at the joint, radians, positive counter-clockwise. */
  readonly turn: number;
}

/** Joints that are not smooth: those whose directions differ by more than `tolerance` radians. */
export function kinks(chain: Chain, tolerance: number): Kink[] {
  const { segments, closed } = chain;
  return segments.flatMap((segment, i) => {
    if (i === 0 && !closed) return [];
    const into = segmentEnd(segments[(i + segments.length - 1) % segments.length]);
    const out = segmentStart(segment);
    const turn = Math.atan2(into.tx * out.ty - into.ty * out.tx, into.tx * out.tx + into.ty * out.ty);
    return Math.abs(turn) > tolerance ? [{ segment: i, turn }] : [];
  });
}
