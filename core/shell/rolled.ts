import { MOST_FACES, type Node, SLOT, shareStack, stack } from "./node.ts";

/** Most operands of one blend that can matter at a point; more than three never touch one ball at once in general. */
const MOST_OPERANDS = 96;
const PARALLEL = 1 - 1e-9;

/**
 * Rolling-ball blend of any number of operands with one radius: `sign` +1 rounds their re-entrant edges (the air is
 * the intersection of the operands' air), −1 rounds their outward edges (the air is the union).
 *
 * With u = ±v + r, the ball's centre is the nearest point to p of the set {u_i + g_i·d ≤ 0}; its distance D is the
 * largest of the distances to the sets of one, two or three operands that press on the ball (λ ≥ 0):
 * D² = λ·u with G λ = u, G the Gram matrix of the gradients. Value ±(D − r). For two operands this is
 * √((u² + v² − 2cuv)/(1 − c²)) − r. Taking the largest needs no feasibility test (every subset is a lower bound of the
 * full problem: weak duality) and no order of operands.
 *
 * Operands that are blends themselves must have radii no smaller than this one's: then their rounded edges are left
 * as they are, since a ball of radius r rolls inside a fillet of radius R ≥ r without touching anything else.
 */
export class Rolled implements Node {
  readonly flat = false;
  readonly lowZ: number;
  readonly highZ: number;
  private pass = -1;
  private reduced: Node = this;
  /** Force of the ball on each operand at the last point. */
  private readonly force: Float64Array;

  readonly operands: readonly Node[];
  readonly radius: number;
  readonly sign: 1 | -1;
  readonly faceCount: number;

  constructor(operands: readonly Node[], radius: number, sign: 1 | -1, faceCount: number) {
    this.operands = operands;
    this.radius = radius;
    this.sign = sign;
    this.faceCount = faceCount;
    if (operands.length > MOST_OPERANDS)
      throw new Error(`a blend of ${operands.length} faces; at most ${MOST_OPERANDS}`);
    this.force = new Float64Array(operands.length);
    // The blend's normal is a positive sum of its operands', so it leans no less up (or down) than the least of them.
    let low = 1;
    let high = -1;
    for (const o of operands) {
      low = Math.min(low, o.lowZ);
      high = Math.max(high, o.highZ);
    }
    this.lowZ = low >= 0 ? low : -1;
    this.highZ = high <= 0 ? high : 1;
  }

  evaluate(x: number, y: number, z: number, slot: number): void {
    const n = this.operands.length;
    for (let i = 0; i < n; i++) this.operands[i].evaluate(x, y, z, slot + 1 + i);
    this.roll(slot);
  }

  shares(x: number, y: number, z: number, slot: number): void {
    const n = this.operands.length;
    for (let i = 0; i < n; i++) this.operands[i].shares(x, y, z, slot + 1 + i);
    this.roll(slot);
    let total = 0;
    for (let i = 0; i < n; i++) total += this.force[i];
    const row = slot * MOST_FACES;
    shareStack.fill(0, row, row + this.faceCount);
    for (let i = 0; i < n; i++) {
      if (this.force[i] === 0) continue;
      const part = this.force[i] / total;
      const from = (slot + 1 + i) * MOST_FACES;
      for (let f = 0; f < this.faceCount; f++) shareStack[row + f] += part * shareStack[from + f];
    }
  }

