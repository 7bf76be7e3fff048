import { solveBand } from "./band-solve.ts";
import type { FieldNear } from "./bricks.ts";
import { unitNormal } from "./normal.ts";
import { projectOnto } from "./project.ts";

/** Nodes lie this near to the surface, mm. */
const EXACT = 1e-9;
/** Nodes that move by less than this have settled, mm; or the energy falls by less than this part of itself. */
const SETTLED = 0.002;
const WORTHWHILE = 1e-6;
const MOST_ROUNDS = 60;
/** Step of the differences that give the Gaussian curvature, mm. */
const SHAPE_STEP = 0.05;

/**
 * Moves the free nodes of a line on the surface until the sum of squared second differences along the surface is least: damped
 * Gauss–Newton steps in the tangent planes. `gaps` is the parameter length of the span after each node; the nodes are moved in `x`.
 */
export class Fairing {
  private readonly count: number;
  private readonly near: FieldNear;
  private readonly fixed: readonly boolean[];
  private readonly gaps: readonly number[];
  private readonly closed: boolean;
  private readonly half: number;
  private x: Float64Array;
  /** Two unit directions square to the normal at each node, and the normal (9 numbers). */
  private readonly frames: Float64Array;
  /** Gaussian curvature at each node, 1/mm². */
  private readonly curvature: Float64Array;

  constructor(
    near: FieldNear,
    x: Float64Array,
    fixed: readonly boolean[],
    gaps: readonly number[],
    closed: boolean,
  ) {
    this.near = near;
    this.x = x;
    this.fixed = fixed;
    this.gaps = gaps;
    this.closed = closed;
    this.count = fixed.length;
    // A residual ties three neighbours, so its square ties nodes two apart; a closed line is folded, which doubles it.
    this.half = closed ? 11 : 5;
    this.frames = new Float64Array(9 * this.count);
    this.curvature = new Float64Array(this.count);
  }

