import { type Contest, sideShare } from "./contest.ts";
import { curvePointAt, type SurfaceCurve } from "./curve.ts";
import type { Field } from "./field.ts";
import { section } from "./section.ts";

/** A share this small is none. */
const NONE = 1e-9;
/** No blend of a shell reaches further, mm. */
const FURTHEST = 1500;

/**
 * How far the blend reaches from a point of a transition, mm along the surface, square to the transition: to where
 * the faces of the other side no longer make the surface at all (the tangent line of the radius). Side 0 is the contest's
 * first (the curve's left), side 1 its second. Null if that is not within 1500 mm.
 */
export function blendReach(
  field: Field,
  contest: Contest,
  curve: SurfaceCurve,
  station: number,
  side: 0 | 1,
): number | null {
  const at = new Float64Array(9);
  curvePointAt(curve, station, at, field);
  const [x, y, z, tx, ty, tz, nx, ny, nz] = at;
  // Left is normal × tangent.
  const left = [ny * tz - nz * ty, nz * tx - nx * tz, nx * ty - ny * tx] as const;
  const sign = side === 0 ? 1 : -1;
  const other = side === 0 ? 1 : 0;
  const path = section(field, { origin: [x, y, z], u: left, v: [nx, ny, nz] }, [x, y, z], {
    direction: left.map((v) => sign * v),
    stepMm: 10,
    lengthMm: FURTHEST,
    stop: (px, py, pz) => NONE - sideShare(field, contest, other, px, py, pz),
  });
  return path?.ended === "stop" ? path.length : null;
}
