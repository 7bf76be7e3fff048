import { MOST_OPERANDS } from "./active-set.ts";
import { nearestAlongBoth } from "./along-both.ts";
import type { Ball } from "./ball.ts";
import * as state from "./ball.ts";
import * as node from "./node.ts";
import * as programme from "./recentre.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { SLOT, stack } = node;
const { TOUCHES, centre, force, release } = state;
const { asked, recentre } = programme;

/** Steps of the sequential programme; two or three are the rule, more only near the limit of what fits. */
const MOST_STEPS = 24;
/** A step that ends this near to where the one before began, in its own length, goes to and fro. */
const RETURNED = 0.2;
/** Steps of `settleSlowly`. */
const MOST_SHORT_STEPS = 100;

/**
 * Repeats the quadratic programme from the way in `centre` until the centre stands still, and leaves it there with the forces that
 * hold the ball; false when it does not.
 */
export function settle(ball: Ball, x: number, y: number, z: number, slot: number): boolean {
  // One by one, here and below: taking a typed array apart makes an iterator each time.
  const sx = centre[0];
  const sy = centre[1];
  const sz = centre[2];
  let dx = sx;
  let dy = sy;
  let dz = sz;
  const reach = 1.2 * ball.limit;
  let pace = 1;
  let before = Infinity;
  /** Where the centre was a step ago, and how often it came back to where it was two steps ago. */
  let lx = sx;
  let ly = sy;
  let lz = sz;
  let returned = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const moved = recentre(ball, x, y, z, dx, dy, dz, slot);
    if (moved < 0) break;
    const cx = centre[0];
    const cy = centre[1];
    const cz = centre[2];
    const back = Math.abs(cx - lx) + Math.abs(cy - ly) + Math.abs(cz - lz);
    if (
      step > 0 &&
      back < RETURNED * moved &&
      ++returned === 2 &&
      settleAlong(ball, x, y, z, dx, dy, dz, slot)
    )
      return true;
    // Where a face's curvature jumps beside the centre, full steps can go to and fro across the jump: shorten them.
    if (step > 2) pace = moved > (1 - 0.4 * pace) * before ? 0.6 * pace : Math.min(1, 1.5 * pace);
    before = moved;
    lx = dx;
    ly = dy;
    lz = dz;
    dx += pace * (cx - dx);
    dy += pace * (cy - dy);
    dz += pace * (cz - dz);
    if (dx * dx + dy * dy + dz * dz > reach * reach) break;
    if (moved < 1e-7 * ball.radius) {
      centre[0] = dx;
      centre[1] = dy;
      centre[2] = dz;
      return true;
    }
  }
  return settleAlong(ball, x, y, z, dx, dy, dz, slot) || settleSlowly(ball, x, y, z, sx, sy, sz, slot);
}

/** As `settle`, where two operands hold the ball and the steps go to and fro. */
function settleAlong(
  ball: Ball,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  slot: number,
): boolean {
  const { sign, radius, operands } = ball;
  const row = slot * MOST_OPERANDS;
  const base = (slot + 1) * SLOT;
  const n = operands.length;
  let first = -1;
  let second = -1;
  for (let i = 0; i < n; i++) {
    if (force[row + i] === 0) continue;
    if (first < 0) first = i;
    else if (second < 0) second = i;
    else return false;
  }
  if (second < 0) return false;
  const [a, b] = [operands[first], operands[second]];
  const found = nearestAlongBoth(a, b, sign, radius, [x, y, z], [dx, dy, dz], slot + 1 + n);
  if (!found) return false;
  for (let i = 0; i < n; i++) {
    operands[i].evaluate(x + found[0], y + found[1], z + found[2], slot + 1 + i);
    if (sign * stack[base + i * SLOT] + radius > TOUCHES * radius) return false;
  }
  // The forces that add up to the way back to the point.
  const A = base + first * SLOT + 1;
  const B = base + second * SLOT + 1;
  let c = 0;
  let u = 0;
  let v = 0;
  for (let i = 0; i < 3; i++) {
    c += stack[A + i] * stack[B + i];
    u -= sign * found[i] * stack[A + i];
    v -= sign * found[i] * stack[B + i];
  }
  if (!(u > c * v && v > c * u)) return false;
  release(ball, slot);
  force[row + first] = (u - c * v) / (1 - c * c);
  force[row + second] = (v - c * u) / (1 - c * c);
  centre.set(found);
  return true;
}

/**
 * As `settle`, by short steps that each bring the centre nearer or freer: for balls that several rounded edges hold
 * almost in balance, as over two noses out of a valley, where full steps run wild.
 */
function settleSlowly(
  ball: Ball,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  slot: number,
): boolean {
  const { radius } = ball;
  release(ball, slot);
  let moved = recentre(ball, x, y, z, dx, dy, dz, slot);
  let reach = radius / 4;
  const merits = [Infinity, Infinity, Infinity, merit(dx, dy, dz)];
  for (let step = 0; step < MOST_SHORT_STEPS && moved >= 0; step++) {
    // Where the ball is all but free to slide, the way to its resting place is long and worth nothing. It slides on what it touches:
    // free of all, it only has not come far.
    const still =
      Math.abs(asked.violation) < 1e-7 * radius &&
      Math.max(...merits) - merits[(step + 3) % 4] < 1e-8 * radius;
    if (moved < 1e-7 * radius || still) {
      centre[0] = dx;
      centre[1] = dy;
      centre[2] = dz;
      return true;
    }
    const [mx, my, mz] = [centre[0] - dx, centre[1] - dy, centre[2] - dz];
    for (;;) {
      const part = Math.min(1, reach / moved);
      const [nx, ny, nz] = [dx + part * mx, dy + part * my, dz + part * mz];
      const next = recentre(ball, x, y, z, nx, ny, nz, slot);
      if (next < 0) return false;
      const worth = merit(nx, ny, nz);
      // Now and then a step may make it worse: along a curved edge full steps do before they converge.
      if (worth < Math.max(...merits) || next < 1e-7 * radius) {
        merits[step % 4] = worth;
        reach = Math.min(2 * reach, 2 * radius);
        [dx, dy, dz, moved] = [nx, ny, nz, next];
        break;
      }
      reach = (part * moved) / 4;
      if (reach < 1e-6 * radius) return false;
    }
  }
  return false;
}

/** What a centre is worth: its distance, and how far it is from free of the operands, which weighs more. */
function merit(dx: number, dy: number, dz: number): number {
  return Math.sqrt(dx * dx + dy * dy + dz * dz) + 6 * Math.max(0, asked.violation);
}
