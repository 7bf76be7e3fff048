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
    const { below, depth } = wallFoot(place.station, outline, floor, blocks, radii);
    if (at.depth <= depth) return [];
    if (depth < 0)
      return [
        {
          path: `${path}.depth`,
          value: at.depth,
          why: `${id} has no plain wall to stand on there: the radius to ${below} wants ${Math.ceil(-depth)} mm more than the wall is deep`,
          wouldWork: "a place where the floor is deeper, or a smaller radius to the floor",
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

/** Where the plain wall ends below a rim station (mm): above the radius to the floor, or to the highest tread that stands there. */
function wallFoot(
  station: number,
  outline: Outline,
  floor: FloorShape,
  blocks: readonly Block[],
  radii: Radii,
): { readonly below: string; readonly depth: number } {
  const { x, y, tx, ty } = pointAt(outline.chain, station);
  const [px, py] = [x - INSIDE * ty, y + INSIDE * tx];
  let foot = { below: "the floor", depth: floor.depthAt(px, py) - radii.cove };
  for (const b of blocks) {
    const depth = b.depth - radii.step(b.top, "wall");
    if (depth < foot.depth && covers(b, px, py)) foot = { below: b.top, depth };
  }
  return foot;
}
