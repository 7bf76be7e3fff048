import type { SurfaceMesh } from "./mesh.ts";
import type { Seat } from "./seat.ts";

/**
 * A mesh triangle bent to follow the surface: corners 0, 1, 2 and the middles 3 (of 0–1), 4 (of 1–2), 5 (of 2–0), x y z
 * each. The middle of an edge lies off its chord by (b − a)·(n_b − n_a)/8 along the mean normal (cubic Hermite, exact to
 * fourth order), so that measures taken on the triangle and on its four quarters can be extrapolated.
 */
export type CurvedTriangle = Float64Array;

export function makeCurvedTriangle(): CurvedTriangle {
  return new Float64Array(18);
}

/** Writes the triangle of vertices i, j, k to `out`. */
export function curve(mesh: SurfaceMesh, i: number, j: number, k: number, out: CurvedTriangle): void {
  const { positions } = mesh;
  for (let c = 0; c < 3; c++) {
    out[c] = positions[3 * i + c];
    out[3 + c] = positions[3 * j + c];
    out[6 + c] = positions[3 * k + c];
  }
  middle(mesh, i, j, out, 9);
  middle(mesh, j, k, out, 12);
  middle(mesh, k, i, out, 15);
}

function middle(mesh: SurfaceMesh, i: number, j: number, out: CurvedTriangle, at: number): void {
  const p = mesh.positions;
  const n = mesh.normals;
  const a = 3 * i;
  const b = 3 * j;
  const nx = n[a] + n[b];
  const ny = n[a + 1] + n[b + 1];
  const nz = n[a + 2] + n[b + 2];
  const turn =
    (p[b] - p[a]) * (n[b] - n[a]) +
    (p[b + 1] - p[a + 1]) * (n[b + 1] - n[a + 1]) +
    (p[b + 2] - p[a + 2]) * (n[b + 2] - n[a + 2]);
  const size = nx * nx + ny * ny + nz * nz;
  // The sum of the normals is 2 cos(½ turn) long: dividing by its square scales the sagitta to the mean normal.
  const s = size > 1e-9 ? (2 * turn) / (8 * size) : 0;
  out[at] = (p[a] + p[b]) / 2 + s * nx;
  out[at + 1] = (p[a + 1] + p[b + 1]) / 2 + s * ny;
  out[at + 2] = (p[a + 2] + p[b + 2]) / 2 + s * nz;
}

/**
 * Seats the middles of those edges whose ends disagree about the bend between them, as where an edge runs from a plane
 * face into a round: there the Hermite middle is off by a part of the sagitta.
 */
export function seatMiddles(
  mesh: SurfaceMesh,
  i: number,
  j: number,
  k: number,
  p: CurvedTriangle,
  seat: Seat,
): void {
  seatMiddle(mesh, i, j, p, 9, seat);
  seatMiddle(mesh, j, k, p, 12, seat);
  seatMiddle(mesh, k, i, p, 15, seat);
}

function seatMiddle(
  mesh: SurfaceMesh,
  i: number,
  j: number,
  out: CurvedTriangle,
  at: number,
  seat: Seat,
): void {
  const p = mesh.positions;
  const n = mesh.normals;
  let s = 0;
  let t = 0;
  for (let c = 0; c < 3; c++) {
    const d = p[3 * j + c] - p[3 * i + c];
    s += n[3 * i + c] * d;
    t += n[3 * j + c] * d;
  }
  if (Math.abs(s + t) < 1e-4 + 0.02 * Math.abs(s - t)) return;
  const { point } = seat;
  for (let c = 0; c < 3; c++) point[c] = (p[3 * j + c] + p[3 * i + c]) / 2;
  if (seat.onSurface(Math.abs(s) + Math.abs(t))) for (let c = 0; c < 3; c++) out[at + c] = point[c];
}

/** A measure of the plane triangle between three points of a list of points. */
export type OfTriangle = (points: Float64Array, a: number, b: number, c: number) => number;

/** The measure of the curved triangle: its quarters' against its own, (4A′ − A)/3 (Richardson). */
export function extrapolated(p: CurvedTriangle, of: OfTriangle): number {
  const quarters = of(p, 0, 3, 5) + of(p, 3, 1, 4) + of(p, 5, 4, 2) + of(p, 3, 4, 5);
  return (4 * quarters - of(p, 0, 1, 2)) / 3;
}

/** Area of the plane triangle between points a, b and c, mm². */
export function planeArea(p: Float64Array, a: number, b: number, c: number): number {
  const ux = p[3 * b] - p[3 * a];
  const uy = p[3 * b + 1] - p[3 * a + 1];
  const uz = p[3 * b + 2] - p[3 * a + 2];
  const vx = p[3 * c] - p[3 * a];
  const vy = p[3 * c + 1] - p[3 * a + 1];
  const vz = p[3 * c + 2] - p[3 * a + 2];
  const x = uy * vz - uz * vy;
  const y = uz * vx - ux * vz;
  const z = ux * vy - uy * vx;
  return Math.sqrt(x * x + y * y + z * z) / 2;
}

/** Point of the curved triangle at the barycentric coordinates u, v, w, to out[at …]: its quadratic shape functions. */
export function pointOn(
  p: CurvedTriangle,
  u: number,
  v: number,
  w: number,
  out: Float64Array,
  at: number,
): void {
  const a = u * (2 * u - 1);
  const b = v * (2 * v - 1);
  const c = w * (2 * w - 1);
  const d = 4 * u * v;
  const e = 4 * v * w;
  const f = 4 * w * u;
  for (let i = 0; i < 3; i++)
    out[at + i] = a * p[i] + b * p[3 + i] + c * p[6 + i] + d * p[9 + i] + e * p[12 + i] + f * p[15 + i];
}
