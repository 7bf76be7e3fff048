import * as node from "./node.ts";
import { clearShares, type Nearby, type Node, Plane, Remembered } from "./node.ts";
import type { PlanDistance } from "./plan-distance.ts";
import * as planDistance from "./plan-distance.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { SLOT, stack } = node;
const { found } = planDistance;

/**
 * A drafted face over a plan shape: the wall (`sense` +1: air inside the outline, which closes in with depth) or a riser
 * (`sense` −1: ground inside the footprint, which spreads with depth).
 *   wall:  f =  cos δ·d − sin δ·(z − datum)
 *   riser: f = −cos δ·d − sin δ·(z − datum)
 * `datum` is the height at which the plan shape is exact: the rim, or the tread.
 */
export class Drafted implements Node {
  readonly flat = false;
  /** Reduced faces made so far, by the part of the plan that they stand on. */
  private readonly parts = new Map<PlanDistance, Node>();
  readonly lowZ: number;
  readonly highZ: number;
  private readonly cos: number;
  private readonly sin: number;

  private readonly plan: PlanDistance;
  private readonly draft: number;
  private readonly sense: 1 | -1;
  private readonly datum: number;
  readonly face: number;
  private readonly faceCount: number;
  /** Growing corners lean more than the draft: by at most this sine. */
  private readonly extraLean: number;

  constructor(
    plan: PlanDistance,
    draft: number,
    sense: 1 | -1,
    datum: number,
    face: number,
    faceCount: number,
    extraLean = 0,
  ) {
    this.plan = plan;
    this.draft = draft;
    this.sense = sense;
    this.datum = datum;
    this.face = face;
    this.faceCount = faceCount;
    this.extraLean = extraLean;
    this.cos = Math.cos(draft);
    this.sin = Math.sin(draft);
    this.lowZ = Math.max(-1, -this.sin - extraLean);
    this.highZ = Math.min(1, -this.sin + extraLean);
  }

  /** The face over a plan shape; a plane where that is one straight line, as the risers of steps across the whole width are. */
  static of(...figures: ConstructorParameters<typeof Drafted>): Node {
    const whole = new Drafted(...figures);
    return whole.plan.onlyLine() ? whole.over(whole.plan) : new Remembered(whole);
  }

  evaluate(x: number, y: number, z: number, slot: number): void {
    const { cos, sin, sense } = this;
    const d = this.plan.at(x, y, -z);
    const s = slot * SLOT;
    stack[s] = sense * cos * d - sin * (z - this.datum);
    stack[s + 1] = sense * cos * found.gx;
    stack[s + 2] = sense * cos * found.gy;
    stack[s + 3] = -sense * cos * found.perDepth - sin;
    stack[s + 4] = sense * cos * found.bend;
    stack[s + 5] = -found.gy;
    stack[s + 6] = found.gx;
    stack[s + 7] = 0;
  }

  shares(x: number, y: number, z: number, slot: number): void {
    this.evaluate(x, y, z, slot);
    clearShares(slot, this.faceCount, this.face);
  }

  within({ x, y, z, ball }: Nearby): Node {
    const plan = this.plan.within(x, y, -z, ball);
    if (plan === this.plan) return this;
    const known = this.parts.get(plan);
    if (known) return known;
    const part = this.over(plan);
    this.parts.set(plan, part);
    return part;
  }

  private over(plan: PlanDistance): Node {
    const line = plan.onlyLine();
    if (line) {
      const nx = this.sense * this.cos * line.uy;
      const ny = -this.sense * this.cos * line.ux;
      const offset = -(nx * line.ax + ny * line.ay) + this.sin * this.datum;
      return new Plane(nx, ny, -this.sin, offset, this.face, this.faceCount);
    }
    return new Drafted(plan, this.draft, this.sense, this.datum, this.face, this.faceCount, this.extraLean);
  }
}

/**
 * The coping's lip, a plumb face that ends in the ground: below `bottom` (a height, well under the edge cut) there is
 * ground on both sides of it, value = max(lip, bottom − z). So the wall stands before open ground, as it does on site, and not
 * before a sheet as thin as the flange is wide down to the floor.
 */
