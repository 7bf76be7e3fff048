/** The figures of features by which they have more room or less, and features with another figure in place of one. Lengths mm. */
import { type FeatureSpec, limits, type RimPlace } from "../project/shell-schema.ts";
import type { Radii } from "./radii.ts";
import { treadDepths } from "./tread-depths.ts";

type Along = Extract<FeatureSpec["place"], { kind: "along" }>;

/** How far a tier reaches, as the file tells it: of lower treads beyond the one above. */
export interface ReachFigure {
  readonly name: "width" | "reach" | "going";
  readonly value: number;
  /** What the project takes. */
  readonly least: number;
  readonly most: number;
  /** The features with another. */
  readonly changed: (value: number) => FeatureSpec[];
}

/** The figure that says how far the tier with this tread reaches. */
export function reachFigure(features: readonly FeatureSpec[], top: string): ReachFigure {
  const feature = featureOf(features, top);
  const changed = (made: (value: number) => FeatureSpec) => (value: number) =>
    features.map((each) => (each === feature ? made(value) : each));
  if (feature.kind !== "steps") {
    const [least, most] = limits[feature.kind];
    return feature.kind === "bench"
      ? {
          name: "width",
          value: feature.width,
          least,
          most,
          changed: changed((width) => ({ ...feature, width })),
        }
      : {
          name: "reach",
          value: feature.reach,
          least,
          most,
          changed: changed((reach) => ({ ...feature, reach })),
        };
  }
  const index = treadOf(top);
  const treads = (going: number) =>
    feature.treads.map((each, i) => (i === index ? { ...each, going } : each));
  const [least, most] = limits.going;
  const { going } = feature.treads[index];
  return {
    name: "going",
    value: going,
    least,
    most,
    changed: changed((value) => ({ ...feature, treads: treads(value) })),
  };
}

/**
 * The features with the goings down to a tread, or those of the whole flight, cut down so that they come to `together`, each by the
 * same part of what it has beyond the least that leaves its tread level; and what they come to now and at the least.
 */
export function goingsDownTo(features: readonly FeatureSpec[], top: string, radii: Radii, whole = false) {
  const feature = featureOf(features, top);
  const treads = feature.kind === "steps" ? feature.treads : [];
  const index = whole ? treads.length - 1 : treadOf(top);
  const shortest = treadDepths(feature, radii).map((each) => Math.max(limits.going[0], each.least));
  const longest = treads.map(({ going }, i) => Math.max(going, shortest[i]));
  const sum = (goings: readonly number[]) => goings.slice(0, index + 1).reduce((a, b) => a + b, 0);
  const [now, least] = [sum(longest), sum(shortest)];
  const changed = (together: number): FeatureSpec[] => {
    const part = now > least ? (together - least) / (now - least) : 0;
    const cut = (i: number) => shortest[i] + part * (longest[i] - shortest[i]);
    const made = treads.map((each, i) => (i <= index ? { ...each, going: cut(i) } : each));
    return features.map((each) =>
      each === feature && each.kind === "steps" ? { ...each, treads: made } : each,
    );
  };
  return { now, least, changed };
}

/** The depths, the least and the most, that the project takes for a tread; one of a flight stays `riser` mm from those above and below. */
export function depthRange(
  features: readonly FeatureSpec[],
  top: string,
  riser: number,
): readonly [number, number] {
  const feature = featureOf(features, top);
  if (feature.kind !== "steps") return limits[`${feature.kind}Depth`];
  const [above, below] = [feature.treads[treadOf(top) - 1], feature.treads[treadOf(top) + 1]];
  const [least, most] = limits.treadDepth;
  return [
    Math.max(least, above ? above.depth + riser : least),
    Math.min(most, below ? below.depth - riser : most),
  ];
}

/** The features with an end of one elsewhere on its run. */
export function withEnd(
  features: readonly FeatureSpec[],
  id: string,
  end: "from" | "to",
  place: RimPlace,
): FeatureSpec[] {
  return features.map((each) =>
    each.id === id ? { ...each, place: { ...(each.place as Along), [end]: place } } : each,
  );
}

/** The feature that a tread is of. */
export function featureOf(features: readonly FeatureSpec[], top: string): FeatureSpec {
  const feature = features.find(({ id }) => top.startsWith(`${id}/`));
  if (!feature) throw new RangeError(`${top} is of no feature.`);
  return feature;
}

const treadOf = (top: string): number => Number(top.slice(top.lastIndexOf("-") + 1)) - 1;
