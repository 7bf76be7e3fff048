import { describe, expect, it } from "vitest";
import { layUp } from "../../core/layup/lay-up.ts";
import type { FootprintSpec, Project, RimPlace, SurfacePlace, ZoneSpec } from "../../core/project/schema.ts";
import { demoProject } from "../project/demo-files.ts";
import { groundOf } from "./ground.ts";

/** A run of a rectangle as its mirror image in the centre line calls it. */
const mirroredRun = (run: string): string =>
  run.replace(/left|right/, (side) => (side === "left" ? "right" : "left"));

/** Runs go counter-clockwise in the mirror too, so parts count from the other end. */
function mirroredPlace(place: RimPlace): RimPlace {
  if (!("part" in place)) throw new Error("only places by part are mirrored here");
  return { run: mirroredRun(place.run), part: 1 - place.part };
}

function mirroredFootprint(place: FootprintSpec): FootprintSpec {
  switch (place.kind) {
    case "along":
      return { ...place, from: mirroredPlace(place.to), to: mirroredPlace(place.from) };
    case "corner":
      return { ...place, corner: mirroredRun(place.corner) };
    default:
      return place;
  }
}

const mirroredSurface = (place: SurfacePlace): SurfacePlace =>
  "wall" in place
    ? { ...place, wall: mirroredPlace(place.wall) }
    : { ...place, acrossPart: 1 - place.acrossPart };

function mirroredZone(zone: ZoneSpec): ZoneSpec {
  switch (zone.kind) {
    case "rib":
      return { ...zone, at: mirroredPlace(zone.at) };
    case "rib-row":
      return { ...zone, from: mirroredPlace(zone.to), to: mirroredPlace(zone.from) };
    case "stroke":
      return { ...zone, path: zone.path.map(mirroredSurface) };
    case "stiffener":
      return { ...zone, run: mirroredRun(zone.run) };
    default:
      return zone;
  }
}

/** A project on a rectangle with one corner radius as seen in a mirror on the centre line; names stay. */
function mirrored(project: Project): Project {
  const { shell } = project;
  return {
    ...project,
    shell: {
      ...shell,
      floor: { ...shell.floor, crossFall: -shell.floor.crossFall },
      features: shell.features.map((each) => ({ ...each, place: mirroredFootprint(each.place) })),
      fittings: shell.fittings.map((each) => ({
        ...each,
        at:
          "wall" in each.at
            ? { ...each.at, wall: mirroredPlace(each.at.wall) }
            : { floor: { ...each.at.floor, acrossPart: 1 - each.at.floor.acrossPart } },
      })),
    },
    layup: project.layup.map(mirroredZone),
  };
}

describe("a mirrored pool", () => {
  it.each(["dunlin-4"])("has the mirrored lay-up: %s", (name) => {
    const lay = (project: Project) => {
      const { shell, transitions } = groundOf(project);
      return layUp(project, shell, { transitions });
    };
    const here = lay(demoProject(name));
    const there = lay(mirrored(demoProject(name)));
    expect(there.adrift.map(({ id }) => id)).toEqual(here.adrift.map(({ id }) => id));
    expect(there.zones.map(({ id }) => id)).toEqual(here.zones.map(({ id }) => id));
    here.zones.forEach((zone, i) => {
      const other = there.zones[i];
      expect(Math.abs(other.areaMm2 / zone.areaMm2 - 1), `area of ${zone.id}`).toBeLessThan(2e-4);
      expect(Math.abs(other.lengthMm / zone.lengthMm - 1), `length of ${zone.id}`).toBeLessThan(2e-5);
      expect(other.doubts.length, `doubts of ${zone.id}`).toBe(zone.doubts.length);
    });
  });
});
