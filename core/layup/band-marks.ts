import type { Transition } from "../shell/transitions.ts";
import { curvePointAt } from "../surface/curve.ts";
import { nearestStation } from "../surface/nearest-station.ts";
import type { Strip } from "../surface/strip.ts";
import { isAstray } from "./adrift.ts";
import type { TapeMark } from "./laid.ts";
import type { Site } from "./site.ts";
import { readTape } from "./tape.ts";

/**
 * A band all round the foot of the wall, at every rim mark: how far down its line lies, and its upper edge. The edge is
 * `halfWidth` from the line square to it; where the line falls along the wall by an angle, the tape that hangs square to
 * the rim reads halfWidth / cos(angle).
 */
export function rimToFoot(site: Site, foot: Transition, halfWidth: number): TapeMark[] {
  const at = new Float64Array(9);
  return site.marks.flatMap((mark): TapeMark[] => {
    const wall = site.wallAt(mark.station);
    if (isAstray(wall)) return [];
    const downMm = wall.foot;
    curvePointAt(wall.curve, downMm, at);
    const [x, y, z] = at;
    curvePointAt(foot.curve, nearestStation(foot.curve, x, y, z), at);
    const { u } = wall.plane;
    const level = Math.abs(at[3] * u[1] - at[4] * u[0]);
    const here = { from: mark.name, alongMm: 0 };
    const line = { what: "line", ...here, downMm };
    // Where the foot climbs a riser past this mark, no tape hangs square to it.
    if (level < 0.5 || Math.hypot(at[0] - x, at[1] - y, at[2] - z) > 1) return [line];
    return [{ what: "upper edge", ...here, downMm: downMm - halfWidth / level }, line];
  });
}

/** The start, the middle and the end of a strip's line. */
export function stripMarks(site: Site, strip: Strip): TapeMark[] {
  const last = strip.stations.length - 1;
  const end = strip.closed ? [] : [lineMark(site, strip, "end", last)];
  return [stripStart(site, strip), lineMark(site, strip, "middle", last >> 1), ...end];
}

/** Where a strip's line begins. */
export const stripStart = (site: Site, strip: Strip): TapeMark => lineMark(site, strip, "start", 0);

function lineMark(site: Site, { left }: Strip, what: string, sample: number): TapeMark {
  const at = 3 * sample * left.columns;
  return { what, ...readTape(site, left.points.subarray(at, at + 3)) };
}
