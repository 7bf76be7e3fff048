import type { Field } from "../surface/field.ts";
import { type Plane, type Section, type SectionOptions, section } from "../surface/section.ts";

/** A march that takes more points than this has met a tear of the surface and goes to and fro there. */
const MOST_POINTS = 4000;

/**
 * Marches a plane section of the lay-up surface; null where there is none, or where a tear in the surface holds the march: a
 * zone is then told to be lost, and does not hold up all the others.
 */
export function march(
  field: Field,
  plane: Plane,
  start: ArrayLike<number>,
  options: SectionOptions,
): Section | null {
  const { stop } = options;
  let looks = 0;
  const patient = (x: number, y: number, z: number) => (++looks > MOST_POINTS ? 1 : (stop?.(x, y, z) ?? -1));
  const found = section(field, plane, start, { ...options, stop: patient });
  return looks > MOST_POINTS ? null : found;
}
