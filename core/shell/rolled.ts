import { MOST_OPERANDS } from "./active-set.ts";
import type { Ball } from "./ball.ts";
import * as state from "./ball.ts";
import * as node from "./node.ts";
import { type Nearby, type Node, Plane } from "./node.ts";
import { makeWorkbench, partsThatMatter, type Workbench } from "./parts-that-matter.ts";
import * as linear from "./press.ts";
import { RoundedEdge } from "./rounded-edge.ts";
import * as sequential from "./settle.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { MOST_FACES, SLOT, shareStack, stack, watched } = node;
const { centre, excess, force, onlyHolder, release, towardsCentre, writeBlend } = state;
const { blocked, press } = linear;
const { settle } = sequential;

/** What is promised of a centre that was not found, in radii: a little more than one, where the sign changes. */
const TOKEN = 1.05;
/** An operand that lies this many times farther off than the ball is pressed into another is not touched: values change as the way, or little more. */
const CLEAR = 1.05;
/** A ball pressed into its operands that had to move this many times as far to be free of them may have gone a long way round. */
const ROUNDABOUT = 1.35;
/** What lies this deep in the ground, mm, is passed over in the search for the surface, so that no value may be too large there. */
const FAR = 150;

/**
 * Rolling-ball blend of any number of operands with one radius: `sign` +1 rounds their re-entrant edges (the air is
 * the intersection of the operands' air), −1 rounds their outward edges (the air is the union).
 *
 * The blend is an opening: the value at p is ±(D − r), D the distance from p to the set where a ball of radius r has its
 * centre, {q: ±v_i(q) + r ≤ 0}. The nearest such centre q satisfies p − q = Σ λ_i g_i(q) with λ ≥ 0 (the ball is pressed
 * on at most three operands), and (p − q)/D is the exact normal. Found by sequential quadratic programming (Nocedal and
 * Wright, Numerical Optimization, 2nd ed., chapter 18) from the linear problem at p, which is exact between planes.
 * Taking the faces' values and normals at p alone instead would be cheaper and kinks the surface by up to 20° where a
 * curved wall goes over into a straight one above a sloping floor.
 *
 * Operands that are blends themselves must have radii no smaller than this one's: then their rounded edges are left
 * as they are, since a ball of radius r rolls inside a fillet of radius R ≥ r without touching anything else.
 */
export class Rolled implements Ball, Node {
  readonly flat = false;
  /** All operands are planes, between which the linear problem is the whole one. */
  private readonly plane: boolean;
  readonly lowZ: number;
  readonly highZ: number;
  readonly operands: readonly Node[];
  readonly radius: number;
  readonly sign: 1 | -1;
  readonly faceCount: number;
  readonly meeting: number;
  private bench: Workbench<Rolled> | null = null;

  readonly limit: number;
  /** The blend in closed form, where it is one of two planes. */
  private readonly edge: RoundedEdge | null;

  constructor(
    operands: readonly Node[],
    radius: number,
    sign: 1 | -1,
    faceCount: number,
    limit = 2.5 * radius + 40,
  ) {
    if (operands.length > MOST_OPERANDS) {
      throw new RangeError(`A blend of ${operands.length} faces; at most ${MOST_OPERANDS} can meet.`);
    }
    this.operands = operands;
    this.radius = radius;
    this.sign = sign;
    this.faceCount = faceCount;
    this.limit = limit;
    let meeting = 0;
    let plane = true;
    let low = 1;
    let high = -1;
    for (const o of operands) {
      meeting += o.meeting ?? 1;
      plane &&= o.flat;
      low = Math.min(low, o.lowZ);
      high = Math.max(high, o.highZ);
    }
    this.meeting = meeting;
    this.plane = plane;
    // The blend's normal is a positive sum of its operands', so it leans no less up (or down) than the least of them.
    this.lowZ = low >= 0 ? low : -1;
    this.highZ = high <= 0 ? high : 1;
    const [a, b] = operands;
    this.edge =
      operands.length === 2 && a instanceof Plane && b instanceof Plane
        ? new RoundedEdge(a, b, radius, sign, limit)
        : null;
  }

