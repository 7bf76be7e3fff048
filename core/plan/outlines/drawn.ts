import { limits } from "../../project/shell-schema.ts";
import type { Chain } from "../chain.ts";

/** The smallest plan radius that the project takes, mm: a plug is not made with a tighter one. */
export const LEAST_RADIUS = limits.cornerRadius[0];

/** Why an outline cannot be built: the field's path in the project file, its value, and what would work. */
export interface OutlineRefusal {
  readonly path: string;
  readonly value: unknown;
  readonly why: string;
  readonly wouldWork: string;
}

/**
 * A closed outline as its kind draws it: anywhere in the plane, in either direction, from any start. `names[i]` is the
 * id of the run that segment i belongs to.
 */
export type Drawn =
  | { readonly ok: true; readonly chain: Chain; readonly names: readonly string[] }
  | { readonly ok: false; readonly refusals: readonly OutlineRefusal[] };

/** Path in the project file of a field of the outline, e.g. `at("points", 3)` is `shell.outline.points[3]`. */
export function at(field: string, index?: number): string {
  return index === undefined ? `shell.outline.${field}` : `shell.outline.${field}[${index}]`;
}

/** A length as people write it: whole tenths, rounded down, so that a figure that is said to fit does fit. */
export function atMost(mm: number): string {
  return `${Math.floor(mm * 10 + 1e-6) / 10} mm`;
}

/** As `atMost`, but rounded up. */
export function atLeast(mm: number): string {
  return `${Math.ceil(mm * 10 - 1e-6) / 10} mm`;
}
