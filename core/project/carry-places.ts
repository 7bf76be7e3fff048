import type { FeatureSpec, FittingSpec, Project, RimPlace, SurfacePlace, ZoneSpec } from "./schema.ts";

/** How names of the rim go over to another outline: each place on a run, and each run that is named as a whole. */
export interface Carry {
  place(place: RimPlace): RimPlace;
  run(id: string): string;
}

/** Whatever of a project is placed by the rim: features, fittings and zones, with their places carried over. */
export function carryPlaces(project: Project, carry: Carry): Pick<Project, "shell" | "layup"> {
  const { shell, layup } = project;
  return {
    shell: {
      ...shell,
      features: shell.features.map((feature) => carriedFeature(feature, carry)),
      fittings: shell.fittings.map((fitting) => carriedFitting(fitting, carry)),
    },
    layup: layup.map((zone) => carriedZone(zone, carry)),
  };
}

function carriedFeature(feature: FeatureSpec, carry: Carry): FeatureSpec {
  const { place } = feature;
  if (place.kind === "corner") return { ...feature, place: { ...place, corner: carry.run(place.corner) } };
  if (place.kind !== "along") return feature;
  return { ...feature, place: { ...place, from: carry.place(place.from), to: carry.place(place.to) } };
}

function carriedFitting(fitting: FittingSpec, carry: Carry): FittingSpec {
  const { at } = fitting;
  return "wall" in at ? { ...fitting, at: { ...at, wall: carry.place(at.wall) } } : fitting;
}

function carriedZone(zone: ZoneSpec, carry: Carry): ZoneSpec {
  const onSurface = (place: SurfacePlace): SurfacePlace =>
    "wall" in place ? { ...place, wall: carry.place(place.wall) } : place;
  switch (zone.kind) {
    case "rib":
      return { ...zone, at: carry.place(zone.at) };
    case "rib-row":
      return { ...zone, from: carry.place(zone.from), to: carry.place(zone.to) };
    case "stroke":
      return { ...zone, path: zone.path.map(onSurface) };
    case "stiffener":
      return { ...zone, run: carry.run(zone.run) };
    default:
      return zone;
  }
}
