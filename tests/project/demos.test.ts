import { describe, expect, it } from "vitest";
import { layUp } from "../../core/layup/lay-up.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { resolveRimPlace } from "../../core/plan/rim-place.ts";
import { faceIdsOf } from "../../core/project/faces.ts";
import type { FeatureSpec, Project, RimPlace, ZoneSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { findTransitions } from "../../core/shell/transitions.ts";
import { demoNames, demoProject } from "./demo-files.ts";

const demos = demoNames.map((name) => ({ name, project: demoProject(name) }));

function built({ shell }: Project): Shell {
  const result = buildShell(shell);
  if (!result.ok) throw new Error(result.refusals.map((each) => `${each.path}: ${each.why}`).join("\n"));
  return result.shell;
}

describe("the demo projects", () => {
  it("are the four birds of the range, each of its size", () => {
    const sizes = demos.map(({ name, project }) => {
      const { length, width } = built(project).outline.extent;
      return [name, Math.round(length / 100) / 10, Math.round(width / 100) / 10];
    });
    expect(sizes).toEqual([
      ["dunlin-4", 4.4, 2.6],
      ["gannet-11", 11, 4.8],
      ["turnstone-7", 7.2, 3.6],
      ["whimbrel-9", 9.1, 3.8],
    ]);
  });

  describe.each(demos)("$name", ({ project }) => {
    it("builds as it is drawn: nothing refused, nothing changed but corners that grow with the draft", () => {
      const { adjustments, faces } = built(project);
      expect(adjustments.filter((each) => !each.id.startsWith("corner/"))).toEqual([]);
      expect(faces.map((face) => face.id)).toEqual(faceIdsOf(project.shell));
    });

    it("carries a full lay-up: bands, ribs, gussets, pads, and stiffeners wherever the rim is straight", () => {
      const kinds = new Set(project.layup.map((zone) => zone.kind));
      const straight = built(project).outline.runs.some((run) => run.kind === "straight");
      for (const kind of ["band", "stroke", "rib-row", "gussets", "pad"] as const)
        expect(kinds).toContain(kind);
      expect(kinds.has("stiffener")).toBe(straight);
      expect(project.layup.length).toBeGreaterThanOrEqual(12);
    });

    it("names only faces and rim runs that the shell has", () => {
      const { faces, outline } = built(project);
      const ids = faces.map((face) => face.id);
      for (const zone of project.layup) {
        for (const face of facesNamed(zone)) expect(ids).toContain(face);
      }
      const places = [
        ...project.shell.features.flatMap(placesOfFeature),
        ...project.layup.flatMap(placesOfZone),
      ];
      for (const fitting of project.shell.fittings) if ("wall" in fitting.at) places.push(fitting.at.wall);
      for (const place of places)
        expect(resolveRimPlace(outline, place)).toEqual({ station: expect.any(Number) });
      expect(places.length).toBeGreaterThan(0);
    });

    it("names only transitions that the lay-up surface has, and every zone finds its place on it", () => {
      const shell = built(project);
      const mesh = meshSurface(shell.field, { quality: "preview" });
      const { transitions } = findTransitions(shell, mesh, project.shop.laidThickness);
      const ids = transitions.map((each) => each.id);
      for (const zone of project.layup) if (zone.kind === "band") expect(ids).toContain(zone.on);
      const { zones, adrift } = layUp(project, shell, { transitions });
      expect(adrift.map((zone) => `${zone.id}: ${zone.why}`)).toEqual([]);
      expect(zones.map((zone) => zone.id)).toEqual(project.layup.map((zone) => zone.id));
      for (const zone of zones) expect(zone.areaMm2).toBeGreaterThan(0);
    });
  });
});

function facesNamed(zone: ZoneSpec): string[] {
  switch (zone.kind) {
    case "band":
      return zone.on === "foot" || zone.on === "rim" ? [] : zone.on.replace(/#\d+$/, "").split("|");
    case "pad":
      return [zone.on];
    case "gussets":
      return [zone.under];
    case "stroke":
      return zone.path.flatMap((place) => ("face" in place ? [place.face] : []));
    default:
      return [];
  }
}

function placesOfFeature({ place }: FeatureSpec): RimPlace[] {
  if (place.kind === "along") return [place.from, place.to];
  return place.kind === "corner" ? [{ run: place.corner, part: 0 }] : [];
}

function placesOfZone(zone: ZoneSpec): RimPlace[] {
  if (zone.kind === "rib") return [zone.at];
  if (zone.kind === "rib-row") return [zone.from, zone.to];
  if (zone.kind === "stiffener") return [{ run: zone.run, part: 0 }];
  return zone.kind === "stroke" ? zone.path.flatMap((place) => ("wall" in place ? [place.wall] : [])) : [];
}
