import type { SurfaceMesh } from "./mesh.ts";
import type { MeshEdges } from "./mesh-edges.ts";

/**
 * A mesh triangle bent to follow the surface: corners 0, 1, 2 and the middles 3 (of 0–1), 4 (of 1–2), 5 (of 2–0) of its
 * edges, x y z each. Measures taken on the triangle and on its four quarters can be extrapolated.
 */
export type CurvedTriangle = Float64Array;

export function makeCurvedTriangle(): CurvedTriangle {
  return new Float64Array(18);
}

/** Writes triangle t (its first half-edge) to `out`; `middles` as of `curvedMiddles`. */
export function curve(
  mesh: SurfaceMesh,
  edges: MeshEdges,
  middles: Float64Array,
  t: number,
  out: CurvedTriangle,
): void {
  for (let i = 0; i < 3; i++) {
    const v = 3 * mesh.triangles[t + i];
    const e = 3 * edges.edgeOf[t + i];
    for (let c = 0; c < 3; c++) {
      out[3 * i + c] = mesh.positions[v + c];
      out[9 + 3 * i + c] = middles[e + c];
    }
  }
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