export class Lip implements Node {
  readonly flat = false;
  readonly lowZ = -1;
  readonly highZ = 0;
  readonly face: number;
  private readonly plumb: Node;
  private readonly below: Plane;
  /** Reduced lips made so far, by the part of the plumb face that they are. */
  private readonly parts = new Map<Node, Node>();

  constructor(plumb: Node, below: Plane) {
    this.plumb = plumb;
    this.below = below;
    this.face = below.face;
  }

  static of(face: Drafted, bottom: number, index: number, faceCount: number): Lip {
    return new Lip(face, new Plane(0, 0, -1, bottom, index, faceCount));
  }

  evaluate(x: number, y: number, z: number, slot: number): void {
    this.plumb.evaluate(x, y, z, slot);
    if (this.below.offset - z > stack[slot * SLOT]) this.below.evaluate(x, y, z, slot);
  }

  shares(x: number, y: number, z: number, slot: number): void {
    this.evaluate(x, y, z, slot);
    clearShares(slot, this.below.faceCount, this.face);
  }

  within(near: Nearby): Node {
    this.plumb.evaluate(near.x, near.y, near.z, 0);
    const ahead = stack[0] - (this.below.offset - near.z);
    if (ahead > 2 * near.ball) return this.plumb.within(near);
    if (ahead < -2 * near.ball) return this.below;
    const plumb = this.plumb.within(near);
    if (plumb === this.plumb) return this;
    const known = this.parts.get(plumb);
    if (known) return known;
    const part = new Lip(plumb, this.below);
    this.parts.set(plumb, part);
    return part;
  }
}

/**
 * The floor: a profile along the length, level across or falling to one side by `fall` (radians). The profile's chain
 * lies in (x, w) with w = z cos − y sin, so that its depths hold on the centre line.
 */
export class Floor implements Node {
  readonly flat = false;
  /** Reduced faces made so far, by the part of the plan that they stand on. */
  private readonly parts = new Map<PlanDistance, Node>();
  readonly lowZ = -1;
  readonly highZ = -0.5;
  private readonly cos: number;
  private readonly sin: number;

  private readonly profile: PlanDistance;
  private readonly fall: number;
  readonly face: number;
  private readonly faceCount: number;

  constructor(profile: PlanDistance, fall: number, face: number, faceCount: number) {
    this.profile = profile;
    this.fall = fall;
    this.face = face;
    this.faceCount = faceCount;
    this.cos = Math.cos(fall);
    this.sin = Math.sin(fall);
  }

  evaluate(x: number, y: number, z: number, slot: number): void {
    const d = this.profile.at(x, z * this.cos - y * this.sin, 0);
    const s = slot * SLOT;
    stack[s] = d;
    stack[s + 1] = found.gx;
    stack[s + 2] = -found.gy * this.sin;
    stack[s + 3] = found.gy * this.cos;
    stack[s + 4] = found.bend;
    stack[s + 5] = -found.gy;
    stack[s + 6] = -found.gx * this.sin;
    stack[s + 7] = found.gx * this.cos;
  }

  shares(x: number, y: number, z: number, slot: number): void {
    this.evaluate(x, y, z, slot);
    clearShares(slot, this.faceCount, this.face);
  }

  within({ x, y, z, ball }: Nearby): Node {
    const profile = this.profile.within(x, z * this.cos - y * this.sin, 0, ball);
    if (profile === this.profile) return this;
    const known = this.parts.get(profile);
    if (known) return known;
    const part = this.over(profile);
    this.parts.set(profile, part);
    return part;
  }

  private over(profile: PlanDistance): Node {
    const line = profile.onlyLine();
    if (line) {
      const offset = -(line.uy * line.ax - line.ux * line.ay);
      return new Plane(line.uy, line.ux * this.sin, -line.ux * this.cos, offset, this.face, this.faceCount);
    }
    return new Floor(profile, this.fall, this.face, this.faceCount);
  }
}
