import type { Figure } from "../plan/outlines/corner-figure.ts";
import type { ShellSpec } from "../project/schema.ts";

type Kind = "cove" | "step" | "nose";

const CALLED = { cove: "a cove", step: "a step radius", nose: "a nose" } as const;

/** The explicit table of radii: what the project gives for a pair of faces, else the general radius of its kind. */
export interface Radii {
  readonly cove: number;
  /** Outward radius from the wall to the coping. */
  readonly rim: number;
  /** Re-entrant radius of edges for which no pair is given. */
  readonly general: number;
  /** What the project gives for this very pair of faces, in either order. */
  given(a: string, b: string): number | undefined;
  /** Re-entrant radius between two faces of features, or a feature and the wall or floor. */
  step(a: string, b: string): number;
  /** Outward radius between a tread and its riser. */
  nose(a: string, b: string): number;
  /** The figure that sets the radius of this pair: its own where one is given, else the one of its kind. */
  figure(a: string, b: string, kind: Kind): Figure;
  /** How that figure is called in a sentence. */
  called(a: string, b: string, kind: Kind): string;
}

export function radiiOf(spec: ShellSpec): Radii {
  const table = new Map<string, number>();
  for (const { between, radius } of spec.radii.pairs) table.set(key(between[0], between[1]), radius);
  const given = (a: string, b: string) => table.get(key(a, b));
  // Of two entries for one pair the later counts.
  const entry = (a: string, b: string) =>
    spec.radii.pairs.findLastIndex(({ between }) => key(between[0], between[1]) === key(a, b));
  return {
    cove: given("wall", "floor") ?? spec.radii.cove,
    rim: given("wall", "coping/top") ?? spec.coping.rimRadius,
    general: spec.radii.step,
    given,
    step: (a, b) => given(a, b) ?? spec.radii.step,
    nose: (a, b) => given(a, b) ?? spec.radii.nose,
    called: (a, b, kind) => (given(a, b) === undefined ? CALLED[kind] : `a radius between ${a} and ${b}`),
    figure: (a, b, kind) => {
      const value = given(a, b);
      return value === undefined
        ? { path: `shell.radii.${kind}`, value: spec.radii[kind] }
        : { path: `shell.radii.pairs[${entry(a, b)}].radius`, value };
    },
  };
}

const key = (a: string, b: string): string => (a < b ? `${a}|${b}` : `${b}|${a}`);

/** The two faces of a tier of a feature. */
interface Tier {
  readonly top: string;
  readonly riser: string;
}

/** Radius between two tiers, or a tier and the floor (`b` null): the largest given for a pair of their faces. */
export function betweenBlocks(radii: Radii, a: Tier, b: Tier | null): number {
  const others = b ? [b.top, b.riser] : ["floor"];
  const given = [a.top, a.riser].flatMap((f) => others.map((o) => radii.step(f, o)));
  const special = given.filter((r) => r !== radii.general);
  return special.length > 0 ? Math.max(...special) : radii.general;
}
