/**
 * An independent judge of a packing: whether outlines overlap and lie within the strip, decided exactly. It shares nothing
 * with the packer. All is done in whole numbers (BigInt), on which sums and products have no rounding: a floating-point
 * number is a whole number over a power of two, a decimal number in a file one over a power of ten.
 */

/** A corner in whole numbers. */
type Point = readonly [bigint, bigint];

/** A closed outline, counter-clockwise, in whole numbers. */
export type ExactRing = readonly Point[];

/** How many binary places are kept of a floating-point number; one with more is refused, not rounded. */
const PLACES = 80;

/** A floating-point number as a whole number of 2^−80, exactly. */
export function exact(value: number): bigint {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is not a number`);
  let shift = 0;
  // Doubling is exact in floating point.
  while (!Number.isInteger(value) && shift < PLACES) {
    value *= 2;
    shift++;
  }
  if (!Number.isInteger(value)) throw new RangeError(`${value} has more than ${PLACES} binary places`);
  return BigInt(value) << BigInt(PLACES - shift);
}

/** x y pairs in floating point as an exact ring. */
export function exactRing(pairs: ArrayLike<number>): ExactRing {
  const points: Point[] = [];
  for (let i = 0; i < pairs.length; i += 2) points.push([exact(pairs[i]), exact(pairs[i + 1])]);
  return counterClockwise(points);
}

/** Repeated corners left out, counter-clockwise. */
export function counterClockwise(points: readonly Point[]): ExactRing {
  const kept = points.filter((p, i) => !same(p, points[(i + points.length - 1) % points.length]));
  let twice = 0n;
  kept.forEach(([x, y], i) => {
    const [nextX, nextY] = kept[(i + 1) % kept.length];
    twice += x * nextY - y * nextX;
  });
  if (twice === 0n) throw new RangeError("an outline without area");
  return twice > 0n ? kept : kept.reverse();
}

/**
 * Whether the insides of two simple outlines have a point in common; touching is no overlap. If the insides meet and the
 * outlines are not the same, the boundary of one runs through the inside of the other. So: no edge may cross another
 * properly; and then every stretch of an edge between the points where the other outline touches it must lie outside
 * the other or along its boundary with the two insides on opposite sides.
 */
export function overlap(a: ExactRing, b: ExactRing): boolean {
  if (apart(a, b)) return false;
  const edgesOfA = edges(a);
  const edgesOfB = edges(b);
  for (const one of edgesOfA) for (const other of edgesOfB) if (crosses(one, other)) return true;
  return entersInside(edgesOfA, b, edgesOfB) || entersInside(edgesOfB, a, edgesOfA);
}

/** The first two of these outlines that overlap, or null. */
export function firstOverlap(rings: readonly ExactRing[]): readonly [number, number] | null {
  for (let i = 0; i < rings.length; i++)
    for (let j = 0; j < i; j++) if (overlap(rings[i], rings[j])) return [j, i];
  return null;
}

/** Whether an outline lies within a rectangle from the origin; its edge belongs to it. */
export function within(ring: ExactRing, length: bigint, width: bigint): boolean {
  return ring.every(([x, y]) => x >= 0n && y >= 0n && x <= length && y <= width);
}

type Edge = readonly [Point, Point];

const edges = (ring: ExactRing): Edge[] => ring.map((p, i) => [p, ring[(i + 1) % ring.length]]);

const same = (p: Point, q: Point) => p[0] === q[0] && p[1] === q[1];

function apart(a: ExactRing, b: ExactRing): boolean {
  return ([0, 1] as const).some((axis) => {
    const lies = (one: ExactRing, other: ExactRing) =>
      one.every((p) => other.every((q) => p[axis] <= q[axis]));
    return lies(a, b) || lies(b, a);
  });
}

/** Sign of the turn from p to q to r: 1 left, −1 right, 0 straight. */
function side(p: Point, q: Point, r: Point): number {
  const cross = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return cross > 0n ? 1 : cross < 0n ? -1 : 0;
}

function crosses([p, q]: Edge, [r, s]: Edge): boolean {
  return side(p, q, r) * side(p, q, s) < 0 && side(r, s, p) * side(r, s, q) < 0;
}

function onEdge(point: Point, [p, q]: Edge): boolean {
  return side(p, q, point) === 0 && dot(point, p, q) <= 0n;
}

/** (p − at)·(q − at): not positive when `at` lies between p and q. */
function dot(at: Point, p: Point, q: Point): bigint {
  return (p[0] - at[0]) * (q[0] - at[0]) + (p[1] - at[1]) * (q[1] - at[1]);
}

function entersInside(own: readonly Edge[], ring: ExactRing, others: readonly Edge[]): boolean {
  return own.some((edge) => {
    const [p, q] = edge;
    // No edges cross properly, so the outlines meet this edge at corners only: its own ends and the other's.
    const stops = [p, q, ...ring.filter((corner) => onEdge(corner, edge))];
    const along = (r: Point) => (r[0] - p[0]) * (q[0] - p[0]) + (r[1] - p[1]) * (q[1] - p[1]);
    stops.sort((r, s) => (along(r) < along(s) ? -1 : along(r) > along(s) ? 1 : 0));
    return stops.slice(1).some((stop, i) => !same(stop, stops[i]) && stretchInside(stops[i], stop, others));
  });
}

/** Whether a stretch that meets the other outline at its ends only, or runs along it, lies inside or along it on the same side. */
function stretchInside(from: Point, to: Point, others: readonly Edge[]): boolean {
  // Twice as fine, so that the middle is a whole number too.
  const middle: Point = [from[0] + to[0], from[1] + to[1]];
  const fine: Edge[] = others.map(([p, q]) => [
    [2n * p[0], 2n * p[1]],
    [2n * q[0], 2n * q[1]],
  ]);
  const along = fine.find((edge) => onEdge(middle, edge));
  if (along) {
    const [p, q] = along;
    return (q[0] - p[0]) * (to[0] - from[0]) + (q[1] - p[1]) * (to[1] - from[1]) > 0n;
  }
  // Even–odd rule with a ray towards +x, edges half open in y.
  let inside = false;
  for (const [p, q] of fine) {
    if (p[1] > middle[1] === q[1] > middle[1]) continue;
    if (side(p, q, middle) * (q[1] > p[1] ? 1 : -1) > 0) inside = !inside;
  }
  return inside;
}
