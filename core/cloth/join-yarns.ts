import type { FieldNear } from "../surface/bricks.ts";
import { arcExcess } from "./arc.ts";

/** What became of a node of a net. */
export const MET = {
  /** It lies on the surface. */
  yes: 1,
  /** There is no surface where it would lie. */
  lost: 2,
  /** Its two neighbours are too far apart: the cell has closed up, the cloth folds. */
  folded: 3,
  /** It is outside what the net was to reach. */
  beyond: 4,
} as const;
export type Met = (typeof MET)[keyof typeof MET];

const MOST_ROUNDS = 20;
/**
 * The last Newton step may be this long, mm: the next would be about a hundredth of it, for the arcs' own change with the node
 * is left out of the derivatives.
 */
const LAST_STEP = 0.02;
/** A node may lie this far off the surface, mm. */
const OFF = 0.01;
/** No Newton step is longer than this part of a yarn. */
const LONGEST = 0.7;

/**
 * Puts the node at offset `q` of a net's points and normals: on the surface, `fromA` mm of arc from the neighbour at `a` (along
 * the warp) and `fromB` mm from that at `b` (along the weft). Of the two such places it is the one at which, seen along the normal, the yarn from `b`
 * ends to the left (`hand` 1) or right (−1) of the yarn from `a`: the unfolded one. The point at `q` is the guess. Newton on the two lengths and
 * the field, three equations for three coordinates; one evaluation a round. Allocates nothing.
 */
export function joinYarns(
  near: FieldNear,
  points: Float64Array,
  normals: Float64Array,
  q: number,
  a: number,
  b: number,
  hand: number,
  fromA: number,
  fromB: number,
): Met {
  const ax = points[a];
  const ay = points[a + 1];
  const az = points[a + 2];
  const bx = points[b];
  const by = points[b + 1];
  const bz = points[b + 2];
  let x = points[q];
  let y = points[q + 1];
  let z = points[q + 2];
  const longest = LONGEST * fromA;
  for (let round = 0; ; round++) {
    if (round === MOST_ROUNDS) return tooFar(points, a, b, fromA + fromB) ? MET.folded : MET.lost;
    const field = near(x, y, z);
    const f = field.evaluate(x, y, z);
    const g = field.gradient;
    const gx = g[0];
    const gy = g[1];
    const gz = g[2];
    const size = Math.sqrt(gx * gx + gy * gy + gz * gz);
    if (!(size > 1e-9)) return MET.lost;
    const nx = gx / size;
    const ny = gy / size;
    const nz = gz / size;
    const px = x - ax;
    const py = y - ay;
    const pz = z - az;
    const rx = x - bx;
    const ry = y - by;
    const rz = z - bz;
    const p2 = px * px + py * py + pz * pz;
    const r2 = rx * rx + ry * ry + rz * rz;
    // Two points that fall together have no direction, but then neither arc is right and any step helps.
    const p = Math.sqrt(p2) || 1e-9;
    const r = Math.sqrt(r2) || 1e-9;
    const arcP =
      1 +
      arcExcess(
        -(px * normals[a] + py * normals[a + 1] + pz * normals[a + 2]) / p,
        (px * nx + py * ny + pz * nz) / p,
      );
    const arcR =
      1 +
      arcExcess(
        -(rx * normals[b] + ry * normals[b + 1] + rz * normals[b + 2]) / r,
        (rx * nx + ry * ny + rz * nz) / r,
      );
    // Residuals: half of chord² less what it should be, and the distance from the surface.
    const e1 = 0.5 * (p2 - (fromA / arcP) ** 2);
    const e2 = 0.5 * (r2 - (fromB / arcR) ** 2);
    const e3 = f / size;
    // Cramer's rule on rows (p), (r), (n).
    const cx = ry * nz - rz * ny;
    const cy = rz * nx - rx * nz;
    const cz = rx * ny - ry * nx;
    const det = px * cx + py * cy + pz * cz;
    // Where both yarns all but run one way the cell is closing and the system has no answer worth having.
    if (Math.abs(det) < 1e-3 * p * r) return tooFar(points, a, b, fromA + fromB) ? MET.folded : MET.lost;
    const ux = ny * pz - nz * py;
    const uy = nz * px - nx * pz;
    const uz = nx * py - ny * px;
    const wx = py * rz - pz * ry;
    const wy = pz * rx - px * rz;
    const wz = px * ry - py * rx;
    let dx = -(e1 * cx + e2 * ux + e3 * wx) / det;
    let dy = -(e1 * cy + e2 * uy + e3 * wy) / det;
    let dz = -(e1 * cz + e2 * uz + e3 * wz) / det;
    const step = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (step > longest) {
      dx *= longest / step;
      dy *= longest / step;
      dz *= longest / step;
    }
    x += dx;
    y += dy;
    z += dz;
    if (step < LAST_STEP) {
      if (Math.abs(e3) > OFF + step) return MET.lost;
      points[q] = x;
      points[q + 1] = y;
      points[q + 2] = z;
      normals[q] = nx;
      normals[q + 1] = ny;
      normals[q + 2] = nz;
      return unfolded(points, normals, q, a, b, hand) ? MET.yes : MET.folded;
    }
  }
}

/** Whether two neighbours are further apart than their two yarns reach, or all but that far. */
function tooFar(points: Float64Array, a: number, b: number, reach: number): boolean {
  const gap = Math.hypot(points[a] - points[b], points[a + 1] - points[b + 1], points[a + 2] - points[b + 2]);
  return gap > 0.9 * reach;
}

/** Whether the yarns from a and from b that end at q stand to each other as in a cell that has not turned over. */
function unfolded(
  points: Float64Array,
  normals: Float64Array,
  q: number,
  a: number,
  b: number,
  hand: number,
): boolean {
  const px = points[q] - points[a];
  const py = points[q + 1] - points[a + 1];
  const pz = points[q + 2] - points[a + 2];
  const rx = points[q] - points[b];
  const ry = points[q + 1] - points[b + 1];
  const rz = points[q + 2] - points[b + 2];
  const turn =
    (py * rz - pz * ry) * normals[q] +
    (pz * rx - px * rz) * normals[q + 1] +
    (px * ry - py * rx) * normals[q + 2];
  return hand * turn > 0;
}
