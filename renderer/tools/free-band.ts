import type { Outline } from "../../core/plan/chain.ts";
import type { SurfacePlace, ZoneSpec } from "../../core/project/schema.ts";
import { faceName } from "../parts/names.ts";
import { placeAt, stationOf } from "./rim-places.ts";
import { fewPoints } from "./stroke-path.ts";
import type { Ground, Place, Tool } from "./tool.ts";

/** A band wherever the brush goes: a drag over the shell lays it along a smooth path through a few places. */
export const freeBandTool: Tool = {
  at: () => null,
  starts: () => true,
  async along(ground, _from, _to, path) {
    const few = fewPoints(path);
    if (few.length < 2) return null;
    const named = few.flatMap(({ place }) => place ?? []);
    const places = named.length === few.length ? named : await ground.placesOf(few);
    // A place that has no name, as on the edge of the coping, is passed over.
    const found = places.filter((place) => place !== null);
    return found.length < 2 ? null : place(ground, found, faceName(few[0].face));
  },
  /** Along the middle of each face; its points are then moved. */
  places: (ground) =>
    ground.shell.faces.flatMap(({ id, kind }) =>
      kind === "tread" || kind === "floor"
        ? [
            place(
              ground,
              [0.2, 0.5, 0.8].map((acrossPart) => ({ face: id, alongPart: 0.5, acrossPart })),
              faceName(id),
            ),
          ]
        : [],
    ),
};

function place({ project, brush }: Ground, path: SurfacePlace[], name: string): Place {
  const { plies, material } = project.rules.stepBand;
  return {
    id: name,
    name,
    lights: null,
    zone: { kind: "stroke", path, width: brush, plies, material },
  };
}

type Stroke = Extract<ZoneSpec, { kind: "stroke" }>;

/** A free band with one point of its path elsewhere. */
export const withPoint = (zone: Stroke, index: number, place: SurfacePlace): Stroke => ({
  ...zone,
  path: zone.path.map((each, i) => (i === index ? place : each)),
});

/** A place moved by mm: along the rim and down on the wall, along and across the pool on other faces (of the size given, mm). */
export function nudged(
  place: SurfacePlace,
  [along, across]: readonly [number, number],
  outline: Outline,
  size: readonly [number, number],
): SurfacePlace {
  const within = (part: number) => Number(Math.min(1, Math.max(0, part)).toFixed(6));
  if ("wall" in place) {
    const station = stationOf(outline, place.wall);
    if (station === null) return place;
    const wall = placeAt(outline, station + along, place.wall);
    return { wall, downPart: within(place.downPart - across / size[1]) };
  }
  return {
    ...place,
    alongPart: within(place.alongPart + along / size[0]),
    acrossPart: within(place.acrossPart + across / size[1]),
  };
}
