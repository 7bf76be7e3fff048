import type { Outline } from "../plan/chain.ts";
import { pointAt } from "../plan/point-at.ts";
import { resolveRimPlace } from "../plan/rim-place.ts";
import type { FittingSpec } from "../project/schema.ts";
import { type Block, covers } from "./blocks.ts";
import type { FloorShape } from "./floor-profile.ts";
import type { Radii } from "./radii.ts";
import { refuseRimPlace } from "./rim-place-refusal.ts";
import type { Refusal } from "./shell.ts";

/** So far inside the rim the depth of what stands at the wall is read, mm. */
const INSIDE = 100;

/** Fittings on the wall whose place the shell does not have: none is lost in silence. Lengths mm. */
export function checkFittings(
  fittings: readonly FittingSpec[],
  outline: Outline,
  floor: FloorShape,
  blocks: readonly Block[],
  radii: Radii,
): Refusal[] {
  return fittings.flatMap(({ id, at }, i): Refusal[] => {
    if (!("wall" in at)) return [];
    const path = `shell.fittings[${i}].at`;
    const refusal = refuseRimPlace(outline, at.wall, `${path}.wall`, id);
    if (refusal) return [refusal];
    const place = resolveRimPlace(outline, at.wall);
    if (!("station" in place)) return [];
    const { below, depth, level, called } = wallFoot(place.station, outline, floor, blocks, radii);
    if (at.depth <= depth) return [];
    if (depth < 0)
      return [
        {
          path: `${path}.depth`,
          value: at.depth,
          why: `${id} has no plain wall to stand on there: the radius to ${below} wants ${Math.ceil(-depth)} mm more than the wall is deep`,
          wouldWork: `a place where ${below} is at least ${Math.ceil(level - depth)} mm deep${level < 10 ? "" : `, or ${called} of at most ${Math.floor(level)} mm`}`,
        },
      ];
    return [
      {
        path: `${path}.depth`,
        value: at.depth,
        why: `${id} lies deeper than its wall, which ends ${Math.floor(depth)} mm below the rim in the radius to ${below}`,
        wouldWork: `at most ${Math.floor(depth)} mm`,
      },
    ];
  });
}

interface WallFoot {
  /** What stands below. */
  readonly below: string;
  readonly level: number;
  /** Of the plain wall, above the radius to that. */
  readonly depth: number;
  /** How a sentence calls that radius. */
  readonly called: string;
}

/** Where the plain wall ends below a rim station (mm): above the radius to the floor, or to the highest tread that stands there. */
function wallFoot(
  station: number,
  outline: Outline,
  floor: FloorShape,
  blocks: readonly Block[],
  radii: Radii,
): WallFoot {
  const { x, y, tx, ty } = pointAt(outline.chain, station);
  const [px, py] = [x - INSIDE * ty, y + INSIDE * tx];
  const level = floor.depthAt(px, py);
  const called = radii.called("wall", "floor", "cove");
  let foot: WallFoot = { below: "the floor", level, depth: level - radii.cove, called };
  for (const b of blocks) {
    const depth = b.depth - radii.step(b.top, "wall");
    if (depth >= foot.depth || !covers(b, px, py)) continue;
    foot = { below: b.top, level: b.depth, depth, called: radii.called(b.top, "wall", "step") };
  }
  return foot;
}
