import type { Plane } from "./node.ts";
import * as node from "./node.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { MOST_FACES, SLOT, shareStack, stack } = node;

/** Two planes that are parallel but for this (sine squared) have no edge to be rounded. */
const PARALLEL = 1e-9;

/**
 * The rolling-ball blend of two planes in closed form, as most of a shell's coves and noses are where they are asked for:
 * with excesses u, v and c the cosine between the normals the ball is held by λ = (u − cv, v − cu)/(1 − c²), and its centre is
 * D = √(λ·(u, v)) away. `limit`: see `Rolled`.
 */
export class RoundedEdge {
  private readonly a: Plane;
  private readonly b: Plane;
  private readonly radius: number;
  private readonly sign: 1 | -1;
  private readonly limit: number;
  private readonly cosine: number;
  /** 1 − c². */
  private readonly sine2: number;
  /** Forces of the ball on both planes at the last point; 1 and 0 where one holds it alone. */
  private onA = 0;
  private onB = 0;

  constructor(a: Plane, b: Plane, radius: number, sign: 1 | -1, limit: number) {
    this.a = a;
    this.b = b;
    this.radius = radius;
    this.sign = sign;
    this.limit = limit;
    this.cosine = a.nx * b.nx + a.ny * b.ny + a.nz * b.nz;
    this.sine2 = 1 - this.cosine ** 2;
  }

  /** As of a node. */
  evaluate(x: number, y: number, z: number, slot: number): void {
    const { a, b, sign, radius, cosine, sine2 } = this;
    const s = slot * SLOT;
    const atA = a.nx * x + a.ny * y + a.nz * z + a.offset;
    const atB = b.nx * x + b.ny * y + b.nz * z + b.offset;
    const u = sign * atA + radius;
    const v = sign * atB + radius;
    const p = u - cosine * v;
    const q = v - cosine * u;
    if (!(p > 0 && q > 0 && sine2 > PARALLEL && (u > 0 || v > 0))) {
      const first = u >= v;
      const { nx, ny, nz } = first ? a : b;
      this.onA = first ? 1 : 0;
      this.onB = first ? 0 : 1;
      stack[s] = first ? atA : atB;
      stack[s + 1] = nx;
      stack[s + 2] = ny;
      stack[s + 3] = nz;
      stack[s + 4] = 0;
      return;
    }
    const onA = p / sine2;
    const onB = q / sine2;
    this.onA = onA;
    this.onB = onB;
    const D = Math.sqrt(onA * u + onB * v);
    const gx = (onA * a.nx + onB * b.nx) / D;
    const gy = (onA * a.ny + onB * b.ny) / D;
    const gz = (onA * a.nz + onB * b.nz) / D;
    const promised = sign > 0 ? Math.min(D, Math.max(u, v, this.limit)) : D;
    stack[s] = sign * (promised - radius);
    stack[s + 1] = gx;
    stack[s + 2] = gy;
    stack[s + 3] = gz;
    stack[s + 4] = sign / D;
    // Across the blend: from one contact to the other, square to the normal.
    const along = (a.nx - b.nx) * gx + (a.ny - b.ny) * gy + (a.nz - b.nz) * gz;
    const tx = a.nx - b.nx - along * gx;
    const ty = a.ny - b.ny - along * gy;
    const tz = a.nz - b.nz - along * gz;
    const t = Math.sqrt(tx * tx + ty * ty + tz * tz);
    stack[s + 5] = tx / t;
    stack[s + 6] = ty / t;
    stack[s + 7] = tz / t;
  }

  /** As of a node. */
  shares(x: number, y: number, z: number, slot: number): void {
    this.evaluate(x, y, z, slot);
    const { a, b, onA, onB } = this;
    const row = slot * MOST_FACES;
    for (let f = row; f < row + a.faceCount; f++) shareStack[f] = 0;
    shareStack[row + a.face] += onA / (onA + onB);
    shareStack[row + b.face] += onB / (onA + onB);
  }
}
