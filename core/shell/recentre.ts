import { activeSet, MOST_OPERANDS } from "./active-set.ts";
import type { Ball } from "./ball.ts";
import * as state from "./ball.ts";
import * as node from "./node.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { SLOT, stack } = node;
const { centre, excess, force, release } = state;

/** The Gram matrix of one programme, its model of the distance, and that one's inverse. */
const gram = new Float64Array(MOST_OPERANDS * MOST_OPERANDS);
const model = new Float64Array(9);
const inverse = new Float64Array(9);
/** By how much the centre that `recentre` was asked about last lies too near to an operand, mm; negative when it is free. */
export const asked = { violation: 0 };

/**
 * One step of sequential quadratic programming (see `Rolled`) from the centre p + d: the operands' values, normals and curvatures there give
 * a quadratic model of the distance, M = I + Σ λ k t tᵀ, and linear constraints. Leaves the new d in `centre`;
 * returns how far it moved, or −1 when the step is no good.
 */
export function recentre(
  ball: Ball,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  slot: number,
): number {
  const { sign, radius, operands } = ball;
  const base = (slot + 1) * SLOT;
  const row = slot * MOST_OPERANDS;
  const n = operands.length;
  const qx = x + dx;
  const qy = y + dy;
  const qz = z + dz;
  let over = -Infinity;
  for (let i = 0; i < n; i++) {
    operands[i].evaluate(qx, qy, qz, slot + 1 + i);
    over = Math.max(over, sign * stack[base + i * SLOT] + radius);
  }
  // Only now: operands that are blends themselves leave their own.
  asked.violation = over;
  if (stands(ball, dx, dy, dz, slot)) {
    centre[0] = dx;
    centre[1] = dy;
    centre[2] = dz;
    return 0;
  }
  // Where rounded edges bulge towards the ball the model may have a least point only along those that press, which
  // stiffening it across them does not move; or none at all: then without those edges.
  curvatures(ball, slot, -Infinity);
  if (!invert(model, inverse)) {
    stiffen(ball, slot);
    if (!invert(model, inverse)) {
      curvatures(ball, slot, 0);
      if (!invert(model, inverse)) return -1;
    }
  }
  // The model's own least point: c = M⁻¹(p + (M − I) q), here relative to q: M⁻¹(p − q).
  const cx = -(inverse[0] * dx + inverse[1] * dy + inverse[2] * dz);
  const cy = -(inverse[3] * dx + inverse[4] * dy + inverse[5] * dz);
  const cz = -(inverse[6] * dx + inverse[7] * dy + inverse[8] * dz);
  let top = 0;
  for (let i = 0; i < n; i++) {
    const g = base + i * SLOT;
    excess[row + i] = sign * (stack[g] + stack[g + 1] * cx + stack[g + 2] * cy + stack[g + 3] * cz) + radius;
    if (excess[row + i] > excess[row + top]) top = i;
    for (let j = 0; j <= i; j++) {
      const h = base + j * SLOT;
      const hx = stack[h + 1];
      const hy = stack[h + 2];
      const hz = stack[h + 3];
      const c =
        stack[g + 1] * (inverse[0] * hx + inverse[1] * hy + inverse[2] * hz) +
        stack[g + 2] * (inverse[3] * hx + inverse[4] * hy + inverse[5] * hz) +
        stack[g + 3] * (inverse[6] * hx + inverse[7] * hy + inverse[8] * hz);
      gram[i * n + j] = c;
      gram[j * n + i] = c;
    }
  }
  // Free of all as far as the model sees: nothing presses, on towards its least point.
  if (excess[row + top] > 0) activeSet(n, excess, gram, top, force, row);
  else release(ball, slot);
  let px = 0;
  let py = 0;
  let pz = 0;
  for (let i = 0; i < n; i++) {
    if (force[row + i] === 0) continue;
    const g = base + i * SLOT;
    const l = sign * force[row + i];
    px += l * stack[g + 1];
    py += l * stack[g + 2];
    pz += l * stack[g + 3];
  }
  const sx = cx - (inverse[0] * px + inverse[1] * py + inverse[2] * pz);
  const sy = cy - (inverse[3] * px + inverse[4] * py + inverse[5] * pz);
  const sz = cz - (inverse[6] * px + inverse[7] * py + inverse[8] * pz);
  centre[0] = dx + sx;
  centre[1] = dy + sy;
  centre[2] = dz + sz;
  return Math.sqrt(sx * sx + sy * sy + sz * sz);
}

