import { type Meeting, meetings } from "../plan/crossings.ts";
import { nearest } from "../plan/nearest.ts";
import type { Block } from "./blocks.ts";
import type { Node } from "./node.ts";
import * as node from "./node.ts";
import { betweenBlocks, type Radii } from "./radii.ts";
import type { Adjustment, Refusal } from "./shell.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { stack } = node;

/** A tier of a feature as it stands in the ground: tread and riser with the nose between them. */
export interface Solid {
  readonly block: Block;
  readonly node: Node;
  /** The same with another nose, mm. */
  readonly withNose: (radius: number) => Node;
}

export interface Valleys {
  /** Radius between two tiers as built, mm. */
  readonly radius: (a: Block, b: Block) => number;
  readonly adjustments: readonly Adjustment[];
  readonly refusals: readonly Refusal[];
}

/** The smallest radius that the project takes between two faces, and the largest nose, mm. */
const SMALLEST = 10;
const LARGEST_NOSE = 120;
/** Least radius of the ridge that two noses may leave where they cross, mm. */
const LEAST_RIDGE = 2;
/** Each try is this many times smaller than the last (a nose: larger). */
const FINER = 0.96;
/** Step along the way of the ball's centre, and most of them, mm. */
const STEP = 2;
const MOST_STEPS = 400;
/** Valleys narrower than this (sine of half the opening) are slots, which are checked by their width. */
const NARROWEST = Math.sin(Math.PI / 36);

/**
 * Where the risers of two features meet in a valley in plan, the ball that rounds the valley rolls out of it over the
 * noses, over both at once if the treads lie nearly level. A ball too large for that would leave a crease: the radius between the
 * two is made smaller there, by name, or refused when no ball at all passes. `others`: wall and floor.
 */
export function fitValleys(solids: readonly Solid[], others: readonly Node[], radii: Radii): Valleys {
  const fitted = new Map<string, number>();
  const adjustments: Adjustment[] = [];
  const refusals: Refusal[] = [];
  solids.forEach((a, i) => {
    solids.slice(i + 1).forEach((b) => {
      if (a.block.feature === b.block.feature) return;
      const asked = betweenBlocks(radii, a.block, b.block);
      const beside = [...others, ...solids.filter((s) => s !== a && s !== b).map((s) => s.node)];
      const used = largestBall(a, b, a.node, b.node, beside, asked);
      if (used >= asked) return;
      if (used < SMALLEST) {
        refusals.push(noBall(a, b, beside));
        return;
      }
      const [first, second] = [a.block.riser, b.block.riser];
      fitted.set(`${first}|${second}`, used);
      adjustments.push({
        id: `radius/${first}|${second}`,
        what: `radius between ${first} and ${second}`,
        asked,
        used,
        unit: "mm",
        why: "no larger ball rolls out of the valley in which they meet over the noses of their treads",
      });
    });
  });
  return {
    radius: (a, b) => fitted.get(`${a.riser}|${b.riser}`) ?? betweenBlocks(radii, a, b),
    adjustments,
    refusals,
  };
}

function noBall(a: Solid, b: Solid, beside: readonly Node[]): Refusal {
  let nose = Math.max(a.block.nose, b.block.nose);
  while (
    nose <= LARGEST_NOSE &&
    largestBall(a, b, a.withNose(nose), b.withNose(nose), beside, SMALLEST) < SMALLEST
  )
    nose /= FINER;
  return {
    path: a.block.path,
    value: a.block.depth,
    why: `${a.block.riser} and ${b.block.riser} meet in a valley so sharp that not even a ball of ${SMALLEST} mm rolls out of it over the noses of their treads at ${a.block.depth} and ${b.block.depth} mm`,
    wouldWork:
      nose <= LARGEST_NOSE
        ? `noses of at least ${Math.ceil(nose)} mm on both, or risers that meet more squarely`
        : "risers that meet at 90° or more",
  };
}

/**
 * The largest radius up to `asked` of a ball that rolls out of every valley between two solids without a crease; below
 * 10 mm 0. The ball's centre runs where it touches both: up the valley, then in over the noses, which it meets on curves
 * of radius nose + r. Where that way bends more sharply towards a contact than the ball is round, the balls' envelope
 * overlaps itself: two level treads with noses of n over a valley of half angle α need (n + r)·sin α > r.
 */
function largestBall(
  a: Solid,
  b: Solid,
  nodeA: Node,
  nodeB: Node,
  beside: readonly Node[],
  asked: number,
): number {
  let radius = asked;
  const below = Math.max(a.block.depth, b.block.depth) + LARGEST_NOSE;
  for (const crossing of crossingsOf(a.block, b.block)) {
    while (!passes(nodeA, nodeB, beside, crossing, below, radius)) {
      radius *= FINER;
      if (radius < SMALLEST) return 0;
    }
  }
  return radius;
}

/** A place where the edges of two treads cross, with the way into the valley and the sine of half its opening. */
interface Crossing {
  readonly x: number;
  readonly y: number;
  readonly wayX: number;
  readonly wayY: number;
  readonly sine: number;
}

function crossingsOf(a: Block, b: Block): Crossing[] {
  const points: Meeting[] = [];
  for (const s of a.footprint.segments) for (const t of b.footprint.segments) points.push(...meetings(s, t));
  return points.map(([x, y]) => {
    const n = nearest(a.footprint, x, y);
    const m = nearest(b.footprint, x, y);
    const [wx, wy] = [n.nx + m.nx, n.ny + m.ny];
    const size = Math.hypot(wx, wy) || 1;
    return { x, y, wayX: wx / size, wayY: wy / size, sine: size / 2 };
  });
}

/** The ball's centre, its way on there and a step before, and the normals of both solids. */
const q = new Float64Array(3);
const way = new Float64Array(3);
const before = new Float64Array(3);
const ga = new Float64Array(3);
const gb = new Float64Array(3);

/** Whether a ball rolls up out of a valley, from `below` on, without a crease. */
function passes(
  a: Node,
  b: Node,
  beside: readonly Node[],
  crossing: Crossing,
  below: number,
  radius: number,
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
    if (step > 0 && (radius + LEAST_RIDGE) * bend() > 1 && isFree(beside, radius)) return false;
    // On a tread the ball is out.
    if (ga[2] < -0.9999 || gb[2] < -0.9999) return true;
    before.set(way);
    for (let i = 0; i < 3; i++) q[i] += STEP * way[i];
  }
  return true;
}

/** Moves the centre the shortest way to where the ball touches both solids (Newton); leaves their normals there. */
function hold(a: Node, b: Node, radius: number): boolean {
  for (let k = 0; k < 20; k++) {
    a.evaluate(q[0], q[1], q[2], 0);
    const u = stack[0] + radius;
    for (let i = 0; i < 3; i++) ga[i] = stack[1 + i];
    b.evaluate(q[0], q[1], q[2], 0);
    const v = stack[0] + radius;
    for (let i = 0; i < 3; i++) gb[i] = stack[1 + i];
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

/** Greatest curvature of the centre's way towards a point of the ball between its two contacts, 1/mm. */
function bend(): number {
  let ca = 0;
  let cb = 0;
  let c = 0;
  for (let i = 0; i < 3; i++) {
    const k = (way[i] - before[i]) / STEP;
    ca += k * ga[i];
    cb += k * gb[i];
    c += ga[i] * gb[i];
  }
  const la = (ca - c * cb) / (1 - c * c);
  const lb = (cb - c * ca) / (1 - c * c);
  return la > 0 && lb > 0 ? Math.sqrt(la * ca + lb * cb) : Math.max(ca, cb);
}
