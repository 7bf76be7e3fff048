import type { SurfaceCurve } from "../surface/curve.ts";
import type { Field } from "../surface/field.ts";
import { unitNormal } from "../surface/normal.ts";

/** How far to each side of the line the surface's normals are compared, mm. */
const ASIDE = 1;

/**
 * How sharply the surface bends across a line, 1/mm, the mean of five places: positive where the edge is re-entrant (the
 * pool side is the hollow one), negative where it turns outwards.
 */
export function bendAcross(field: Field, curve: SurfaceCurve): number {
  const count = curve.stations.length;
  const ahead = new Float64Array(3);
  const behind = new Float64Array(3);
  let sum = 0;
  for (let k = 1; k <= 5; k++) {
    const i = 3 * Math.min(count - 1, Math.round((k * count) / 6));
    const [x, y, z] = curve.points.subarray(i, i + 3);
    const [tx, ty, tz] = curve.tangents.subarray(i, i + 3);
    const [nx, ny, nz] = curve.normals.subarray(i, i + 3);
    const lx = ny * tz - nz * ty;
    const ly = nz * tx - nx * tz;
    const lz = nx * ty - ny * tx;
    unitNormal(field, x + ASIDE * lx, y + ASIDE * ly, z + ASIDE * lz, ahead);
    unitNormal(field, x - ASIDE * lx, y - ASIDE * ly, z - ASIDE * lz, behind);
    sum += (ahead[0] - behind[0]) * lx + (ahead[1] - behind[1]) * ly + (ahead[2] - behind[2]) * lz;
  }
  return sum / (10 * ASIDE);
}
