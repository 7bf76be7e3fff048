import type { Node } from "./node.ts";
import * as node from "./node.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { SLOT, stack } = node;

type Way = [number, number, number];

/** Newton's steps to where a ball touches both, steps along the curve, and halvings of the last of them. */
const MOST_STEPS = 16;
const MOST_STRIDES = 8;
const MOST_HALVINGS = 60;
/** The first step along the curve, in radii; each is twice the one before. */
const FIRST_STRIDE = 1 / 64;
/** A step that gets no further than this part of it has come to a corner of the curve. */
const AT_CORNER = 1e-3;
/** A ball this near to both touches them, and a place this little off is found, in radii. */
const TOUCHES = 1e-10;
const FOUND = 1e-8;

/** A place on the curve: the way there from the point, the curve's unit direction, and how fast the distance grows along it, mm. */
interface OnCurve {
  readonly at: Way;
  readonly along: Way;
  readonly slope: number;
}

/**
 * The nearest centre to a point on the curve where a ball touches two operands: from a place near that curve down along it
 * until it leads away again, then by halving. For curves that turn so sharply, or have a corner, that steps which take them for
 * straight go to and fro across the turn. Places are given by the way from the point; null when none is found. Uses the
 * stack from `slot` on.
 */
export function nearestAlongBoth(
  a: Node,
  b: Node,
  sign: 1 | -1,
  radius: number,
  point: Readonly<Way>,
  start: Readonly<Way>,
  slot: number,
): Readonly<Way> | null {
  const onCurve = (way: Way) => touch(a, b, sign, radius, point, way, slot);
  const first = onCurve([...start]);
  if (!first) return null;
  let from = first;
  let to = first;
  let stride = FIRST_STRIDE * radius;
  for (let step = 0; to.slope * from.slope > 0; step++, stride *= 2) {
    if (step === MOST_STRIDES) return null;
    from = to;
    const next = onCurve(moved(from.at, from.along, -Math.sign(from.slope) * stride));
    if (!next) return null;
    if (apart(from, next) < AT_CORNER * stride) return next.at;
    to = next;
  }
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    // False position, kept away from the ends so that both of them move in.
    const part = Math.min(Math.max(from.slope / (from.slope - to.slope), 0.1), 0.9);
    const between = [0, 1, 2].map((i) => from.at[i] + part * (to.at[i] - from.at[i])) as Way;
    const middle = onCurve(between);
    if (!middle) return null;
    if (Math.abs(middle.slope) < FOUND * radius || apart(from, to) < FOUND * radius) return middle.at;
    if (middle.slope * from.slope > 0) from = middle;
    else to = middle;
  }
  return null;
}

const moved = ([x, y, z]: Way, [tx, ty, tz]: Way, by: number): Way => [x + by * tx, y + by * ty, z + by * tz];

const apart = ({ at: [x, y, z] }: OnCurve, { at: [u, v, w] }: OnCurve): number =>
  Math.abs(u - x) + Math.abs(v - y) + Math.abs(w - z);

/** The place the shortest way from `at` where the ball touches both (Newton); null when there is none. */
function touch(
  a: Node,
  b: Node,
  sign: 1 | -1,
  radius: number,
  [x, y, z]: Readonly<Way>,
  at: Way,
  slot: number,
): OnCurve | null {
  const A = slot * SLOT;
  const B = A + SLOT;
  for (let step = 0; step < MOST_STEPS; step++) {
    a.evaluate(x + at[0], y + at[1], z + at[2], slot);
    b.evaluate(x + at[0], y + at[1], z + at[2], slot + 1);
    const u = sign * stack[A] + radius;
    const v = sign * stack[B] + radius;
    const c = stack[A + 1] * stack[B + 1] + stack[A + 2] * stack[B + 2] + stack[A + 3] * stack[B + 3];
    const det = 1 - c * c;
    if (det < 1e-6) return null;
    if (Math.abs(u) + Math.abs(v) < TOUCHES * radius) {
      const size = Math.sqrt(det);
      const tx = (stack[A + 2] * stack[B + 3] - stack[A + 3] * stack[B + 2]) / size;
      const ty = (stack[A + 3] * stack[B + 1] - stack[A + 1] * stack[B + 3]) / size;
      const tz = (stack[A + 1] * stack[B + 2] - stack[A + 2] * stack[B + 1]) / size;
      return { at, along: [tx, ty, tz], slope: at[0] * tx + at[1] * ty + at[2] * tz };
    }
    const onA = (sign * (u - c * v)) / det;
    const onB = (sign * (v - c * u)) / det;
    for (let i = 0; i < 3; i++) at[i] -= onA * stack[A + 1 + i] + onB * stack[B + 1 + i];
  }
  return null;
}