  evaluate(x: number, y: number, z: number, slot: number): void {
    if (this.edge !== null) {
      this.edge.evaluate(x, y, z, slot);
      return;
    }
    const n = this.operands.length;
    for (let i = 0; i < n; i++) this.operands[i].evaluate(x, y, z, slot + 1 + i);
    if (watched.pass !== 0 && x === watched.x && y === watched.y && z === watched.z) this.watch(slot);
    this.roll(x, y, z, slot);
  }

  /** Keeps the operands' values and normals at the watched point. */
  private watch(slot: number): void {
    this.bench ??= makeWorkbench(this.operands);
    const { seen } = this.bench;
    this.bench.seenIn = watched.pass;
    for (let i = 0; i < this.operands.length; i++) {
      const at = (slot + 1 + i) * SLOT;
      for (let k = 0; k < 4; k++) seen[4 * i + k] = stack[at + k];
    }
  }

  shares(x: number, y: number, z: number, slot: number): void {
    if (this.edge !== null) {
      this.edge.shares(x, y, z, slot);
      return;
    }
    const n = this.operands.length;
    for (let i = 0; i < n; i++) {
      const o = this.operands[i];
      // A single face has all of its own share.
      if (o.face === undefined) o.shares(x, y, z, slot + 1 + i);
      else o.evaluate(x, y, z, slot + 1 + i);
    }
    this.roll(x, y, z, slot);
    const forces = slot * MOST_OPERANDS;
    let total = 0;
    for (let i = 0; i < n; i++) total += force[forces + i];
    const row = slot * MOST_FACES;
    // A loop is quicker than `fill` for so few.
    for (let f = row; f < row + this.faceCount; f++) shareStack[f] = 0;
    for (let i = 0; i < n; i++) {
      if (force[forces + i] === 0) continue;
      const part = force[forces + i] / total;
      const { face } = this.operands[i];
      const from = (slot + 1 + i) * MOST_FACES;
      if (face !== undefined) shareStack[row + face] += part;
      else for (let f = 0; f < this.faceCount; f++) shareStack[row + f] += part * shareStack[from + f];
    }
  }

  /** Blends the operands' slots above `slot` into it, and leaves the forces of the ball on each. */
  private roll(x: number, y: number, z: number, slot: number): void {
    const { sign, radius } = this;
    const n = this.operands.length;
    const base = (slot + 1) * SLOT;
    const row = slot * MOST_OPERANDS;
    let top = 0;
    let most = -Infinity;
    let next = -Infinity;
    for (let i = 0; i < n; i++) {
      const u = sign * stack[base + i * SLOT] + radius;
      excess[row + i] = u;
      force[row + i] = 0;
      if (u > most) {
        next = most;
        most = u;
        top = i;
      } else if (u > next) next = u;
    }
    // Nothing presses, all others are clear of the ball however their normals lie, or its centre is too far off for one alone.
    if (most <= 0 || next <= -CLEAR * most || (most > this.limit && !this.plane)) {
      this.alone(slot, top);
      return;
    }
    const held = press(this, slot, top);
    if (held === 1 && (this.plane || !blocked(this, x, y, z, slot, top))) {
      this.alone(slot, top);
      return;
    }
    towardsCentre(this, slot);
    const reach2 = centre[0] ** 2 + centre[1] ** 2 + centre[2] ** 2;
    // The linear problem sees the centre too far off between curved faces: only well beyond the limit is it sure to be so.
    const exact = !this.plane && reach2 <= 4 * this.limit ** 2;
    if (!exact && held === 1) {
      this.alone(slot, top);
      return;
    }
    const settled = exact && settle(this, x, y, z, slot);
    if (exact && !settled) {
      // Where the ball finds no room: the linear answer, whose sign is right.
      for (let i = 0; i < n; i++) {
        this.operands[i].evaluate(x, y, z, slot + 1 + i);
        excess[row + i] = sign * stack[base + i * SLOT] + radius;
      }
      // In the ground of a face the surface is at least as far as that face: no more is promised there.
      if (most > radius || press(this, slot, top) === 1) {
        this.alone(slot, top);
        return;
      }
      towardsCentre(this, slot);
    } else if (exact) {
      if (sign > 0 && most > radius) this.overTheTop(x, y, z, slot, most);
      const only = onlyHolder(this, slot);
      if (only >= 0) {
        // Its own value, to the last digit.
        this.operands[only].evaluate(x, y, z, slot + 1 + only);
        this.alone(slot, only);
        return;
      }
    }
    const D = Math.sqrt(centre[0] ** 2 + centre[1] ** 2 + centre[2] ** 2);
    // Never promise more room than there is. Between faces that look at each other the centre can be anywhere: far from the
    // surface the value is kept to what the operands say; where the centre was not found, to that or a token of the right sign.
    let promised = D;
    if (!this.plane && !settled) promised = Math.min(D, Math.max(most, TOKEN * radius));
    else if (sign > 0) promised = Math.min(D, Math.max(most, this.limit));
    writeBlend(this, slot, promised);
  }

