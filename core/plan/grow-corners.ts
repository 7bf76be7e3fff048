import { type BallBetween, ballBetween } from "./ball-between.ts";
import { type Carrier, carrierNormal, carrierOf, onOneCarrier } from "./carrier.ts";
import type { Arc, Chain, Segment } from "./chain.ts";
import { JOINT_GAP, makeChain } from "./make-chain.ts";
import { arc, cutSegment, line, segmentEnd, segmentStart } from "./segments.ts";

/**
 * A closed outline whose corners all grow together: at radius r it is the edge of what a disc of radius r can sweep without
 * leaving the outline. Every arc that turns inwards with a smaller radius has given way to one of radius r.
 */
export interface GrownOutline {
  /** Every corner there is at some radius up to the one asked for; at radius r those with from ≤ r < to. */
  readonly corners: readonly GrowingCorner[];
  /** Radius at which a neighbour is used up for the first time, so that a corner gets another neighbour: Infinity if never. */
  readonly firstMerge: number;
  /** Radius at which the disc first spans the outline and cannot grow: Infinity if that is above the radius asked for. */
  readonly largest: number;
  /** The outline at the radius asked for, or at `largest`. */
  readonly chain: Chain;
}

/** A corner between two stretches of the outline, for the radii at which it lies between these two. */
export interface GrowingCorner {
  readonly from: number;
  readonly to: number;
  /** The segments that the corner lies between: those of one line or circle, in order. */
  readonly before: readonly number[];
  readonly after: readonly number[];
  /** The segments that it has taken the place of. */
  readonly replaces: readonly number[];
  /** Centre at radius r, from ≤ r ≤ to, mm. */
  centre(r: number): readonly [number, number];
  /** Change of the centre for each mm of radius, given the centre. */
  rate(x: number, y: number): readonly [number, number];
}
