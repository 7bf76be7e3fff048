import type { Figure } from "../plan/outlines/corner-figure.ts";
import type { FeatureSpec } from "../project/schema.ts";
import { tiersOf } from "./blocks.ts";
import type { Radii } from "./radii.ts";

/** So much of every tread is left level at least, mm. */
export const LEAST_TREAD = 10;

/** A tread of a feature by what takes up its depth from back to nose, mm. */
export interface TreadDepth {
  readonly feature: string;
  readonly top: string;
  readonly riser: string;
  /** The face that it goes back to. */
  readonly behind: string;
  readonly back: number;
  readonly nose: number;
  /** The least depth that leaves something level. */
  readonly least: number;
  readonly reaches: Figure;
}

/** The treads of a feature, from the top down; `path` leads to the feature. */
export function treadDepths(feature: FeatureSpec, radii: Radii, path = ""): TreadDepth[] {
  return tiersOf(feature, path).map(({ top, riser, reaches }, i, tiers) => {
    const behind = i === 0 ? "wall" : tiers[i - 1].riser;
    const [back, nose] = [radii.step(top, behind), radii.nose(top, riser)];
    const least = Math.ceil(back + nose + LEAST_TREAD);
    return { feature: feature.id, top, riser, behind, back, nose, least, reaches };
  });
}

export const isShort = ({ least, reaches }: TreadDepth): boolean => Number(reaches.value) < least;

/** Treads of which nothing level is left. */
export const shortTreads = (features: readonly FeatureSpec[], radii: Radii): TreadDepth[] =>
  features.flatMap((feature) => treadDepths(feature, radii).filter(isShort));