  /**
   * Deep in the ground between a riser and a wall the way out of the valley may be long, and another one, up over the tread, shorter:
   * the programme finds the one that it starts towards. Where the ball has come so far it is tried from straight above too.
   */
  private overTheTop(x: number, y: number, z: number, slot: number, most: number): void {
    const dx = centre[0];
    const dy = centre[1];
    const dz = centre[2];
    const far2 = dx * dx + dy * dy + dz * dz;
    if (far2 < Math.max(ROUNDABOUT * most, this.radius + FAR) ** 2) return;
    const row = slot * MOST_OPERANDS;
    const n = this.operands.length;
    const base = (slot + 1) * SLOT;
    const held = force.slice(row, row + n);
    const seen = stack.slice(base, base + n * SLOT);
    release(this, slot);
    centre[0] = 0;
    centre[1] = 0;
    centre[2] = most;
    if (settle(this, x, y, z, slot) && centre[0] ** 2 + centre[1] ** 2 + centre[2] ** 2 < far2) return;
    stack.set(seen, base);
    force.set(held, row);
    centre[0] = dx;
    centre[1] = dy;
    centre[2] = dz;
  }

  /** One operand alone holds the ball: its value stands. */
  private alone(slot: number, top: number): void {
    release(this, slot);
    force[slot * MOST_OPERANDS + top] = 1;
    const from = (slot + 1 + top) * SLOT;
    const s = slot * SLOT;
    for (let i = 0; i < SLOT; i++) stack[s + i] = stack[from + i];
  }

  within(near: Nearby): Node {
    this.bench ??= makeWorkbench(this.operands);
    const { reductions } = this.bench;
    return reductions.known(near) ?? reductions.keep(near, this.reduce(near, this.bench));
  }

  private reduce(near: Nearby, bench: Workbench<Rolled>): Node {
    const { operands } = this;
    const { candidates, parts, seen } = bench;
    if (bench.seenIn !== near.pass) {
      for (let i = 0; i < operands.length; i++) operands[i].evaluate(near.x, near.y, near.z, 1 + i);
      this.watch(0);
    }
    for (let i = 0; i < operands.length; i++) {
      const c = candidates[i];
      c.node = c.operand;
      c.highest = this.sign * seen[4 * i] + near.ball * 1.05 + this.radius;
      c.nx = seen[4 * i + 1];
      c.ny = seen[4 * i + 2];
      c.nz = seen[4 * i + 3];
    }
    const count = partsThatMatter(bench, this.radius, near);
    return count === 1
      ? parts[0]
      : this.ofParts(bench, count, Math.min(this.limit, this.radius + 2 * near.band));
  }

  /** The blend of the first so many parts alone, made once: neighbouring bricks of space mostly need the same one. */
  private ofParts({ made, parts }: Workbench<Rolled>, count: number, limit: number): Node {
    for (const m of made) if (m.limit === limit && sameNodes(m.operands, parts, count)) return m;
    const node = new Rolled(parts.slice(0, count), this.radius, this.sign, this.faceCount, limit);
    if (made.length >= MOST_KEPT) made.shift();
    made.push(node);
    return node;
  }
}

/** Blends of parts that one blend remembers. */
const MOST_KEPT = 48;

/** Whether a list holds the first so many of another. */
function sameNodes(a: readonly Node[], b: readonly Node[], count: number): boolean {
  if (a.length !== count) return false;
  for (let i = 0; i < count; i++) if (a[i] !== b[i]) return false;
  return true;
}
