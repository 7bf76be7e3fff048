import { activeSet, MOST_OPERANDS } from "./active-set.ts";
import { nearestAlongBoth } from "./along-both.ts";
import * as node from "./node.ts";
import { type Nearby, type Node, Plane, Reductions } from "./node.ts";
import { type Candidate, makeCandidate, partsThatMatter } from "./parts-that-matter.ts";
import { RoundedEdge } from "./rounded-edge.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { MOST_FACES, SLOT, shareStack, stack, watched } = node;

/** Steps of the sequential programme; two or three are the rule, more only near the limit of what fits. */
const MOST_STEPS = 24;
/** What is promised of a centre that was not found, in radii: a little more than one, where the sign changes. */
const TOKEN = 1.05;
/**
 * Excess of each operand and force of the ball on it: a row for each slot of the stack, since operands that are blends use
 * theirs in between. And the Gram matrix of one programme.
 */
const excess = new Float64Array((stack.length / SLOT) * MOST_OPERANDS);
const force = new Float64Array(excess.length);
const gram = new Float64Array(MOST_OPERANDS * MOST_OPERANDS);
const model = new Float64Array(9);
const inverse = new Float64Array(9);
/** Way from the point to the ball's centre, left by `recentre`. */
const centre = new Float64Array(3);
/** An operand that lies this many times farther off than the ball is pressed into another is not touched: values change as the way, or little more. */
const CLEAR = 1.05;
/** A ball this little into an operand touches it, in radii. */
const TOUCHES = 1e-9;
/** A step that ends this near to where the one before began, in its own length, goes to and fro. */
const RETURNED = 0.2;
/** Steps of `settleSlowly`. */
const MOST_SHORT_STEPS = 100;
/** By how much the centre that `recentre` was asked about lies too near to an operand, mm; negative when it is free. */
let violation = 0;

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
export class Rolled implements Node {
  readonly flat = false;
  /** All operands are planes, between which the linear problem is the whole one. */
  private readonly plane: boolean;
  readonly lowZ: number;
  readonly highZ: number;
  readonly operands: readonly Node[];
  readonly radius: number;
  readonly sign: 1 | -1;
  readonly faceCount: number;
  private readonly reductions = new Reductions();
  private readonly made: Rolled[] = [];
  /** Value and normal of each operand at the watched point, and the pass in which they were seen. */
  private readonly seen: number[] = [];
  private seenIn = 0;
  private candidates: Candidate[] | null = null;
  /** The parts that mattered in the last reduction. */
  private readonly parts: Node[] = [];

  /** Largest distance to the ball's centre for which it is found exactly; farther from the surface the sign is enough. */
  private readonly limit: number;
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
    this.plane = operands.every((o) => o.flat);
    const [a, b] = operands;
    this.edge =
      operands.length === 2 && a instanceof Plane && b instanceof Plane
        ? new RoundedEdge(a, b, radius, sign, limit)
        : null;
    // The blend's normal is a positive sum of its operands', so it leans no less up (or down) than the least of them.
    const low = Math.min(...operands.map((o) => o.lowZ));
    const high = Math.max(...operands.map((o) => o.highZ));
    this.lowZ = low >= 0 ? low : -1;
    this.highZ = high <= 0 ? high : 1;
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
    const { seen } = this;
    this.seenIn = watched.pass;
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
    const held = this.press(slot, top);
    if (held === 1 && (this.plane || !this.blocked(x, y, z, slot, top))) {
      this.alone(slot, top);
      return;
    }
    this.towardsCentre(slot);
    const reach2 = centre[0] ** 2 + centre[1] ** 2 + centre[2] ** 2;
    // The linear problem sees the centre too far off between curved faces: only well beyond the limit is it sure to be so.
    const exact = !this.plane && reach2 <= 4 * this.limit ** 2;
    if (!exact && held === 1) {
      this.alone(slot, top);
      return;
    }
    const settled = exact && this.settle(x, y, z, slot);
    if (exact && !settled) {
      // Where the ball finds no room: the linear answer, whose sign is right.
      for (let i = 0; i < n; i++) {
        this.operands[i].evaluate(x, y, z, slot + 1 + i);
        excess[row + i] = sign * stack[base + i * SLOT] + radius;
      }
      // In the ground of a face the surface is at least as far as that face: no more is promised there.
      if (most > radius || this.press(slot, top) === 1) {
        this.alone(slot, top);
        return;
      }
      this.towardsCentre(slot);
    } else if (exact) {
      const only = this.onlyHolder(slot);
      if (only >= 0) {
        // Its own value, to the last digit.
        this.operands[only].evaluate(x, y, z, slot + 1 + only);
        this.alone(slot, only);
        return;
      }
    }
    const s = slot * SLOT;
    const dx = centre[0];
    const dy = centre[1];
    const dz = centre[2];
    const D = Math.sqrt(dx * dx + dy * dy + dz * dz);
    // Never promise more room than there is. Between faces that look at each other the centre can be anywhere: far from the
    // surface the value is kept to what the operands say; where the centre was not found, to that or a token of the right sign.
    let promised = D;
    if (!this.plane && !settled) promised = Math.min(D, Math.max(most, TOKEN * radius));
    else if (sign > 0) promised = Math.min(D, Math.max(most, this.limit));
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
    stack[s] = sign * (promised - radius);
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

