import { resolveRimPlace } from "../plan/rim-place.ts";
import type { RimPlace, SurfacePlace } from "../project/schema.ts";
import { curvePointAt } from "../surface/curve.ts";
import { projectOnto } from "../surface/project.ts";
import { type Astray, isAstray, unknownFace, unknownName } from "./adrift.ts";
import { featuresOf, type Site } from "./site.ts";

/** The rim station (mm) of a place on a named run, or why this outline has no such place. */
export function stationOf(site: Site, place: RimPlace): { readonly station: number } | Astray {
  const { outline } = site.shell;
  const runs = outline.runs.map((run) => run.id);
  if (!runs.includes(place.run)) return unknownName("run of the rim", place.run, runs);
  const found = resolveRimPlace(outline, place);
  if ("station" in found) return found;
  return {
    why: found.error,
    mend: "Give the place as a part of its run, from 0 to 1, and it will follow any size.",
  };
}

/** A point of the lay-up surface (mm) with the face that owns it. */
export interface SurfacePoint {
  readonly point: readonly [number, number, number];
  readonly face: string;
}

/**
 * The point of the lay-up surface at a place told by names and proportions, or why there is none. On the wall `downPart` runs
 * down the section square to the rim, from 0 at the rim to 1 at the foot line; on any other face the parts are of its plan box,
 * along from the shallow end and across from the right side.
 */
export function surfacePoint(site: Site, place: SurfacePlace): SurfacePoint | Astray {
  if ("wall" in place) return onWall(site, place.wall, place.downPart);
  const faces = site.shell.faces.map((face) => face.id);
  if (!faces.includes(place.face)) return unknownFace("face", place.face, faces, featuresOf(site));
  if (place.face === "wall") {
    return {
      why: "A place on the wall is told by its run and by how far down it lies.",
      mend: "Give it as wall and downPart.",
    };
  }
  const box = planBox(site, place.face);
  if (!box) {
    return {
      why: `${place.face} is not to be seen on this shell.`,
      mend: "Bring the face back into sight, or place the point on another one.",
    };
  }
  const x = box.minX + place.alongPart * (box.maxX - box.minX);
  const y = box.minY + place.acrossPart * (box.maxY - box.minY);
  return dropOnto(site, x, y);
}

function onWall(site: Site, rim: RimPlace, downPart: number): SurfacePoint | Astray {
  const place = stationOf(site, rim);
  if (isAstray(place)) return place;
  const wall = site.wallAt(place.station);
  if (isAstray(wall)) return wall;
  const at = new Float64Array(9);
  curvePointAt(wall.curve, downPart * wall.foot, at);
  return { point: [at[0], at[1], at[2]], face: "wall" };
}

/** The box in plan that holds a face, from the lines that bound it; null where it is not to be seen. */
export function planBox(site: Site, face: string) {
  const box = { minX: Infinity, maxX: -Infinity, minY: Infinity, maxY: -Infinity };
  for (const { between, curve } of site.transitions) {
    if (!between.includes(face)) continue;
    for (let i = 0; i < curve.points.length; i += 3) {
      box.minX = Math.min(box.minX, curve.points[i]);
      box.maxX = Math.max(box.maxX, curve.points[i]);
      box.minY = Math.min(box.minY, curve.points[i + 1]);
      box.maxY = Math.max(box.maxY, curve.points[i + 1]);
    }
  }
  return box.maxX > box.minX && box.maxY > box.minY ? box : null;
}

/** The point of the surface plumb below a plan point: down through the water by as much as is sure to be free. */
function dropOnto(site: Site, x: number, y: number): SurfacePoint | Astray {
  const { field } = site;
  let z = 0;
  let free = field.evaluate(x, y, z);
  for (let round = 0; round < 200 && free < -1e-3; round++) {
    z += free;
    free = field.evaluate(x, y, z);
  }
  const point = Float64Array.of(x, y, z);
  if (Math.abs(free) > 60 || !projectOnto(site.near(x, y, z), point, 0, 1e-7)) {
    return {
      why: `There is no surface below the plan point (${Math.round(x)}, ${Math.round(y)}) mm.`,
      mend: "Move the point to where the face is.",
    };
  }
  const local = site.near(point[0], point[1], point[2]);
  const owner = local.owner(local.shares(point[0], point[1], point[2]));
  return { point: [point[0], point[1], point[2]], face: local.faces[owner] };
}