  run(): void {
    let damping = 0;
    let energy = this.frame(this.x);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const step = this.step(damping);
      if (!step) {
        damping = Math.max(1e-6, damping * 10);
        continue;
      }
      const tried = this.x.slice();
      const moved = this.move(tried, step);
      const after = this.frame(tried);
      if (after < energy) {
        const gained = 1 - after / energy;
        this.x.set(tried);
        energy = after;
        damping = damping < 1e-7 ? 0 : damping / 10;
        if (moved < SETTLED || gained < WORTHWHILE) return;
      } else {
        this.frame(this.x);
        damping = Math.max(1e-6, damping * 10);
        if (moved < SETTLED) return;
      }
    }
  }

  /** Unit tangent at each node (3n): the derivative of the parabola along the surface through it and its neighbours. */
  tangents(): Float64Array {
    const { count, frames, gaps } = this;
    const out = new Float64Array(3 * count);
    for (let i = 0; i < count; i++) {
      const a = this.before(i);
      const b = this.after(i);
      const [bx, by] = b < 0 ? [0, 0] : this.leadTo(this.x, i, b);
      const [ax, ay] = a < 0 ? [0, 0] : this.leadTo(this.x, i, a);
      // The nearer neighbour weighs more; at an open end there is only one, and no curvature.
      const p = a < 0 ? 0 : 1 / gaps[a] ** 2;
      const q = b < 0 ? 0 : 1 / gaps[i] ** 2;
      const u = q * bx - p * ax;
      const v = q * by - p * ay;
      const size = Math.hypot(u, v);
      for (let k = 0; k < 3; k++) {
        out[3 * i + k] = (u * frames[9 * i + k] + v * frames[9 * i + 3 + k]) / size;
      }
    }
    return out;
  }

  private before(i: number): number {
    return i > 0 ? i - 1 : this.closed ? this.count - 1 : -1;
  }

  private after(i: number): number {
    return i + 1 < this.count ? i + 1 : this.closed ? 0 : -1;
  }

  /**
   * Second difference at node i along the surface, in the node's two tangent directions, written to d; returns its weight, or 0 at
   * an open end. Each neighbour is taken by the geodesic that leads to it: see `leadTo`.
   */
  private second(x: Float64Array, i: number, d: [number, number]): number {
    const a = this.before(i);
    const b = this.after(i);
    if (a < 0 || b < 0) return 0;
    const [p, q] = [this.gaps[a], this.gaps[i]];
    const mean = (p + q) / 2;
    const [bx, by] = this.leadTo(x, i, b);
    const [ax, ay] = this.leadTo(x, i, a);
    d[0] = (bx / q + ax / p) / mean;
    d[1] = (by / q + ay / p) / mean;
    return mean;
  }

  /**
   * The geodesic from node i to its neighbour j as a vector in the tangent plane of i: along the chord, turned by a sixth of the
   * normal's turns along and across it, and as long as the cubic square to both normals. As in the march, so that a flat running into
   * a fillet leaves no force there.
   */
  private leadTo(x: Float64Array, i: number, j: number): [number, number] {
    const { frames } = this;
    const c = [x[3 * j] - x[3 * i], x[3 * j + 1] - x[3 * i + 1], x[3 * j + 2] - x[3 * i + 2]];
    const on = (at: number) => c[0] * frames[at] + c[1] * frames[at + 1] + c[2] * frames[at + 2];
    const chord = Math.hypot(c[0], c[1], c[2]);
    const u = on(9 * i);
    const v = on(9 * i + 3);
    const flat = Math.hypot(u, v);
    if (!(flat > 0)) return [0, 0];
    const nu = dot(frames, 9 * j + 6, frames, 9 * i);
    const nv = dot(frames, 9 * j + 6, frames, 9 * i + 3);
    const along = (nu * u + nv * v) / flat;
    const across = (nv * u - nu * v) / flat;
    const sinA = on(9 * i + 6) / chord;
    const sinB = -on(9 * j + 6) / chord;
    const excess = (2 * sinA * sinA + sinA * sinB + 2 * sinB * sinB) / 30;
    const length = (chord * (1 + excess + 2.7 * excess * excess)) / flat;
    const turn = (along * across) / 6;
    return [length * (u - turn * v), length * (v + turn * u)];
  }

  /** Frames and curvatures of all nodes; returns the energy. */
  private frame(x: Float64Array): number {
    const { frames } = this;
    const n = new Float64Array(6);
    for (let i = 0; i < this.count; i++) {
      const f = 9 * i;
      const local = this.near(x[3 * i], x[3 * i + 1], x[3 * i + 2]);
      unitNormal(local, x[3 * i], x[3 * i + 1], x[3 * i + 2], frames, f + 6);
      const [nx, ny, nz] = frames.subarray(f + 6, f + 9);
      const flat = Math.abs(nx) < 0.6 ? [1, 0, 0] : [0, 1, 0];
      let ux = ny * flat[2] - nz * flat[1];
      let uy = nz * flat[0] - nx * flat[2];
      let uz = nx * flat[1] - ny * flat[0];
      const size = Math.hypot(ux, uy, uz);
      ux /= size;
      uy /= size;
      uz /= size;
      frames.set([ux, uy, uz, ny * uz - nz * uy, nz * ux - nx * uz, nx * uy - ny * ux], f);
      // Gaussian curvature: determinant of the normal's change along the two directions.
      for (let axis = 0; axis < 2; axis++) {
        const at = (k: number) => x[3 * i + k] + SHAPE_STEP * frames[f + 3 * axis + k];
        unitNormal(local, at(0), at(1), at(2), n, 3 * axis);
      }
      const turn = (axis: number, other: number) => dot(n, 3 * axis, frames, f + 3 * other) / SHAPE_STEP;
      this.curvature[i] = turn(0, 0) * turn(1, 1) - turn(0, 1) * turn(1, 0);
    }
    const d: [number, number] = [0, 0];
    let energy = 0;
    for (let i = 0; i < this.count; i++) energy += this.second(x, i, d) * (d[0] * d[0] + d[1] * d[1]);
    return energy;
  }

  /** One Gauss–Newton step (two numbers a node), or null if the damped matrix is not positive. */
  private step(damping: number): Float64Array | null {
    const { count, half, fixed } = this;
    const w = half + 1;
    const rows = new Float64Array(2 * count * w);
    const right = new Float64Array(2 * count);
    const place = (i: number) => (!this.closed ? i : 2 * i < count ? 2 * i : 2 * (count - 1 - i) + 1);
    const d: [number, number] = [0, 0];
    for (let i = 0; i < count; i++) {
      const weight = this.second(this.x, i, d);
      if (weight === 0) continue;
      const a = this.before(i);
      const b = this.after(i);
      const [p, q] = [this.gaps[a], this.gaps[i]];
      const nodes = [a, i, b];
      const factors = [1 / (p * weight), -(1 / p + 1 / q) / weight, 1 / (q * weight)];
      const [du, dv] = this.leadTo(this.x, i, b);
      const ahead = [du / Math.hypot(du, dv), dv / Math.hypot(du, dv)];
      for (let axis = 0; axis < 2; axis++) {
        const r = d[axis];
        const columns: number[] = [];
        const values: number[] = [];
        for (let m = 0; m < 3; m++) {
          const j = nodes[m];
          if (fixed[j]) continue;
          for (let other = 0; other < 2; other++) {
            let value = factors[m] * this.carried(j, other, i, axis);
            // Jacobi's equation: where the surface is curved, moving a node aside also bends the line.
            if (m === 1) value += this.curvature[i] * ((axis === other ? 1 : 0) - ahead[axis] * ahead[other]);
            columns.push(2 * place(j) + other);
            values.push(value);
          }
        }
        for (let s = 0; s < columns.length; s++) {
          right[columns[s]] -= weight * values[s] * r;
          for (let t = 0; t < columns.length; t++) {
            const k = columns[s] - columns[t];
            if (k >= 0) rows[columns[s] * w + k] += weight * values[s] * values[t];
          }
        }
      }
    }
    for (let k = 0; k < 2 * count; k++) rows[k * w] = rows[k * w] > 0 ? rows[k * w] * (1 + damping) : 1;
    if (!solveBand(rows, half, right)) return null;
    const step = new Float64Array(2 * count);
    for (let i = 0; i < count; i++) {
      step[2 * i] = right[2 * place(i)];
      step[2 * i + 1] = right[2 * place(i) + 1];
    }
    return step;
  }

  /** Component `axis` at node i of direction `other` of node j, carried there by the least rotation from normal to normal. */
  private carried(j: number, other: number, i: number, axis: number): number {
    const { frames } = this;
    const v = 9 * j + 3 * other;
    const u = 9 * i + 3 * axis;
    const cosine = dot(frames, 9 * i + 6, frames, 9 * j + 6);
    return (
      dot(frames, v, frames, u) -
      (dot(frames, v, frames, 9 * i + 6) * dot(frames, u, frames, 9 * j + 6)) / (1 + cosine)
    );
  }

  /** Moves the nodes by a step, all of it or as much as keeps every move under two gaps, and back onto the surface; returns the greatest move. */
  private move(x: Float64Array, step: Float64Array): number {
    let greatest = 0;
    for (let i = 0; i < this.count; i++)
      greatest = Math.max(greatest, Math.hypot(step[2 * i], step[2 * i + 1]));
    const part = Math.min(1, (2 * Math.min(...this.gaps)) / greatest);
    for (let i = 0; i < this.count; i++) {
      if (this.fixed[i]) continue;
      for (let k = 0; k < 3; k++) {
        x[3 * i + k] +=
          part * (step[2 * i] * this.frames[9 * i + k] + step[2 * i + 1] * this.frames[9 * i + 3 + k]);
      }
      projectOnto(this.near(x[3 * i], x[3 * i + 1], x[3 * i + 2]), x, 3 * i, EXACT);
    }
    return greatest * part;
  }
}

const dot = (a: Float64Array, i: number, b: Float64Array, j: number) =>
  a[i] * b[j] + a[i + 1] * b[j + 1] + a[i + 2] * b[j + 2];
