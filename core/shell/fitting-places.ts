import type { Outline } from "../plan/chain.ts";
import { pointAt } from "../plan/point-at.ts";
import { resolveRimPlace } from "../plan/rim-place.ts";
import { type FittingSpec, limits, type RimPlace } from "../project/shell-schema.ts";
import { type Block, covers, type Surroundings } from "./blocks.ts";
import { type OnFloor, refuseOnFloor } from "./floor-fittings.ts";
import type { FloorShape } from "./floor-profile.ts";
import type { Radii } from "./radii.ts";
import { refuseRimPlace } from "./rim-place-refusal.ts";
import type { Refusal } from "./shell.ts";
import { tenths } from "./tenths.ts";

/** So far inside the rim the depth of what stands at the wall is read, mm. */
const INSIDE = 100;
/** How far apart the wall is looked at over the width of a fitting, and other places for it on its run, mm. */
const PACE = 50;
/** Grains of the places that are offered: parts of a run, and mm. */
const GRAIN = { part: 0.01, distance: 10 } as const;
/** Rounding of figures that were measured, mm. */
const SLACK = 1e-6;

type OnWall = FittingSpec & { readonly at: { readonly wall: RimPlace; readonly depth: number } };

/**
 * Fittings that the wall or the floor does not hold: none is lost in silence. On the wall each must have plain wall over all of its height,
 * from the rim's radius to the one below; a skimmer's mouth may be cut open up to the coping. Lengths mm.
 */
export function checkFittings(
  fittings: readonly FittingSpec[],
  here: Surroundings,
  floor: FloorShape,
  blocks: readonly Block[],
): Refusal[] {
  const { outline, radii } = here;
  return fittings.flatMap((fitting, i): Refusal[] => {
    const path = `shell.fittings[${i}]`;
    if (!("wall" in fitting.at)) return refuseOnFloor(fitting as OnFloor, path, here, floor, blocks);
    const missing = refuseRimPlace(outline, fitting.at.wall, `${path}.at.wall`, fitting.id);
    if (missing) return [missing];
    const wallAt = (place: RimPlace) => plainWall(fitting as OnWall, place, outline, floor, blocks, radii);
    return refuseHeight(fitting as OnWall, path, wallAt, outline);
  });
}

/** The plain wall behind a fitting, by depth below the rim, mm: `top` to `foot`. */
interface PlainWall {
  readonly top: number;
  readonly foot: number;
  /** What stands below, and how deep it lies. */
  readonly below: string;
  readonly level: number;
}

function refuseHeight(
  { id, at, height }: OnWall,
  path: string,
  wallAt: (place: RimPlace) => PlainWall,
  outline: Outline,
): Refusal[] {
  const wall = wallAt(at.wall);
  const { top, foot, below, level } = wall;
  const half = height / 2;
  /** The greatest height about a depth. */
  const roomAt = (depth: number, { top, foot } = wall) => 2 * Math.min(depth - top, foot - depth);
  if (roomAt(at.depth) >= height - SLACK) return [];

  const [least, most] = [Math.ceil(top + half - SLACK), Math.floor(foot - half + SLACK)];
  const lower = Math.floor(roomAt(at.depth) + SLACK);
  const smaller = lower >= limits.opening[0] ? [`a height of at most ${lower} mm`] : [];
  if (least <= most) {
    const [up, down] = [at.depth - half, at.depth + half];
    const over = up < 0 ? `${tenths(-up)} mm above the rim` : "into the radius at the rim";
    const why =
      up < top - SLACK
        ? `${id}, ${tenths(height)} mm high with its middle ${tenths(at.depth)} mm below the rim, reaches ${over}`
        : `${id}, ${tenths(height)} mm high, reaches down to ${tenths(down)} mm, and its wall ends ${Math.floor(foot)} mm below the rim in the radius to ${below}`;
    const depth = at.depth < least ? `a depth of at least ${least} mm` : `a depth of at most ${most} mm`;
    return [{ path: `${path}.at.depth`, value: at.depth, why, wouldWork: [depth, ...smaller].join(", or ") }];
  }

  const room = Math.max(0, Math.floor(foot - top));
  // Elsewhere it may lie as deep as it does, if that is not over the rim.
  const there = Math.max(at.depth, least);
  const atDepth = there === at.depth ? "" : `, at a depth of ${there} mm`;
  const fits = (place: RimPlace) => roomAt(there, wallAt(place)) >= height - SLACK;
  const another =
    nearestPlace(outline, at.wall, fits) ??
    `another place, where ${below} is at least ${Math.ceil(level - foot + there + half)} mm deep at the wall`;
  return [
    {
      path: `${path}.height`,
      value: height,
      why: `${id} is ${tenths(height)} mm high, and between ${top > 0 ? "the rim's radius" : "the rim"} and the radius to ${below} there is ${room} mm of plain wall`,
      wouldWork: [...(smaller.length > 0 ? smaller : largest(wall)), another + atDepth].join(", or "),
    },
  ];
}

