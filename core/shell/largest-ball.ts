import type { Chain } from "../plan/chain.ts";
import { type Meeting, meetings } from "../plan/crossings.ts";
import { nearest } from "../plan/nearest.ts";
import { limits } from "../project/shell-schema.ts";
import { largestThatWorks } from "./figure-that-works.ts";
import type { Node } from "./node.ts";
import * as node from "./node.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { stack } = node;

/** One side of a valley: what stands on the left of a chain in plan. */
export interface Side {
  readonly chain: Chain;
  readonly node: Node;
}

/** The smallest radius that the project takes between two faces, mm. */
export const SMALLEST = limits.pair[0];
/** Step along the way of the ball's centre, and most of them, mm. */
const STEP = 2;
const MOST_STEPS = 400;
/** Valleys narrower than this (sine of half the opening) are slots, which are checked by their width. */
const NARROWEST = Math.sin(Math.PI / 36);

/**
 * The largest radius up to `asked` of a ball that rolls out of every valley between two solids without a crease; below
 * 10 mm 0. The ball's centre runs where it touches both: up the valley, then in over the noses, which it meets on curves
 * of radius nose + r. Where that way bends more sharply towards a contact than the ball is round, the balls' envelope
 * overlaps itself: two level treads with noses of n over a valley of half angle α need (n + r)·sin α > r, and so does one
 * tread against an upright wall at an angle of α. `ridge`: least radius of the ridge that is left there, mm.
 */
export function largestBall(
  a: Side,
  b: Side,
  beside: readonly Node[],
  below: number,
  asked: number,
  ridge: number,
): number {
  let radius = asked;
  for (const crossing of crossingsOf(a.chain, b.chain)) {
    const rolls = (tried: number) => passes(a.node, b.node, beside, crossing, below, tried, ridge);
    if (!rolls(radius)) radius = largestThatWorks(SMALLEST, radius, rolls) ?? 0;
    if (radius === 0) return 0;
  }
  return radius;
}

/** A place where the edges of two sides cross in plan, with the way into the valley and the sine of half its opening. */
interface Crossing {
  readonly x: number;
  readonly y: number;
  readonly wayX: number;
  readonly wayY: number;
  readonly sine: number;
}

function crossingsOf(a: Chain, b: Chain): Crossing[] {
  const points: Meeting[] = [];
  for (const s of a.segments) for (const t of b.segments) points.push(...meetings(s, t));
  return points.map(([x, y]) => {
    const n = nearest(a, x, y);
    const m = nearest(b, x, y);
    const [wx, wy] = [n.nx + m.nx, n.ny + m.ny];
    const size = Math.hypot(wx, wy) || 1;
    return { x, y, wayX: wx / size, wayY: wy / size, sine: size / 2 };
  });
}

/** The ball's centre, its way on there and a step before, and of both sides normal, curvature and its direction. */
const q = new Float64Array(3);
const way = new Float64Array(3);
const before = new Float64Array(3);
const ga = new Float64Array(3);
const gb = new Float64Array(3);
const ka = new Float64Array(4);
const kb = new Float64Array(4);

/** Whether a ball rolls up out of a valley, from `below` on, without a crease. */
function passes(
  a: Node,
  b: Node,
  beside: readonly Node[],
  crossing: Crossing,
  below: number,
  radius: number,
  ridge: number,
): boolean {
  if (crossing.sine < NARROWEST) return true;
  q[0] = crossing.x + (crossing.wayX * radius) / crossing.sine;
  q[1] = crossing.y + (crossing.wayY * radius) / crossing.sine;
  q[2] = -below;
  before.set([0, 0, 1]);
  for (let step = 0; step < MOST_STEPS; step++) {
    if (!hold(a, b, radius)) return true;
    way[0] = ga[1] * gb[2] - ga[2] * gb[1];
    way[1] = ga[2] * gb[0] - ga[0] * gb[2];
    way[2] = ga[0] * gb[1] - ga[1] * gb[0];
    const size = Math.hypot(way[0], way[1], way[2]);
    const on = way[0] * before[0] + way[1] * before[1] + way[2] * before[2] < 0 ? -size : size;
    for (let i = 0; i < 3; i++) way[i] /= on;
    if (step > 0 && (radius + ridge) * bend() > 1 && isFree(beside, radius)) return false;
    // On a tread the ball is out.
    if (ga[2] < -0.9999 || gb[2] < -0.9999) return true;
    before.set(way);
    for (let i = 0; i < 3; i++) q[i] += STEP * way[i];
  }
  return true;
}

/** Moves the centre the shortest way to where the ball touches both solids (Newton); leaves their normals and curvatures there. */
function hold(a: Node, b: Node, radius: number): boolean {
  for (let k = 0; k < 20; k++) {
    a.evaluate(q[0], q[1], q[2], 0);
    const u = stack[0] + radius;
    for (let i = 0; i < 3; i++) ga[i] = stack[1 + i];
    for (let i = 0; i < 4; i++) ka[i] = stack[4 + i];
    b.evaluate(q[0], q[1], q[2], 0);
    const v = stack[0] + radius;
    for (let i = 0; i < 3; i++) gb[i] = stack[1 + i];
    for (let i = 0; i < 4; i++) kb[i] = stack[4 + i];
    const c = ga[0] * gb[0] + ga[1] * gb[1] + ga[2] * gb[2];
    const det = 1 - c * c;
    if (det < 1e-6) return false;
    if (Math.abs(u) + Math.abs(v) < 1e-8) return true;
    const la = (u - c * v) / det;
    const lb = (v - c * u) / det;
    for (let i = 0; i < 3; i++) q[i] -= la * ga[i] + lb * gb[i];
  }
  return false;
}

/** Whether the ball about the centre is clear of what stands beside the two. */
const isFree = (beside: readonly Node[], radius: number): boolean =>
  beside.every((o) => {
    o.evaluate(q[0], q[1], q[2], 0);
    return stack[0] <= 1e-6 - radius;
  });

/**
 * Greatest curvature of the centre's way towards a point of the ball between its two contacts, 1/mm: by the sides' own
 * strongest curvatures, which sees where a nose begins, and from the step before, which sees the others.
 */
function bend(): number {
  let ca = 0;
  let cb = 0;
  for (let i = 0; i < 3; i++) {
    const k = (way[i] - before[i]) / STEP;
    ca += k * ga[i];
    cb += k * gb[i];
  }
  return Math.max(between(ca, cb), between(turn(ka), turn(kb)));
}

/** How a side of this curvature turns the way along it towards its normal, 1/mm. */
const turn = (k: Float64Array): number =>
  k[0] === 0 ? 0 : -k[0] * (k[1] * way[0] + k[2] * way[1] + k[3] * way[2]) ** 2;

/** Greatest part between the two normals of a curvature with these parts along them. */
function between(ca: number, cb: number): number {
  const c = ga[0] * gb[0] + ga[1] * gb[1] + ga[2] * gb[2];
  const la = (ca - c * cb) / (1 - c * c);
  const lb = (cb - c * ca) / (1 - c * c);
  return la > 0 && lb > 0 ? Math.sqrt(la * ca + lb * cb) : Math.max(ca, cb);
}