  /** Way from the point to the ball's centre, q − p = −Σ λ g, to `centre`. */
  private towardsCentre(slot: number): void {
    const base = (slot + 1) * SLOT;
    const row = slot * MOST_OPERANDS;
    centre.fill(0);
    for (let i = 0; i < this.operands.length; i++) {
      if (force[row + i] === 0) continue;
      const g = base + i * SLOT;
      const l = this.sign * force[row + i];
      for (let r = 0; r < 3; r++) centre[r] -= l * stack[g + 1 + r];
    }
  }

  /** Repeats the quadratic programme until the centre stands still; false when it does not. */
  private settle(x: number, y: number, z: number, slot: number): boolean {
    // One by one, here and below: taking a typed array apart makes an iterator each time.
    const sx = centre[0];
    const sy = centre[1];
    const sz = centre[2];
    let dx = sx;
    let dy = sy;
    let dz = sz;
    const reach = 1.2 * this.limit;
    let pace = 1;
    let before = Infinity;
    /** Where the centre was a step ago, and how often it came back to where it was two steps ago. */
    let lx = sx;
    let ly = sy;
    let lz = sz;
    let returned = 0;
    for (let step = 0; step < MOST_STEPS; step++) {
      const moved = this.recentre(x, y, z, dx, dy, dz, slot);
      if (moved < 0) break;
      const cx = centre[0];
      const cy = centre[1];
      const cz = centre[2];
      const back = Math.abs(cx - lx) + Math.abs(cy - ly) + Math.abs(cz - lz);
      if (
        step > 0 &&
        back < RETURNED * moved &&
        ++returned === 2 &&
        this.settleAlong(x, y, z, dx, dy, dz, slot)
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
      if (moved < 1e-7 * this.radius) {
        centre[0] = dx;
        centre[1] = dy;
        centre[2] = dz;
        return true;
      }
    }
    return this.settleAlong(x, y, z, dx, dy, dz, slot) || this.settleSlowly(x, y, z, sx, sy, sz, slot);
  }

  /** As `settle`, where two operands hold the ball and the steps go to and fro. */
  private settleAlong(
    x: number,
    y: number,
    z: number,
    dx: number,
    dy: number,
    dz: number,
    slot: number,
  ): boolean {
    const { sign, radius, operands } = this;
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
    this.release(slot);
    force[row + first] = (u - c * v) / (1 - c * c);
    force[row + second] = (v - c * u) / (1 - c * c);
    centre.set(found);
    return true;
  }

  /**
   * As `settle`, by short steps that each bring the centre nearer or freer: for balls that several rounded edges hold
   * almost in balance, as over two noses out of a valley, where full steps run wild.
   */
  private settleSlowly(
    x: number,
    y: number,
    z: number,
    dx: number,
    dy: number,
    dz: number,
    slot: number,
  ): boolean {
    const { radius } = this;
    this.release(slot);
    let moved = this.recentre(x, y, z, dx, dy, dz, slot);
    let reach = radius / 4;
    const merits = [Infinity, Infinity, Infinity, this.merit(dx, dy, dz)];
    for (let step = 0; step < MOST_SHORT_STEPS && moved >= 0; step++) {
      // Where the ball is all but free to slide, the way to its resting place is long and worth nothing.
      const still = violation < 1e-7 * radius && Math.max(...merits) - merits[(step + 3) % 4] < 1e-8 * radius;
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
        const next = this.recentre(x, y, z, nx, ny, nz, slot);
        if (next < 0) return false;
        const merit = this.merit(nx, ny, nz);
        // Now and then a step may make it worse: along a curved edge full steps do before they converge.
        if (merit < Math.max(...merits) || next < 1e-7 * radius) {
          merits[step % 4] = merit;
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
  private merit(dx: number, dy: number, dz: number): number {
    return Math.sqrt(dx * dx + dy * dy + dz * dz) + 6 * Math.max(0, violation);
  }

  /** The operand that holds the ball by itself, or −1 when several do. */
  private onlyHolder(slot: number): number {
    const row = slot * MOST_OPERANDS;
    let only = -1;
    for (let i = 0; i < this.operands.length; i++) {
      if (force[row + i] === 0) continue;
      if (only >= 0) return -1;
      only = i;
    }
    return only;
  }

  private release(slot: number): void {
    const row = slot * MOST_OPERANDS;
    for (let i = 0; i < this.operands.length; i++) force[row + i] = 0;
  }

  /** One operand alone holds the ball: its value stands. */
  private alone(slot: number, top: number): void {
    this.release(slot);
    force[slot * MOST_OPERANDS + top] = 1;
    const from = (slot + 1 + top) * SLOT;
    const s = slot * SLOT;
    for (let i = 0; i < SLOT; i++) stack[s + i] = stack[from + i];
  }

  /**
   * One operand holds the ball by the linear problem at p. That stands if the ball's centre is free of all others: plain
   * between planes; a face that curves, or a blend, may bend into the way and is asked there if it is near enough.
   */
  private blocked(x: number, y: number, z: number, slot: number, top: number): boolean {
    const base = (slot + 1) * SLOT;
    const row = slot * MOST_OPERANDS;
    const { sign, radius, operands } = this;
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

  /** The linear problem at p: forces from excesses and the normals' Gram matrix. Returns how many operands hold. */
  private press(slot: number, top: number): number {
    const base = (slot + 1) * SLOT;
    const row = slot * MOST_OPERANDS;
    const n = this.operands.length;
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
   * One step of the sequential programme from the centre p + d: the operands' values, normals and curvatures there give
   * a quadratic model of the distance, M = I + Σ λ k t tᵀ, and linear constraints. Leaves the new d in `centre`;
   * returns how far it moved, or −1 when the step is no good.
   */
  private recentre(
    x: number,
    y: number,
    z: number,
    dx: number,
    dy: number,
    dz: number,
    slot: number,
  ): number {
    const { sign, radius, operands } = this;
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
    violation = over;
    if (this.stands(dx, dy, dz, slot)) {
      centre[0] = dx;
      centre[1] = dy;
      centre[2] = dz;
      return 0;
    }
    // Where rounded edges bulge towards the ball the model may have a least point only along those that press, which
    // stiffening it across them does not move; or none at all: then without those edges.
    this.curvatures(slot, -Infinity);
    if (!invert(model, inverse)) {
      this.stiffen(slot);
      if (!invert(model, inverse)) {
        this.curvatures(slot, 0);
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
      excess[row + i] =
        sign * (stack[g] + stack[g + 1] * cx + stack[g + 2] * cy + stack[g + 3] * cz) + radius;
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
    else this.release(slot);
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
  private stands(dx: number, dy: number, dz: number, slot: number): boolean {
    const { sign, radius } = this;
    const base = (slot + 1) * SLOT;
    const row = slot * MOST_OPERANDS;
    const slack = 1e-9 * radius;
    let rx = dx;
    let ry = dy;
    let rz = dz;
    for (let i = 0; i < this.operands.length; i++) {
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
  private stiffen(slot: number): void {
    const base = (slot + 1) * SLOT;
    const row = slot * MOST_OPERANDS;
    for (let i = 0; i < this.operands.length; i++) {
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
  private curvatures(slot: number, least: number): void {
    const base = (slot + 1) * SLOT;
    const row = slot * MOST_OPERANDS;
    model.fill(0);
    model[0] = 1;
    model[4] = 1;
    model[8] = 1;
    for (let i = 0; i < this.operands.length; i++) {
      const g = base + i * SLOT;
      const w = this.sign * force[row + i] * stack[g + 4];
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

  within(near: Nearby): Node {
    return this.reductions.known(near) ?? this.reductions.keep(near, this.reduce(near));
  }

  private reduce(near: Nearby): Node {
    const { operands, seen } = this;
    if (this.seenIn !== near.pass) {
      for (let i = 0; i < operands.length; i++) operands[i].evaluate(near.x, near.y, near.z, 1 + i);
      this.watch(0);
    }
    this.candidates ??= operands.map(makeCandidate);
    for (let i = 0; i < operands.length; i++) {
      const c = this.candidates[i];
      c.node = c.operand;
      c.highest = this.sign * seen[4 * i] + near.ball * 1.05 + this.radius;
      c.nx = seen[4 * i + 1];
      c.ny = seen[4 * i + 2];
      c.nz = seen[4 * i + 3];
    }
    const { parts } = this;
    partsThatMatter(this.candidates, this.radius, near, parts);
    return parts.length === 1
      ? parts[0]
      : this.ofParts(parts, Math.min(this.limit, this.radius + 2 * near.band));
  }

  /** The blend of some parts alone, made once: neighbouring bricks of space mostly need the same one. */
  private ofParts(parts: readonly Node[], limit: number): Node {
    for (const m of this.made) if (m.limit === limit && sameNodes(m.operands, parts)) return m;
    const node = new Rolled([...parts], this.radius, this.sign, this.faceCount, limit);
    if (this.made.length >= MOST_KEPT) this.made.shift();
    this.made.push(node);
    return node;
  }
}

/** Blends of parts that one blend remembers. */
const MOST_KEPT = 48;

function sameNodes(a: readonly Node[], b: readonly Node[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
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
