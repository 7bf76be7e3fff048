import type { Project, SurfacePlace, ZoneSpec } from "./schema.ts";

/**
 * A project with one of its features under another name, and all that speaks of its faces with it: radii between faces, and
 * the transitions, treads and paths of zones. The name itself is checked where projects are (`checkProject`).
 */
export function renameFeature(project: Project, from: string, to: string): Project {
  const face = (id: string) => (id.startsWith(`${from}/`) ? `${to}${id.slice(from.length)}` : id);
  const { shell, layup } = project;
  return {
    ...project,
    shell: {
      ...shell,
      features: shell.features.map((each) => (each.id === from ? { ...each, id: to } : each)),
      radii: {
        ...shell.radii,
        pairs: shell.radii.pairs.map(({ between: [a, b], radius }) => ({
          between: [face(a), face(b)],
          radius,
        })),
      },
    },
    layup: layup.map((zone) => renamedIn(zone, face)),
  };
}

function renamedIn(zone: ZoneSpec, face: (id: string) => string): ZoneSpec {
  const onSurface = (place: SurfacePlace): SurfacePlace =>
    "face" in place ? { ...place, face: face(place.face) } : place;
  switch (zone.kind) {
    case "band":
      // A transition names its two faces; the number of one of several such lines stays at its end.
      return { ...zone, on: zone.on.split("|").map(face).join("|") };
    case "gussets":
      return { ...zone, under: face(zone.under) };
    case "pad":
      return { ...zone, on: face(zone.on) };
    case "stroke":
      return { ...zone, path: zone.path.map(onSurface) };
    default:
      return zone;
  }
}
