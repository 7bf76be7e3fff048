import type { Outline } from "../../core/plan/chain.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { faceName } from "../parts/names.ts";
import { words } from "../words.ts";
import { layRib, layRow } from "./ribs.ts";
import type { Aim, Place, Tool } from "./tool.ts";

/** Ribs stand on whole steps of the tape, mm. */
const STEP = 10;

/** A rib up the wall: a click lays one, a drag along the wall a row of them at the pitch of the house rules. */
export const ribTool: Tool = {
  at({ project, outline }, aim) {
    if (aim.face !== "wall") return null;
    return place(outline, layRib(project, outline, stationAt(outline, aim)));
  },
  along({ project, outline }, from, to) {
    if (from.face !== "wall") return null;
    const { length } = outline.chain;
    const start = stationAt(outline, from);
    const by = stationAt(outline, to) - start;
    // The shorter way round.
    return place(outline, layRow(project, outline, start, start + by - Math.round(by / length) * length));
  },
  places: ({ project, outline }) =>
    outline.runs.flatMap((run): Place[] => [
      {
        id: `${run.id} one`,
        name: words.floor.oneRib(faceName(run.id)),
        zone: layRib(project, outline, run.from + run.length / 2),
        lights: null,
      },
      ...(run.kind === "straight"
        ? [
            {
              id: `${run.id} row`,
              name: words.floor.rowOfRibs(faceName(run.id)),
              zone: layRow(project, outline, run.from, run.from + run.length),
              lights: null,
            },
          ]
        : []),
    ]),
};

const place = (outline: Outline, zone: Place["zone"]): Place => ({
  id: JSON.stringify(zone),
  name: outline.runs.length > 0 && zone.kind === "rib" ? faceName(zone.at.run) : words.zoneKinds[zone.kind],
  zone,
  lights: null,
});

/** The rim station above a point of the wall. */
const stationAt = ({ chain }: Outline, { point }: Aim): number =>
  Math.round(nearest(chain, point[0], point[1]).station / STEP) * STEP;
