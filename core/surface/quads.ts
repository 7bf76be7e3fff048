import { type Columns, RAY_STRIDE, type Ray, type RayPair } from "./fan.ts";

/** Side of a hash cube, in mean radii of the quads. */
const CUBE = 3;
/** A point further than this part of a quad's size from the quad's plane lies on another sheet of the surface. */
const OFF_PLANE = 0.25;

/** Ray of a pair on one side: 0 left, 1 right. */
export const rayOf = (pair: RayPair, side: number): Ray => (side === 0 ? pair.left : pair.right);

/** The quads between neighbouring rays and columns of both sides of a strip. */
export interface Quads {
  readonly count: number;
  readonly side: Uint8Array;
  readonly span: Int32Array;
  readonly column: Int32Array;
  /** Distance of its nearer column from the curve, mm. */
  readonly from: Float32Array;
  /** Centre and squared radius of the ball that holds each quad. */
  readonly sphere: Float64Array;
}

/** All quads of a strip's rays. */
export function gatherQuads(pairs: readonly RayPair[], sides: readonly [Columns, Columns]): Quads {
  const spans = pairs.length - 1;
  const count = spans * (sides[0].count - 1 + sides[1].count - 1);
  const side = new Uint8Array(count);
  const span = new Int32Array(count);
  const column = new Int32Array(count);
  const from = new Float32Array(count);
  const sphere = new Float64Array(4 * count);
  let q = 0;
  for (let s = 0; s < 2; s++) {
    for (let i = 0; i < spans; i++) {
      const a = rayOf(pairs[i], s).data;
      const b = rayOf(pairs[i + 1], s).data;
      for (let c = 0; c + 1 < sides[s].count; c++) {
        side[q] = s;
        span[q] = i;
        column[q] = c;
        from[q] = c * sides[s].spacing;
        const at = RAY_STRIDE * c;
        let far = 0;
        for (let k = 0; k < 3; k++) {
          sphere[4 * q + k] =
            0.25 * (a[at + k] + b[at + k] + a[at + RAY_STRIDE + k] + b[at + RAY_STRIDE + k]);
        }
        for (let corner = 0; corner < 4; corner++) {
          const ray = corner & 1 ? b : a;
          const p = corner & 2 ? at + RAY_STRIDE : at;
          const dx = ray[p] - sphere[4 * q];
          const dy = ray[p + 1] - sphere[4 * q + 1];
          const dz = ray[p + 2] - sphere[4 * q + 2];
          far = Math.max(far, dx * dx + dy * dy + dz * dz);
        }
        sphere[4 * q + 3] = far * 1.05 + 0.01;
        q++;
      }
    }
  }
  return { count, side, span, column, from, sphere };
}

/** Lists of quads by cubes of space. */
export interface Slots {
  readonly heads: Int32Array;
  readonly next: Int32Array;
  readonly quad: Int32Array;
  slotOf(x: number, y: number, z: number): number;
}

/** Every quad in the list of each cube that its ball's box touches. */
export function hashQuads(quads: Quads): Slots {
  let mean = 0;
  for (let q = 0; q < quads.count; q++) mean += Math.sqrt(quads.sphere[4 * q + 3]);
  const cube = Math.max(1, (CUBE * mean) / Math.max(1, quads.count));
  const bits = Math.max(8, Math.ceil(Math.log2(quads.count + 1)) + 1);
  const mask = (1 << bits) - 1;
  const heads = new Int32Array(1 << bits).fill(-1);
  let room = 8 * quads.count + 64;
  let next = new Int32Array(room);
  let quad = new Int32Array(room);
  let used = 0;
  const slot = (i: number, j: number, k: number) =>
    (Math.imul(i, 73856093) ^ Math.imul(j, 19349663) ^ Math.imul(k, 83492791)) & mask;
  for (let q = 0; q < quads.count; q++) {
    const r = Math.sqrt(quads.sphere[4 * q + 3]) / cube;
    const x = quads.sphere[4 * q] / cube;
    const y = quads.sphere[4 * q + 1] / cube;
    const z = quads.sphere[4 * q + 2] / cube;
    for (let i = Math.floor(x - r); i <= Math.floor(x + r); i++) {
      for (let j = Math.floor(y - r); j <= Math.floor(y + r); j++) {
        for (let k = Math.floor(z - r); k <= Math.floor(z + r); k++) {
          if (used === room) {
            room *= 2;
            const more = new Int32Array(room);
            more.set(next);
            next = more;
            const moreQuads = new Int32Array(room);
            moreQuads.set(quad);
            quad = moreQuads;
          }
          const s = slot(i, j, k);
          next[used] = heads[s];
          quad[used] = q;
          heads[s] = used++;
        }
      }
    }
  }
  return {
    heads,
    next,
    quad,
    slotOf: (x, y, z) => slot(Math.floor(x / cube), Math.floor(y / cube), Math.floor(z / cube)),
  };
}

