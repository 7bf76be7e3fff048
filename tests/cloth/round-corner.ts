import type { SurfaceCurve } from "../../core/surface/curve.ts";
import type { Field } from "../../core/surface/field.ts";
import { fieldOf } from "../surface/closed-fields.ts";

/** Wall and floor that meet in a plan corner of `plan` mm with a cove of `cove` mm round it: a box's corner, rounded. */
export function roundCorner(plan: number, cove: number): Field {
  // In the corner's own frame the wall is at distance 0, straight for x < 0 or y < 0, and the floor at z = 0, the water above it.
  return fieldOf((x, y, z, g) => {
    const [dx, dy] = [Math.max(0, x), Math.max(0, y)];
    const bend = dx > 0 && dy > 0;
    const rho = bend ? Math.hypot(dx, dy) : Math.max(x, y);
    const [nx, ny] = bend ? [dx / rho, dy / rho] : x > y ? [1, 0] : [0, 1];
    const u = rho - plan + cove;
    const v = cove - z;
    if (u > 0 && v > 0) {
      const q = Math.hypot(u, v);
      g[0] = (u / q) * nx;
      g[1] = (u / q) * ny;
      g[2] = -v / q;
      return q - cove;
    }
    const wall = rho - plan > -z;
    g[0] = wall ? nx : 0;
    g[1] = wall ? ny : 0;
    g[2] = wall ? 0 : -1;
    return wall ? rho - plan : -z;
  });
}

/** The line in the middle of that cove, from 700 mm before the corner to as far behind it. */
export function levelLine(plan: number, cove: number): SurfaceCurve {
  const out = plan - cove + cove * Math.SQRT1_2;
  const z = cove - cove * Math.SQRT1_2;
  const straight = 700;
  const quarter = (Math.PI / 2) * out;
  const at = (s: number): [number, number, number, number] => {
    if (s < straight) return [out, s - straight, 1, 0];
    if (s > straight + quarter) return [straight + quarter - s, out, 0, 1];
    const a = (s - straight) / out;
    return [out * Math.cos(a), out * Math.sin(a), Math.cos(a), Math.sin(a)];
  };
  const count = 161;
  const length = 2 * straight + quarter;
  const places = Array.from({ length: count }, (_, i) => at((length * i) / (count - 1)));
  const rows = (row: (place: [number, number, number, number]) => number[]) =>
    Float64Array.from(places.flatMap(row));
  return {
    points: rows(([x, y]) => [x, y, z]),
    tangents: rows(([, , nx, ny]) => [-ny, nx, 0]),
    normals: rows(([, , nx, ny]) => [nx * Math.SQRT1_2, ny * Math.SQRT1_2, -Math.SQRT1_2]),
    stations: Float64Array.from(places, (_, i) => (length * i) / (count - 1)),
    length,
    closed: false,
  };
}
