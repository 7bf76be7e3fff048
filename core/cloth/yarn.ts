import type { FieldNear } from "../surface/bricks.ts";
import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";
import { advanceGeodesic, type Geodesic, newGeodesic, startGeodesic } from "../surface/geodesic.ts";

/** A yarn that a net is hung on: node k lies k spacings along it from its origin, also for negative k. */
export interface Yarn {
  /**
   * Writes point (mm) and unit normal (into the ground) of node k to points[at…at + 2] and normals[at…at + 2]. False where the
   * surface or the curve does not reach so far.
   */
  readonly node: (k: number, points: Float64Array, normals: Float64Array, at: number) => boolean;
}

/** A point on a surface and a direction there: where a yarn begins and how it runs. */
export interface Course {
  /** mm. */
  readonly point: ArrayLike<number>;
  /** Any length; what points out of the surface is left out. */
  readonly direction: ArrayLike<number>;
}

/** Longest step of a geodesic yarn, mm. */
const STEP = 20;

/** The yarn that runs straight along the surface, a node every `spacing` mm. Null where there is no surface at its origin. */
export function geodesicYarn(near: FieldNear, course: Course, spacing: number): Yarn | null {
  const halves = [1, -1].map((sign) => halfGeodesic(near, course, sign, spacing));
  const [ahead, back] = halves;
  if (!ahead || !back) return null;
  return { node: (k, points, normals, at) => (k < 0 ? back : ahead)(Math.abs(k), points, normals, at) };
}

/** The nodes 0, 1, 2 … of a geodesic to one side of its origin, each kept once it is marched to. */
function halfGeodesic(
  near: FieldNear,
  { point, direction }: Course,
  sign: number,
  spacing: number,
): Yarn["node"] | null {
  const geodesic = newGeodesic();
  const [x, y, z] = [point[0], point[1], point[2]];
  const [dx, dy, dz] = [sign * direction[0], sign * direction[1], sign * direction[2]];
  if (!startGeodesic(near(x, y, z), geodesic, x, y, z, dx, dy, dz)) return null;
  const nodes: Geodesic[] = [geodesic.slice(0, 9)];
  let lost = false;
  return (k, points, normals, at) => {
    while (nodes.length <= k && !lost) {
      const field = near(geodesic[0], geodesic[1], geodesic[2]);
      if (advanceGeodesic(field, geodesic, spacing, Math.min(STEP, spacing)))
        nodes.push(geodesic.slice(0, 9));
      else lost = true;
    }
    if (nodes.length <= k) return false;
    for (let c = 0; c < 3; c++) {
      points[at + c] = nodes[k][c];
      normals[at + c] = nodes[k][6 + c];
    }
    return true;
  };
}

/** The yarn laid along a given curve on the surface, its origin at a station (mm) of it; an open curve's yarn ends with it. */
export function curveYarn(near: FieldNear, curve: SurfaceCurve, station: number, spacing: number): Yarn {
  const here = new Float64Array(9);
  return {
    node: (k, points, normals, at) => {
      const s = station + k * spacing;
      if (!curve.closed && (s < -1e-9 || s > curve.length + 1e-9)) return false;
      curvePointAt(curve, s, here);
      curvePointAt(curve, s, here, near(here[0], here[1], here[2]));
      points.set(here.subarray(0, 3), at);
      normals.set(here.subarray(6, 9), at);
      return true;
    },
  };
}
