import { curvePointAt, type SurfaceCurve, spanAt } from "./curve.ts";
import type { Field } from "./field.ts";
import { type Plane, PlaneMarch, type Section, type SectionOptions } from "./plane-march.ts";

export type { Plane, Section, SectionOptions } from "./plane-march.ts";

/**
 * Marches the curve in which the surface {field = 0} cuts a plane, from the point of it nearest to `start`. Every point
 * lies on both within 1e-9 mm, with the exact tangent; lengths go from chord to arc by the turn of the tangents, and a
 * step is halved until it turns by less than 0.1 rad and the error that a change of curvature within it can make
 * (Δθ²·h/100) is below 2e-4 mm. Returns null if no point of the section lies within 300 mm of the start.
 */
export function section(
  field: Field,
  plane: Plane,
  start: ArrayLike<number>,
  options: SectionOptions,
): Section | null {
  return new PlaneMarch(field, plane).run(start, options);
}

/** Turning (rad) at a station, by interpolation between the section's points. */
function turningAt(curve: Section, station: number): number {
  const at = Math.min(Math.max(station, 0), curve.length);
  const i = spanAt(curve, at);
  const j = Math.min(i + 1, curve.stations.length - 1);
  const span = curve.stations[j] - curve.stations[i];
  if (!(span > 0)) return curve.turning[i];
  return curve.turning[i] + ((curve.turning[j] - curve.turning[i]) * (at - curve.stations[i])) / span;
}

/**
 * Length (mm) of the curve `offset` mm outwards (towards the ground) of an open section between two of its stations:
 * ∫(1 + κh) ds = length + h·turning. For a rib, h is half its thickness and this is the length at mid-core; over a cove
 * it is longer than on the surface, over a nose shorter.
 */
export function offsetLength(curve: Section, offset: number, from = 0, to = curve.length): number {
  return to - from + offset * (turningAt(curve, to) - turningAt(curve, from));
}

/**
 * The section as a flat outline in its plane: pairs (a, b) with point = origin + a·u + b·v, mm; as many points as keep
 * the chords within `sagitta` mm of the curve. For the webs of gussets and for templates.
 */
export function sectionPolyline(curve: SurfaceCurve, plane: Plane, sagitta = 0.1): Float64Array {
  const out: number[] = [];
  const point = new Float64Array(9);
  const push = (station: number) => {
    curvePointAt(curve, station, point);
    let a = 0;
    let b = 0;
    for (let c = 0; c < 3; c++) {
      a += (point[c] - plane.origin[c]) * plane.u[c];
      b += (point[c] - plane.origin[c]) * plane.v[c];
    }
    out.push(a, b);
  };
  const count = curve.stations.length;
  for (let i = 0; i < (curve.closed ? count : count - 1); i++) {
    const j = (i + 1) % count;
    const from = curve.stations[i];
    const to = j === 0 ? curve.length : curve.stations[j];
    let turn = 0;
    for (let c = 0; c < 3; c++) turn += (curve.tangents[3 * j + c] - curve.tangents[3 * i + c]) ** 2;
    // Sagitta of n chords over an arc of length h that turns by θ: hθ/(8n²).
    const parts = Math.max(1, Math.ceil(Math.sqrt(((to - from) * Math.sqrt(turn)) / (8 * sagitta))));
    for (let n = 0; n < parts; n++) push(from + ((to - from) * n) / parts);
  }
  if (!curve.closed) push(curve.length);
  return Float64Array.from(out);
}
