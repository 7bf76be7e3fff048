import { activeSet, MOST_OPERANDS } from "./active-set.ts";
import type { Ball } from "./ball.ts";
import * as state from "./ball.ts";
import * as node from "./node.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { SLOT, stack } = node;
const { TOUCHES, excess, force } = state;

/** The Gram matrix of one programme. */
const gram = new Float64Array(MOST_OPERANDS * MOST_OPERANDS);

/** The linear problem at p: forces from excesses and the normals' Gram matrix. Returns how many operands hold. */
export function press(ball: Ball, slot: number, top: number): number {
  const base = (slot + 1) * SLOT;
  const row = slot * MOST_OPERANDS;
  const n = ball.operands.length;
  if (n === 1) return 1;
  for (let i = 0; i < n; i++) {
    const a = base + i * SLOT;
    for (let j = i; j < n; j++) {
      const b = base + j * SLOT;
      const c = stack[a + 1] * stack[b + 1] + stack[a + 2] * stack[b + 2] + stack[a + 3] * stack[b + 3];
      gram[i * n + j] = c;
      gram[j * n + i] = c;
    }
  }
  return activeSet(n, excess, gram, top, force, row);
}

/**
 * One operand holds the ball by the linear problem at p. That stands if the ball's centre is free of all others: plain
 * between planes; a face that curves, or a blend, may bend into the way and is asked there if it is near enough.
 */
export function blocked(ball: Ball, x: number, y: number, z: number, slot: number, top: number): boolean {
  const base = (slot + 1) * SLOT;
  const row = slot * MOST_OPERANDS;
  const { sign, radius, operands } = ball;
  const u = excess[row + top];
  const g = base + top * SLOT;
  const way = sign * u;
  const qx = x - way * stack[g + 1];
  const qy = y - way * stack[g + 2];
  const qz = z - way * stack[g + 3];
  for (let j = 0; j < operands.length; j++) {
    if (j === top || operands[j].flat || excess[row + j] <= -u) continue;
    // Above all operands, whose slots must stay.
    operands[j].evaluate(qx, qy, qz, slot + 1 + operands.length);
    // Operands with a face in common touch the ball together there, to rounding.
    if (sign * stack[base + operands.length * SLOT] + radius > TOUCHES * radius) return true;
  }
  return false;
}
