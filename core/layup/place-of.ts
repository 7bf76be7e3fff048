import { nearest } from "../plan/nearest.ts";
import { runAt } from "../plan/rim-place.ts";
import type { SurfacePlace } from "../project/schema.ts";
import { nearestStation } from "../surface/nearest-station.ts";
import { isAstray } from "./adrift.ts";
import { planBox } from "./anchors.ts";
import type { Site } from "./site.ts";

/** Proportions of a file are kept to these many parts: finer than a hand. */
const PARTS = 1e5;

/**
 * The place by name and proportion of a point (mm) on or near the lay-up surface, as `surfacePoint` reads it back; null where its
 * face is not to be seen, or the wall is lost there.
 */
export function placeOf(site: Site, point: readonly number[], face: string): SurfacePlace | null {
  const [x, y, z] = point;
  if (face === "wall") {
    const { outline } = site.shell;
    const { run, part } = runAt(outline, nearest(outline.chain, x, y).station);
    const wall = site.wallAt(nearest(outline.chain, x, y).station);
    if (isAstray(wall)) return null;
    const down = nearestStation(wall.curve, x, y, z) / wall.foot;
    return { wall: { run: run.id, part: kept(part) }, downPart: kept(down) };
  }
  const box = planBox(site, face);
  if (!box) return null;
  const alongPart = kept((x - box.minX) / (box.maxX - box.minX));
  const acrossPart = kept((y - box.minY) / (box.maxY - box.minY));
  return { face, alongPart, acrossPart };
}

const kept = (part: number): number => Math.round(Math.min(1, Math.max(0, part)) * PARTS) / PARTS;
