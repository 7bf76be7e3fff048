/** Profiles along the pool of floors and of full-width steps and ledges: polylines from the figures, their corners rounded. */
import type { Chain } from "../../core/plan/chain.ts";
import type { FeatureSpec, ShellSpec } from "../../core/project/schema.ts";
import { type ProfileCorner, roundedProfile } from "./rounded-profile.ts";

/** Profiles run this far past the pool, mm. */
const PAST = 3000;

/** The floor's profile, running on at its first and last slope; across a fall its depths are less by the fall's cosine. */
export function floorProfile({ floor }: ShellSpec, length: number): Chain {
  const cos = Math.cos(Math.atan(floor.crossFall / 1000));
  const points = floor.stations.map(({ at, depth }) => ({ at, depth: depth * cos }));
  if (points.length === 1) points.push({ ...points[0], at: points[0].at + 1000 });
  const last = points.length - 1;
  const slope = (i: number) => (points[i + 1].depth - points[i].depth) / (points[i + 1].at - points[i].at);
  const endAt = (at: number, i: number, slopeOf: number): ProfileCorner => ({
    at,
    depth: points[i].depth + slope(slopeOf) * (at - points[i].at),
    radius: 0,
  });
  const isBreak = (i: number) => i > 0 && i < last && Math.abs(slope(i) - slope(i - 1)) > 1e-9;
  return roundedProfile([
    endAt(-PAST, 0, 0),
    ...points.filter((_, i) => isBreak(i)).map((p) => ({ ...p, radius: floor.breakRadius })),
    endAt(length + PAST, last, last - 1),
  ]);
}

/**
 * The profile of full-width steps or a ledge at one end: treads with drafted risers, noses and the radii between; and
 * whether a station of it lies on its last riser below the nose, where it meets the floor.
 */
export function endProfile(
  feature: FeatureSpec,
  spec: ShellSpec,
  length: number,
  bottom: number,
): { profile: Chain; foot: (station: number) => boolean } {
  const { place } = feature;
  if (place.kind !== "end" || feature.kind === "bench" || feature.kind === "seat")
    throw new Error(`${feature.id}: only steps and ledges over a full end here`);
  const tan = Math.tan((spec.draftDeg * Math.PI) / 180);
  const treads = feature.kind === "ledge" ? [{ depth: feature.depth, going: feature.reach }] : feature.treads;
  const between = (i: number) => {
    const pair = [`${feature.id}/riser-${i}`, `${feature.id}/tread-${i + 1}`];
    return (
      spec.radii.pairs.find((p) => pair.every((face) => p.between.includes(face)))?.radius ?? spec.radii.step
    );
  };
  // From the end of the pool inwards.
  const corners: ProfileCorner[] = [{ at: -PAST, depth: treads[0].depth, radius: 0 }];
  let reach = 0;
  treads.forEach(({ depth, going }, i) => {
    if (i > 0) corners.push({ at: reach + (depth - treads[i - 1].depth) * tan, depth, radius: between(i) });
    reach += going;
    corners.push({ at: reach, depth, radius: spec.radii.nose });
  });
  const deepest = 1000 - bottom;
  corners.push({ at: reach + (deepest - treads[treads.length - 1].depth) * tan, depth: deepest, radius: 0 });
  if (place.end === "shallow") {
    const profile = roundedProfile(corners);
    const from = profile.stations[profile.segments.length - 1];
    return { profile, foot: (station) => station > from + 1 };
  }
  const profile = roundedProfile(corners.map((c) => ({ ...c, at: length - c.at })).reverse());
  const to = profile.stations[1];
  return { profile, foot: (station) => station < to - 1 };
}
