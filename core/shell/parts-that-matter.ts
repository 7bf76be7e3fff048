import { type Nearby, type Node, Reductions } from "./node.ts";

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
  /** Still among those that may matter; and found to matter by the latest look at them. */
  listed: boolean;
  matters: boolean;
}

/**
 * What a blend needs to be reduced, kept from one reduction to the next, of which a shell's space asks for thousands. Made when it
 * is first asked for: most blends come of a reduction and are never reduced further.
 */
export interface Workbench<Blend> {
  readonly candidates: readonly Candidate[];
  /** Value and normal of each operand at the watched point, and the pass in which they were seen. */
  readonly seen: number[];
  seenIn: number;
  /** At its head the parts that mattered in the last reduction. */
  readonly parts: Node[];
  /** The ball in which those parts are asked for. */
  readonly wide: { -readonly [K in keyof Nearby]: Nearby[K] };
  readonly reductions: Reductions;
  /** The blends of some of its operands that it has come to. */
  readonly made: Blend[];
}

export function makeWorkbench<Blend>(operands: readonly Node[]): Workbench<Blend> {
  return {
    candidates: operands.map(makeCandidate),
    seen: [],
    seenIn: 0,
    parts: [],
    wide: { x: 0, y: 0, z: 0, ball: 0, band: 0, pass: 0 },
    reductions: new Reductions(),
    made: [],
  };
}

function makeCandidate(operand: Node): Candidate {
  return { operand, node: operand, highest: 0, nx: 0, ny: 0, nz: 0, listed: true, matters: false };
}

/**
 * Leaves at the head of the bench's `parts` the operands of a blend of `radius`, themselves reduced, that can make its value in a
 * ball of space wherever |value| ≤ band, and returns how many; one alone where no ball is held there. Takes the candidates as they
 * are and marks them.
 *
 * Where |value| ≤ band the ball's centre is D ≤ band + r away. An operand is not touched while u ≤ Σ λ c; with c ≥ `least`
 * and Σ λ ≤ 1.6 D, and since no value changes faster than the way, that is sure once its highest u is below
 * −(band + r)·min(1.05, 1.6·max(0, −least)). Where no ball is pressed the nearest operand gives the value: it matters
 * up to |v| = band, u = r − band.
 */
export function partsThatMatter(bench: Workbench<Node>, radius: number, near: Nearby): number {
  const { candidates: all, parts, wide } = bench;
  const weight = near.band + radius;
  const quiet = Math.min(0, radius - near.band);
  for (const c of all) c.listed = true;
  // First by what is known of the operands as they are, which spares reducing those far away; then, unless two are
  // sure to matter, again as reduced.
  let needed = look(all, weight, quiet);
  if (!twoSure(all)) {
    for (const c of all) c.listed = c.matters;
    reduce(all, near);
    needed = look(all, weight, quiet);
  }
  if (needed < 2) {
    // Deep in the air of every operand only the sign matters, and the nearest operand has it.
    const top = highest(all);
    parts[0] = top.node === top.operand ? top.operand.within(near) : top.node;
    return 1;
  }
  // Where balls are held, the operands are also asked at the balls' centres, where their values are about −r.
  wide.x = near.x;
  wide.y = near.y;
  wide.z = near.z;
  wide.ball = near.ball + radius + near.band;
  wide.band = Math.max(near.band, 1.1 * radius + 10);
  wide.pass = near.pass;
  let count = 0;
  for (const c of all) {
    if (!c.matters) continue;
    const node = c.operand.within(wide);
    if (!isAmong(parts, count, node)) parts[count++] = node;
  }
  return count;
}

function isAmong(parts: readonly Node[], count: number, node: Node): boolean {
  for (let i = 0; i < count; i++) if (parts[i] === node) return true;
  return false;
}

/** Marks those listed that can hold a ball or be the nearest, and counts them. */
function look(all: readonly Candidate[], weight: number, quiet: number): number {
  let count = 0;
  for (const a of all) {
    a.matters = a.listed && (a.highest > quiet || (a.highest > -1.05 * weight && holds(a, all, weight)));
    if (a.matters) count++;
  }
  return count;
}

/** Whether one not sure to be clear may hold a ball together with another. */
function holds(a: Candidate, all: readonly Candidate[], weight: number): boolean {
  let least = 1;
  for (const b of all) if (b !== a && b.listed) least = Math.min(least, leastCosine(a, b));
  return a.highest + weight * Math.min(1.05, 1.6 * Math.max(0, -least)) > 0;
}

function twoSure(all: readonly Candidate[]): boolean {
  let sure = 0;
  for (const c of all) if (c.matters && c.highest > 0) sure++;
  return sure > 1;
}

/** The highest of those that matter, or of those listed where none does, or of all. */
function highest(all: readonly Candidate[]): Candidate {
  let top = all[0];
  for (const c of all) {
    const ahead = rank(c) - rank(top);
    if (ahead > 0 || (ahead === 0 && c.highest > top.highest)) top = c;
  }
  return top;
}

function rank({ listed, matters }: Candidate): number {
  return matters ? 2 : listed ? 1 : 0;
}

/** Reduces those listed; of those that come to the same node only the first stays on the list. */
function reduce(all: readonly Candidate[], near: Nearby): void {
  for (let i = 0; i < all.length; i++) {
    const c = all[i];
    if (!c.listed) continue;
    c.node = c.operand.within(near);
    for (let j = 0; j < i; j++) if (all[j].listed && all[j].node === c.node) c.listed = false;
  }
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
