import { MOST_OPERANDS } from "./active-set.ts";
import type { Node } from "./node.ts";
import * as node from "./node.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { SLOT, stack } = node;

/** A ball that rolls on operands: pressed into them from outside (`sign` +1) or from within (−1). */
export interface Ball {
  readonly operands: readonly Node[];
  readonly radius: number;
  readonly sign: 1 | -1;
  /** Largest distance to the ball's centre for which it is found exactly; farther from the surface the sign is enough. */
  readonly limit: number;
}

/**
 * Excess of each operand and force of the ball on it: a row for each slot of the stack, since operands that are blends use
 * theirs in between.
 */
export const excess = new Float64Array((stack.length / SLOT) * MOST_OPERANDS);
export const force = new Float64Array(excess.length);
/** Way from the point to the ball's centre, as found last. */
export const centre = new Float64Array(3);
/** A ball this little into an operand touches it, in radii. */
export const TOUCHES = 1e-9;

/** Leaves the way from the point to the ball's centre, q − p = −Σ λ g, in `centre`. */
export function towardsCentre(ball: Ball, slot: number): void {
  const base = (slot + 1) * SLOT;
  const row = slot * MOST_OPERANDS;
  centre.fill(0);
  for (let i = 0; i < ball.operands.length; i++) {
    if (force[row + i] === 0) continue;
    const g = base + i * SLOT;
    const l = ball.sign * force[row + i];
    for (let r = 0; r < 3; r++) centre[r] -= l * stack[g + 1 + r];
  }
}

/** The operand that holds the ball by itself, or −1 when several do. */
export function onlyHolder(ball: Ball, slot: number): number {
  const row = slot * MOST_OPERANDS;
  let only = -1;
  for (let i = 0; i < ball.operands.length; i++) {
    if (force[row + i] === 0) continue;
    if (only >= 0) return -1;
    only = i;
  }
  return only;
}

/** Takes the ball off all operands. */
export function release(ball: Ball, slot: number): void {
  const row = slot * MOST_OPERANDS;
  for (let i = 0; i < ball.operands.length; i++) force[row + i] = 0;
}

/**
 * Writes the slot of a blend of several operands from the ball's centre and the forces on them: its value ±(`promised` − r), its
 * normal, and its curvature across.
 */
export function writeBlend(ball: Ball, slot: number, promised: number): void {
  const { sign } = ball;
  const n = ball.operands.length;
  const s = slot * SLOT;
  const base = (slot + 1) * SLOT;
  const row = slot * MOST_OPERANDS;
  const dx = centre[0];
  const dy = centre[1];
  const dz = centre[2];
  const D = Math.sqrt(dx * dx + dy * dy + dz * dz);
  // Across the blend: from one contact to another, square to the normal.
  let first = -1;
  let second = -1;
  for (let i = 0; i < n; i++) {
    if (force[row + i] === 0) continue;
    if (first < 0 || force[row + i] > force[row + first]) {
      second = first;
      first = i;
    } else if (second < 0 || force[row + i] > force[row + second]) second = i;
  }
  const gx = (-sign * dx) / D;
  const gy = (-sign * dy) / D;
  const gz = (-sign * dz) / D;
  stack[s] = sign * (promised - ball.radius);
  stack[s + 1] = gx;
  stack[s + 2] = gy;
  stack[s + 3] = gz;
  const A = base + first * SLOT;
  const B = base + second * SLOT;
  let tx = stack[A + 1] - stack[B + 1];
  let ty = stack[A + 2] - stack[B + 2];
  let tz = stack[A + 3] - stack[B + 3];
  const along = tx * gx + ty * gy + tz * gz;
  tx -= along * gx;
  ty -= along * gy;
  tz -= along * gz;
  const t = Math.sqrt(tx * tx + ty * ty + tz * tz);
  stack[s + 4] = t > 1e-9 ? sign / D : 0;
  stack[s + 5] = t > 1e-9 ? tx / t : 0;
  stack[s + 6] = t > 1e-9 ? ty / t : 0;
  stack[s + 7] = t > 1e-9 ? tz / t : 0;
}
