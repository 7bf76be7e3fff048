import type { FeatureSpec } from "./schema.ts";

/** Names that a feature may not take, since its faces would be taken for these. */
export const reservedIds = ["wall", "floor", "coping"] as const;

/**
 * Ids of a shell's faces in their fixed order: `wall`, `floor`, then the features in the order of the file, each from
 * the top down, then `coping/top` and `coping/lip`. A transition between two faces names them in this order.
 */
export function faceIdsOf(spec: { readonly features: readonly FeatureSpec[] }): string[] {
  return ["wall", "floor", ...spec.features.flatMap(facesOfFeature), "coping/top", "coping/lip"];
}

/** `steps/tread-1`, `steps/riser-1`, `steps/tread-2`, … for steps; `ledge/top`, `ledge/riser` for anything else. */
function facesOfFeature(feature: FeatureSpec): string[] {
  if (feature.kind !== "steps") return [`${feature.id}/top`, `${feature.id}/riser`];
  return feature.treads.flatMap((_, i) => [`${feature.id}/tread-${i + 1}`, `${feature.id}/riser-${i + 1}`]);
}
