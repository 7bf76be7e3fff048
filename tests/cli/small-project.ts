import { defaultProject } from "../../core/project/defaults.ts";
import type { Project, ZoneSpec } from "../../core/project/schema.ts";

/** A plain pool with a flat floor and one zone of most kinds: quick to build, lay up and cut. */
export function smallProject(more: readonly ZoneSpec[] = []): Project {
  const project = defaultProject();
  const floor = { ...project.shell.floor, stations: [{ at: 0, depth: 1300 }] };
  return {
    ...project,
    name: "Knot 5",
    shell: {
      ...project.shell,
      outline: { kind: "rectangle", length: 5000, width: 2600, cornerRadius: 600 },
      floor,
      features: [],
    },
    layup: [
      { kind: "band", id: "foot", on: "foot", halfWidths: [250, 250], plies: 2, material: "woven-800" },
      {
        kind: "rib-row",
        id: "ribs-left",
        from: { run: "left", part: 0 },
        to: { run: "left", part: 1 },
        pitch: 900,
        clear: 150,
        top: 60,
        foot: { kind: "over", onto: 150 },
        material: "rib-strip",
      },
      { kind: "stiffener", id: "stiffener-left", run: "left", margin: 100, material: "rib-strip" },
      ...more,
    ],
  };
}

/** A zone that finds no place on the small project's shell. */
export const lostZone: ZoneSpec = {
  kind: "band",
  id: "bench-rise",
  on: "wall|bench/top",
  halfWidths: [100, 100],
  plies: 1,
  material: "woven-600",
};
