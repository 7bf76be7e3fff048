import type { ShellSpec } from "../project/schema.ts";

/** The explicit table of radii: what the project gives for a pair of faces, else the general radius of its kind. */
export interface Radii {
  readonly cove: number;
  /** Re-entrant radius between two faces of features, or a feature and the wall or floor. */
  step(a: string, b: string): number;
  /** Outward radius between a tread and its riser. */
  nose(a: string, b: string): number;
}

export function radiiOf(spec: ShellSpec): Radii {
  const table = new Map<string, number>();
  for (const { between, radius } of spec.radii.pairs) table.set(key(between[0], between[1]), radius);
  return {
    cove: table.get(key("wall", "floor")) ?? spec.radii.cove,
    step: (a, b) => table.get(key(a, b)) ?? spec.radii.step,
    nose: (a, b) => table.get(key(a, b)) ?? spec.radii.nose,
  };
}

/** Rim and lip radii may be given as pairs too. */
export function pairRadius(spec: ShellSpec, a: string, b: string): number | undefined {
  return spec.radii.pairs.find((p) => key(p.between[0], p.between[1]) === key(a, b))?.radius;
}

const key = (a: string, b: string): string => (a < b ? `${a}|${b}` : `${b}|${a}`);