/**
 * Distance to the curve of point p in the quad of two rays between the columns at `at` and the next (the nearer of them
 * `base` mm from the curve): p's place (u along, v across) by Newton on the bilinear quad, then base + v·spacing and the sagitta
 * of the parallel through p over its chord. Infinity if p is not in the quad. Leaves u and v in `uv`.
 */
export function placeInQuad(
  a: Float64Array,
  b: Float64Array,
  at: number,
  p: Float64Array,
  spacing: number,
  base: number,
  uv: Float64Array,
): number {
  const up = at + RAY_STRIDE;
  const px = p[0] - a[at];
  const py = p[1] - a[at + 1];
  const pz = p[2] - a[at + 2];
  // Quad = A + u·s + v·t + uv·d.
  const sx = b[at] - a[at];
  const sy = b[at + 1] - a[at + 1];
  const sz = b[at + 2] - a[at + 2];
  const tx = a[up] - a[at];
  const ty = a[up + 1] - a[at + 1];
  const tz = a[up + 2] - a[at + 2];
  const dx = b[up] - a[up] - sx;
  const dy = b[up + 1] - a[up + 1] - sy;
  const dz = b[up + 2] - a[up + 2] - sz;
  let u = 0.5;
  let v = 0.5;
  let rx = 0;
  let ry = 0;
  let rz = 0;
  for (let round = 0; round < 6; round++) {
    rx = px - u * sx - v * tx - u * v * dx;
    ry = py - u * sy - v * ty - u * v * dy;
    rz = pz - u * sz - v * tz - u * v * dz;
    const ex = sx + v * dx;
    const ey = sy + v * dy;
    const ez = sz + v * dz;
    const fx = tx + u * dx;
    const fy = ty + u * dy;
    const fz = tz + u * dz;
    const ee = ex * ex + ey * ey + ez * ez;
    const ef = ex * fx + ey * fy + ez * fz;
    const ff = fx * fx + fy * fy + fz * fz;
    const det = ee * ff - ef * ef;
    if (!(det > 1e-8 * ff * ff)) return Infinity;
    const er = ex * rx + ey * ry + ez * rz;
    const fr = fx * rx + fy * ry + fz * rz;
    const du = (er * ff - fr * ef) / det;
    const dv = (fr * ee - er * ef) / det;
    u += du;
    v += dv;
    if (u < -1 || u > 2 || v < -1 || v > 2) return Infinity;
    if (Math.abs(du) + Math.abs(dv) < 1e-5) break;
  }
  if (u < -1e-4 || u > 1 + 1e-4 || v < -1e-4 || v > 1 + 1e-4) return Infinity;
  const size = spacing + Math.sqrt(sx * sx + sy * sy + sz * sz);
  if (rx * rx + ry * ry + rz * rz > OFF_PLANE * OFF_PLANE * size * size) return Infinity;
  // The parallel through p: its chord, its direction and how far the two rays turn towards each other along it.
  const cx = sx + v * dx;
  const cy = sy + v * dy;
  const cz = sz + v * dz;
  const q = 1 - v;
  const forward =
    cx * (q * (a[at + 6] + b[at + 6]) + v * (a[up + 6] + b[up + 6])) +
    cy * (q * (a[at + 7] + b[at + 7]) + v * (a[up + 7] + b[up + 7])) +
    cz * (q * (a[at + 8] + b[at + 8]) + v * (a[up + 8] + b[up + 8]));
  // Past the place where the two rays meet the curve's end, or another part of it, is nearer than they say.
  if (forward < 0) return Infinity;
  uv[0] = u;
  uv[1] = v;
  const turn =
    cx * (q * (a[at + 3] - b[at + 3]) + v * (a[up + 3] - b[up + 3])) +
    cy * (q * (a[at + 4] - b[at + 4]) + v * (a[up + 4] - b[up + 4])) +
    cz * (q * (a[at + 5] - b[at + 5]) + v * (a[up + 5] - b[up + 5]));
  return base + v * spacing + 0.5 * u * (1 - u) * turn;
}