  /** Blends the operands' slots above `slot` into it, and leaves the forces of the ball on each. */
  private roll(slot: number): void {
    const { sign, radius, force } = this;
    const n = this.operands.length;
    const base = (slot + 1) * SLOT;
    let top = 0;
    let most = -Infinity;
    for (let i = 0; i < n; i++) {
      force[i] = 0;
      const v = sign * stack[base + i * SLOT];
      if (v > most) {
        most = v;
        top = i;
      }
    }
    const u0 = most + radius;
    let a = top;
    let b = -1;
    let c = -1;
    let la = u0;
    let lb = 0;
    let lc = 0;
    let best = u0 * u0;
    // The ball is held by up to three operands. Whatever holds it is not strictly inside the half-space of `top` alone.
    if (u0 > 0 && n > 1) {
      for (let i = 0; i < n; i++) {
        const ui = sign * stack[base + i * SLOT] + radius;
        for (let j = i + 1; j < n; j++) {
          const uj = sign * stack[base + j * SLOT] + radius;
          if (ui <= 0 && uj <= 0) continue;
          const cij = dot(base + i * SLOT, base + j * SLOT);
          if (cij > PARALLEL) continue;
          const q = 1 - cij * cij;
          if (q < 1e-9) continue;
          const li = (ui - cij * uj) / q;
          const lj = (uj - cij * ui) / q;
          if (li > 0 && lj > 0) {
            const d2 = li * ui + lj * uj;
            if (d2 > best) {
              best = d2;
              a = i;
              b = j;
              c = -1;
              la = li;
              lb = lj;
            }
          }
          for (let k = j + 1; k < n; k++) {
            const uk = sign * stack[base + k * SLOT] + radius;
            if (uk <= 0 && (ui <= 0 || uj <= 0)) continue;
            const cik = dot(base + i * SLOT, base + k * SLOT);
            const cjk = dot(base + j * SLOT, base + k * SLOT);
            const det = 1 + 2 * cij * cik * cjk - cij * cij - cik * cik - cjk * cjk;
            if (det < 1e-7) continue;
            const ti = (ui * (1 - cjk * cjk) + uj * (cjk * cik - cij) + uk * (cij * cjk - cik)) / det;
            if (ti <= 0) continue;
            const tj = (ui * (cjk * cik - cij) + uj * (1 - cik * cik) + uk * (cij * cik - cjk)) / det;
            if (tj <= 0) continue;
            const tk = (ui * (cij * cjk - cik) + uj * (cij * cik - cjk) + uk * (1 - cij * cij)) / det;
            if (tk <= 0) continue;
            const d2 = ti * ui + tj * uj + tk * uk;
            if (d2 > best) {
              best = d2;
              a = i;
              b = j;
              c = k;
              la = ti;
              lb = tj;
              lc = tk;
            }
          }
        }
      }
    }
    const s = slot * SLOT;
    if (b < 0) {
      force[a] = 1;
      const from = base + a * SLOT;
      for (let i = 0; i < SLOT; i++) stack[s + i] = stack[from + i];
      return;
    }
    const D = Math.sqrt(best);
    force[a] = la;
    force[b] = lb;
    const A = base + a * SLOT;
    const B = base + b * SLOT;
    let gx = (la * stack[A + 1] + lb * stack[B + 1]) / D;
    let gy = (la * stack[A + 2] + lb * stack[B + 2]) / D;
    let gz = (la * stack[A + 3] + lb * stack[B + 3]) / D;
    // Direction across the blend: from one contact to the other, square to the gradient.
    let tx = stack[A + 1] - stack[B + 1];
    let ty = stack[A + 2] - stack[B + 2];
    let tz = stack[A + 3] - stack[B + 3];
    if (c >= 0) {
      force[c] = lc;
      const C = base + c * SLOT;
      gx += (lc * stack[C + 1]) / D;
      gy += (lc * stack[C + 2]) / D;
      gz += (lc * stack[C + 3]) / D;
    }
    const along = tx * gx + ty * gy + tz * gz;
    tx -= along * gx;
    ty -= along * gy;
    tz -= along * gz;
    const t = Math.sqrt(tx * tx + ty * ty + tz * tz);
    // The angle between two faces changes from place to place: dD = Σλ du/D − Σλλ dc/D, dc = H_a g_b + H_b g_a.
    turn(A, B, (la * lb) / D, sign);
    gx -= turned[0];
    gy -= turned[1];
    gz -= turned[2];
    if (c >= 0) {
      const C = base + c * SLOT;
      turn(A, C, (la * lc) / D, sign);
      gx -= turned[0];
      gy -= turned[1];
      gz -= turned[2];
      turn(B, C, (lb * lc) / D, sign);
      gx -= turned[0];
      gy -= turned[1];
      gz -= turned[2];
    }
    stack[s] = sign * (D - radius);
    stack[s + 1] = gx;
    stack[s + 2] = gy;
    stack[s + 3] = gz;
    stack[s + 4] = t > 1e-9 ? sign / D : 0;
    stack[s + 5] = t > 1e-9 ? tx / t : 0;
    stack[s + 6] = t > 1e-9 ? ty / t : 0;
    stack[s + 7] = t > 1e-9 ? tz / t : 0;
  }

