import { ballBetween } from "./ball-between.ts";
import { type Carrier, carrierOf, carrierTouch, carrierTravel, onOneCarrier } from "./carrier.ts";
import type { Arc, Chain } from "./chain.ts";
import { segmentEnd, segmentStart } from "./segments.ts";

/** A corner re-filleted with another radius between its two neighbours. */
export interface GrownCorner {
  readonly radius: number;
  /** Centre, mm, and its change for each mm of radius. */
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
  /** Unit vectors from the centre to where the arc leaves the neighbour before and meets the one after. */
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Turn of the arc, radians. */
  readonly sweep: number;
  /** How far the arc reaches into its neighbours past the present joints, mm along them (negative for a smaller radius). */
  readonly takesBefore: number;
  readonly takesAfter: number;
}

/** A plan corner that turns inwards, and what becomes of it as its radius grows. */
export interface CornerGrowth {
  /** The segments of the present arc (more than one where it was split), and of the neighbours that it may grow into. */
  readonly segments: readonly number[];
  readonly before: readonly number[];
  readonly after: readonly number[];
  readonly lengthBefore: number;
  readonly lengthAfter: number;
  readonly radius: number;
  /** The largest radius that fits between the neighbours while every other corner stays as it is. */
  readonly largest: number;
  /** What stops it there: a neighbour is used up, or the arc spans from one neighbour to the other. */
  readonly stoppedBy: "before" | "after" | "span";
  /** The corner with radius r, 0 < r ≤ largest, in closed form. Throws a RangeError where there is no such arc. */
  at(radius: number): GrownCorner;
}

/**
 * How the corner held by segment `index` of a closed chain grows between its two neighbours (line and line, line and arc,
 * arc and arc): its centre stays as deep inside both of them as the radius is long. Null when the segment is no corner:
 * a line, an arc that turns outwards, or a whole circle.
 */
export function cornerGrowth(chain: Chain, index: number): CornerGrowth | null {
  const arc = chain.segments[index];
  if (!chain.closed || arc.kind !== "arc" || arc.sweep < 0) return null;
  const count = chain.segments.length;
  const segments = onOneCarrier(chain, index);
  const before = onOneCarrier(chain, (segments[0] + count - 1) % count);
  const after = onOneCarrier(chain, (segments[segments.length - 1] + 1) % count);
  if (before.some((i) => segments.includes(i))) return null;

  const lengthOf = (group: readonly number[]) => group.reduce((sum, i) => sum + chain.segments[i].length, 0);
  const first = carrierOf(chain.segments[before[0]]);
  const second = carrierOf(chain.segments[after[0]]);
  const { cx, cy, radius } = arc;
  const ball = ballBetween(first, second, cx, cy);
  const start = segmentStart(chain.segments[segments[0]]);
  const end = segmentEnd(chain.segments[segments[segments.length - 1]]);
  const sweepNow = segments.reduce((sum, i) => sum + (chain.segments[i] as Arc).sweep, 0);

  function at(r: number): GrownCorner {
    const centre = r === radius ? ([cx, cy] as const) : ball.centre(r);
    if (!centre)
      throw new RangeError(`No arc of radius ${r} mm touches both neighbours of segment ${index}.`);
    const [x, y] = centre;
    const [dx, dy] = ball.rate(x, y);
    const from = carrierTouch(first, x, y, start);
    const to = carrierTouch(second, x, y, end);
    const turn = Math.atan2(from[0] * to[1] - from[1] * to[0], from[0] * to[0] + from[1] * to[1]);
    return {
      radius: r,
      ...{ x, y, dx, dy, from, to },
      sweep: turn < 0 ? turn + 2 * Math.PI : turn,
      takesBefore: -carrierTravel(first, start.x, start.y, x + r * from[0], y + r * from[1]),
      takesAfter: carrierTravel(second, end.x, end.y, x + r * to[0], y + r * to[1]),
    };
  }

  const lengthBefore = lengthOf(before);
  const lengthAfter = lengthOf(after);
  const limits: { stoppedBy: CornerGrowth["stoppedBy"]; largest: number }[] = [];
  if (sweepNow < Math.PI - 1e-9) {
    const head = segmentStart(chain.segments[before[0]]);
    const tail = segmentEnd(chain.segments[after[after.length - 1]]);
    limits.push({ stoppedBy: "span", largest: ball.widest });
    limits.push({ stoppedBy: "before", largest: touchingAt(second, head.x, head.y, head.ty, -head.tx) });
    limits.push({ stoppedBy: "after", largest: touchingAt(first, tail.x, tail.y, tail.ty, -tail.tx) });
  }
  const reached = ({ stoppedBy, largest }: (typeof limits)[number]) => {
    if (largest < radius * (1 - 1e-12)) return false;
    if (stoppedBy === "span") return true;
    // The circle that touches at a neighbour's far end counts only if it is the one that this corner grows into.
    if (largest > ball.widest || !ball.centre(largest)) return false;
    const grown = at(largest);
    const spare = stoppedBy === "before" ? lengthBefore - grown.takesBefore : lengthAfter - grown.takesAfter;
    return Math.abs(spare) < 1e-6 * (1 + largest);
  };
  const stop = limits.filter(reached).sort((a, b) => a.largest - b.largest)[0];
  return {
    ...{ segments, before, after, lengthBefore, lengthAfter, radius, at },
    largest: stop?.largest ?? radius,
    stoppedBy: stop?.stoppedBy ?? "span",
  };
}

/**
 * Radius of the circle that touches a carrier and passes through (x, y) with the outward normal (nx, ny) there. From
 * d(P − r·n) = −r: for a line r = −d(P)/(1 − n·n₂), for a circle r = (|P − q|² − ρ²)/(2(n·(P − q) − ρ)).
 */
function touchingAt(carrier: Carrier, x: number, y: number, nx: number, ny: number): number {
  if (carrier.kind === "line") {
    return (carrier.at - carrier.nx * x - carrier.ny * y) / (1 - nx * carrier.nx - ny * carrier.ny);
  }
  const { cx, cy, signedRadius } = carrier;
  const px = x - cx;
  const py = y - cy;
  return (px * px + py * py - signedRadius ** 2) / (2 * (nx * px + ny * py - signedRadius));
}
