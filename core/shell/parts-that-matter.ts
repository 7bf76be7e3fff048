import type { Nearby, Node } from "./node.ts";

/** An operand of a blend that is being reduced to a ball of space. */
export interface Candidate {
  readonly operand: Node;
  /** The operand, or what it comes to in the ball. */
  node: Node;
  /** Highest excess u = ±v + r in the ball, mm. */
  highest: number;
  /** Normal at the ball's centre. */
  nx: number;
  ny: number;
  nz: number;
}

/**
 * The operands of a blend of `radius`, themselves reduced, that can make its value in a ball of space wherever
 * |value| ≤ band; one alone where no ball is held there.
 *
 * Where |value| ≤ band the ball's centre is D ≤ band + r away. An operand is not touched while u ≤ Σ λ c; with c ≥ `least`
 * and Σ λ ≤ 1.6 D, and since no value changes faster than the way, that is sure once its highest u is below
 * −(band + r)·min(1.05, 1.6·max(0, −least)). Where no ball is pressed the nearest operand gives the value: it matters
 * up to |v| = band, u = r − band.
 */
export function partsThatMatter(all: readonly Candidate[], radius: number, near: Nearby): readonly Node[] {
  const weight = near.band + radius;
  const quiet = Math.min(0, radius - near.band);
  // First by what is known of the operands as they are, which spares reducing those far away; then, unless two are
  // sure to matter, again as reduced.
  const first = mattering(all, weight, quiet);
  const sure = twoSure(first);
  const kept = sure ? first : reduced(first, near);
  const needed = sure ? first : mattering(kept, weight, quiet);
  if (needed.length < 2) {
    // Deep in the air of every operand only the sign matters, and the nearest operand has it.
    const top = highest(needed.length > 0 ? needed : kept.length > 0 ? kept : all);
    return [top.node === top.operand ? top.operand.within(near) : top.node];
  }
  // Where balls are held, the operands are also asked at the balls' centres, where their values are about −r.
  const wide: Nearby = {
    x: near.x,
    y: near.y,
    z: near.z,
    ball: near.ball + radius + near.band,
    band: Math.max(near.band, 1.1 * radius + 10),
    pass: near.pass,
  };
  const parts: Node[] = [];
  for (const c of needed) {
    const node = c.operand.within(wide);
    if (!parts.includes(node)) parts.push(node);
  }
  return parts;
}

/** Those of a list of candidates that can hold a ball or be the nearest. */
function mattering(list: readonly Candidate[], weight: number, quiet: number): readonly Candidate[] {
  const out: Candidate[] = [];
  for (const a of list) {
    if (a.highest > quiet) {
      out.push(a);
      continue;
    }
    if (a.highest <= -1.05 * weight) continue;
    let least = 1;
    for (const b of list) if (b !== a) least = Math.min(least, leastCosine(a, b));
    if (a.highest + weight * Math.min(1.05, 1.6 * Math.max(0, -least)) > 0) out.push(a);
  }
  return out;
}

function twoSure(list: readonly Candidate[]): boolean {
  let sure = 0;
  for (const c of list) if (c.highest > 0) sure++;
  return sure > 1;
}

function highest(list: readonly Candidate[]): Candidate {
  let top = list[0];
  for (const c of list) if (c.highest > top.highest) top = c;
  return top;
}

/** The candidates reduced; of those that come to the same node only the first is kept. */
function reduced(list: readonly Candidate[], near: Nearby): readonly Candidate[] {
  const out: Candidate[] = [];
  for (const c of list) {
    c.node = c.operand.within(near);
    let twin = false;
    for (const o of out) if (o.node === c.node) twin = true;
    if (!twin) out.push(c);
  }
  return out;
}

/** Least cosine between the gradients of two operands, from what is known of them. */
function leastCosine(a: Candidate, b: Candidate): number {
  if (a.node.flat && b.node.flat) return a.nx * b.nx + a.ny * b.ny + a.nz * b.nz;
  const [al, ah, bl, bh] = [a.node.lowZ, a.node.highZ, b.node.lowZ, b.node.highZ];
  // The extreme lies inside the intervals when one holds the other's opposite.
  if (al <= -bl && -bh <= ah) return -1;
  return Math.min(opposed(al, bl), opposed(al, bh), opposed(ah, bl), opposed(ah, bh));
}

/** Cosine of two unit vectors with these z components that point away from each other in plan. */
function opposed(za: number, zb: number): number {
  return za * zb - Math.sqrt(Math.max(0, 1 - za * za) * Math.max(0, 1 - zb * zb));
}
