import { nearest } from "../../core/plan/nearest.ts";
import { runAt } from "../../core/plan/rim-place.ts";
import { faceName } from "../parts/names.ts";
import type { Ground, Place, Tool } from "./tool.ts";

/** A stiffener under a straight run of the coping: a click on the coping there, or on the wall close below it, lays it. */
export const stiffenerTool: Tool = {
  at(ground, { point, face }) {
    const { outline } = ground;
    if (!face.startsWith("coping") && point[2] < -BELOW) return null;
    const { run } = runAt(outline, nearest(outline.chain, point[0], point[1]).station);
    return run.kind === "straight" ? place(ground, run.id) : null;
  },
  places: (ground) =>
    ground.outline.runs.flatMap(({ id, kind }) => (kind === "straight" ? [place(ground, id)] : [])),
};

/** How far below the rim the wall still means the coping, mm. */
const BELOW = 250;

function place({ project }: Ground, run: string): Place {
  const { margin, material } = project.rules.stiffeners;
  return {
    id: run,
    name: faceName(run),
    lights: null,
    zone: { kind: "stiffener", run, margin, material },
  };
}
