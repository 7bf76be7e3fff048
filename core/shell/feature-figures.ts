/** The figures of features by which they have more room or less, and features with another figure in place of one. Lengths mm. */
import { type FeatureSpec, limits, type RimPlace } from "../project/shell-schema.ts";

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
 * same part of what it has beyond the least going; and what they come to now and at the least.
 */
export function goingsDownTo(features: readonly FeatureSpec[], top: string, whole = false) {
  const feature = featureOf(features, top);
  const treads = feature.kind === "steps" ? feature.treads : [];
  const index = whole ? treads.length - 1 : treadOf(top);
  const now = treads.slice(0, index + 1).reduce((sum, { going }) => sum + going, 0);
  const [shortest] = limits.going;
  const least = shortest * (index + 1);
  const changed = (together: number): FeatureSpec[] => {
    const part = now > least ? (together - least) / (now - least) : 0;
    const cut = (going: number) => shortest + part * (going - shortest);
    const made = treads.map((each, i) => (i <= index ? { ...each, going: cut(each.going) } : each));
    return features.map((each) =>
      each === feature && each.kind === "steps" ? { ...each, treads: made } : each,
    );
  };
  return { now, least, changed };
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

function featureOf(features: readonly FeatureSpec[], top: string): FeatureSpec {
  const feature = features.find(({ id }) => top.startsWith(`${id}/`));
  if (!feature) throw new RangeError(`${top} is of no feature.`);
  return feature;
}

const treadOf = (top: string): number => Number(top.slice(top.lastIndexOf("-") + 1)) - 1;