  within(x: number, y: number, z: number, radius: number, pass: number): Node {
    if (this.pass === pass) return this.reduced;
    this.pass = pass;
    this.reduced = this.reduce(x, y, z, radius, pass);
    return this.reduced;
  }

  /**
   * Drops every operand that can hold no ball in the part of this ball of space where |value| ≤ reach. There
   * D ≤ reach + r, and an operand is not touched while u ≤ Σλc; with c ≥ `least` and Σλ ≤ 1.6 D that is sure
   * once its highest u is below −1.6 (reach + r)·max(0, −least).
   */
  private reduce(x: number, y: number, z: number, reach: number, pass: number): Node {
    const kept: Node[] = [];
    for (const operand of this.operands) {
      const o = operand.within(x, y, z, reach, pass);
      if (!kept.includes(o)) kept.push(o);
    }
    const r = this.radius;
    const slots = kept.map((o, i) => {
      o.evaluate(x, y, z, i);
      return Array.from(stack.subarray(i * SLOT, i * SLOT + 4));
    });
    const needed = kept.filter((o, i) => {
      const highest = this.sign * slots[i][0] + reach * 1.05;
      let least = 1;
      for (let j = 0; j < kept.length; j++)
        if (j !== i) least = Math.min(least, leastCosine(o, kept[j], slots[i], slots[j]));
      return highest + r + 1.6 * (reach + r) * Math.max(0, -least) > 0;
    });
    if (needed.length === 0) {
      // Deep in the air of every operand: only the sign matters, and the nearest operand has it.
      let top = 0;
      for (let i = 1; i < kept.length; i++) if (this.sign * slots[i][0] > this.sign * slots[top][0]) top = i;
      return kept[top];
    }
    if (needed.length === 1) return needed[0];
    if (needed.length === this.operands.length && needed.every((o, i) => o === this.operands[i])) return this;
    return new Rolled(needed, r, this.sign, this.faceCount);
  }
}

function dot(a: number, b: number): number {
  return stack[a + 1] * stack[b + 1] + stack[a + 2] * stack[b + 2] + stack[a + 3] * stack[b + 3];
}

/** Least cosine between the gradients of two nodes, from what is known of them. */
function leastCosine(a: Node, b: Node, at: readonly number[], bt: readonly number[]): number {
  if (a.flat && b.flat) return at[1] * bt[1] + at[2] * bt[2] + at[3] * bt[3];
  let least = 1;
  for (const za of [a.lowZ, a.highZ])
    for (const zb of [b.lowZ, b.highZ])
      least = Math.min(least, za * zb - Math.sqrt(Math.max(0, 1 - za * za) * Math.max(0, 1 - zb * zb)));
  // The extreme lies inside the intervals when one holds the other's opposite.
  if (a.lowZ <= -b.lowZ && -b.highZ <= a.highZ) least = -1;
  return least;
}

const turned = new Float64Array(3);
function turn(A: number, B: number, weight: number, sign: number): void {
  const ka = stack[A + 4];
  const kb = stack[B + 4];
  let x = 0;
  let y = 0;
  let z = 0;
  if (ka !== 0) {
    const w =
      sign *
      weight *
      ka *
      (stack[A + 5] * stack[B + 1] + stack[A + 6] * stack[B + 2] + stack[A + 7] * stack[B + 3]);
    x += w * stack[A + 5];
    y += w * stack[A + 6];
    z += w * stack[A + 7];
  }
  if (kb !== 0) {
    const w =
      sign *
      weight *
      kb *
      (stack[B + 5] * stack[A + 1] + stack[B + 6] * stack[A + 2] + stack[B + 7] * stack[A + 3]);
    x += w * stack[B + 5];
    y += w * stack[B + 6];
    z += w * stack[B + 7];
  }
  turned[0] = x;
  turned[1] = y;
  turned[2] = z;
}
