import type { Field } from "./field.ts";

/**
 * Unit normal of the surface through a point (mm), into the ground, written to out[at…at + 2]. Returns false, and
 * writes zeros, where the gradient vanishes. Allocates nothing.
 */
export function unitNormal(
  field: Field,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
  at = 0,
): boolean {
  field.evaluate(x, y, z);
  const g = field.gradient;
  const size = Math.sqrt(g[0] * g[0] + g[1] * g[1] + g[2] * g[2]);
  if (!(size > 1e-9)) {
    out.fill(0, at, at + 3);
    return false;
  }
  out[at] = g[0] / size;
  out[at + 1] = g[1] / size;
  out[at + 2] = g[2] / size;
  return true;
}