/** The tallest opening that a wall holds, with the depth of its middle; none where that is lower than openings are. */
function largest({ top, foot }: PlainWall): string[] {
  const depth = Math.round((top + foot) / 2);
  const height = Math.floor(2 * Math.min(depth - top, foot - depth));
  return height < limits.opening[0] ? [] : [`a height of at most ${height} mm at a depth of ${depth} mm`];
}

/** The nearest place along its own run that will do, in words; else the first found on another; null for none. */
function nearestPlace(outline: Outline, at: RimPlace, fits: (place: RimPlace) => boolean): string | null {
  const inParts = "part" in at;
  const placed = (run: string, steps: number): RimPlace =>
    inParts
      ? { run, part: Math.round(steps) * GRAIN.part }
      : { run, distance: Math.round(steps) * GRAIN.distance };
  for (const run of [...outline.runs].sort((a, b) => Number(b.id === at.run) - Number(a.id === at.run))) {
    const most = inParts ? 1 / GRAIN.part : Math.floor(run.length / GRAIN.distance);
    const now = run.id !== at.run ? most / 2 : inParts ? at.part / GRAIN.part : at.distance / GRAIN.distance;
    for (let step = 0; step <= most; step++) {
      for (const steps of [Math.ceil(now) + step, Math.floor(now) - step]) {
        if (steps < 0 || steps > most) continue;
        const place = placed(run.id, steps);
        if (!fits(place)) continue;
        return "part" in place
          ? `another place, such as a part of ${place.part.toFixed(2)} on ${run.id}`
          : `another place, such as a distance of ${place.distance} mm on ${run.id}`;
      }
    }
  }
  return null;
}

/** The plain wall about a place of the rim, over the width of what is to be fitted there. */
function plainWall(
  { kind, width }: OnWall,
  at: RimPlace,
  outline: Outline,
  floor: FloorShape,
  blocks: readonly Block[],
  radii: Radii,
): PlainWall {
  const place = resolveRimPlace(outline, at);
  if (!("station" in place)) throw new RangeError(place.error);
  const top = kind === "skimmer" ? 0 : radii.rim;
  const paces = Math.ceil(width / 2 / PACE);
  let narrowest: PlainWall | undefined;
  for (let k = -paces; k <= paces; k++) {
    const foot = wallFoot(place.station + ((k / paces) * width) / 2, outline, floor, blocks, radii);
    if (!narrowest || foot.foot < narrowest.foot) narrowest = { top, ...foot };
  }
  return narrowest as PlainWall;
}

/** Where the plain wall ends below a rim station: above the radius to the floor, or to the highest tread that stands there. */
function wallFoot(
  station: number,
  outline: Outline,
  floor: FloorShape,
  blocks: readonly Block[],
  radii: Radii,
): Omit<PlainWall, "top"> {
  const { x, y, tx, ty } = pointAt(outline.chain, station);
  const [px, py] = [x - INSIDE * ty, y + INSIDE * tx];
  const level = floor.depthAt(px, py);
  let lowest = { below: "the floor", level, foot: level - radii.cove };
  for (const b of blocks) {
    const foot = b.depth - radii.step(b.top, "wall");
    if (foot >= lowest.foot || !covers(b, px, py)) continue;
    lowest = { below: b.top, level: b.depth, foot };
  }
  return lowest;
}