/** Whether the centre just asked about is the nearest: it is free of every operand, and the forces hold it there. */
function stands(ball: Ball, dx: number, dy: number, dz: number, slot: number): boolean {
  const { sign, radius } = ball;
  const base = (slot + 1) * SLOT;
  const row = slot * MOST_OPERANDS;
  const slack = 1e-9 * radius;
  let rx = dx;
  let ry = dy;
  let rz = dz;
  for (let i = 0; i < ball.operands.length; i++) {
    const g = base + i * SLOT;
    const over = sign * stack[g] + radius;
    if (over > slack) return false;
    if (force[row + i] === 0) continue;
    if (over < -slack) return false;
    const l = sign * force[row + i];
    rx += l * stack[g + 1];
    ry += l * stack[g + 2];
    rz += l * stack[g + 3];
  }
  return Math.abs(rx) + Math.abs(ry) + Math.abs(rz) < slack;
}

/** Adds 2·g·gᵀ for every operand that presses. */
function stiffen(ball: Ball, slot: number): void {
  const base = (slot + 1) * SLOT;
  const row = slot * MOST_OPERANDS;
  for (let i = 0; i < ball.operands.length; i++) {
    if (force[row + i] === 0) continue;
    const g = base + i * SLOT + 1;
    model[0] += 2 * stack[g] * stack[g];
    model[1] += 2 * stack[g] * stack[g + 1];
    model[2] += 2 * stack[g] * stack[g + 2];
    model[4] += 2 * stack[g + 1] * stack[g + 1];
    model[5] += 2 * stack[g + 1] * stack[g + 2];
    model[8] += 2 * stack[g + 2] * stack[g + 2];
  }
}

/** The model's matrix M = I + Σ λ k t tᵀ over the operands whose λ k is more than `least`. */
function curvatures(ball: Ball, slot: number, least: number): void {
  const base = (slot + 1) * SLOT;
  const row = slot * MOST_OPERANDS;
  model.fill(0);
  model[0] = 1;
  model[4] = 1;
  model[8] = 1;
  for (let i = 0; i < ball.operands.length; i++) {
    const g = base + i * SLOT;
    const w = ball.sign * force[row + i] * stack[g + 4];
    if (w === 0 || w <= least) continue;
    const tx = stack[g + 5];
    const ty = stack[g + 6];
    const tz = stack[g + 7];
    model[0] += w * tx * tx;
    model[1] += w * tx * ty;
    model[2] += w * tx * tz;
    model[4] += w * ty * ty;
    model[5] += w * ty * tz;
    model[8] += w * tz * tz;
  }
}

/** Inverse of a symmetric 3 × 3 matrix; false when it is not positive definite. */
function invert(m: Float64Array, out: Float64Array): boolean {
  const a = m[4] * m[8] - m[5] * m[5];
  const b = m[2] * m[5] - m[1] * m[8];
  const c = m[1] * m[5] - m[2] * m[4];
  const det = m[0] * a + m[1] * b + m[2] * c;
  if (!(m[0] > 0 && m[0] * m[4] - m[1] * m[1] > 0 && det > 1e-9)) return false;
  out[0] = a / det;
  out[1] = b / det;
  out[2] = c / det;
  out[3] = out[1];
  out[4] = (m[0] * m[8] - m[2] * m[2]) / det;
  out[5] = (m[1] * m[2] - m[0] * m[5]) / det;
  out[6] = out[2];
  out[7] = out[5];
  out[8] = (m[0] * m[4] - m[1] * m[1]) / det;
  return true;
}
