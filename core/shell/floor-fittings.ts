import { blankNearest, nearest } from "../plan/nearest.ts";
import type { FittingSpec } from "../project/shell-schema.ts";
import { type Block, covers, type Surroundings } from "./blocks.ts";
import type { FloorShape } from "./floor-profile.ts";
import type { Refusal } from "./shell.ts";

export type OnFloor = FittingSpec & { readonly at: { readonly floor: Parts } };

/** Parts of the outline's box: along from the shallow end, across from the right side. */
interface Parts {
  readonly alongPart: number;
  readonly acrossPart: number;
}

/** Places are tried, and told, by whole hundredths of the pool's length and width. */
const GRAIN = 100;
/** Points looked at along each half of an opening's sides. */
const POINTS = 4;

const found = blankNearest();

/** A fitting on the floor that reaches into the radius at the foot of the wall, or lies outside the pool. Lengths mm. */
export function refuseOnFloor(
  { id, at: { floor: at }, width, height }: OnFloor,
  path: string,
  here: Surroundings,
  floor: FloorShape,
  blocks: readonly Block[],
): Refusal[] {
  const { outline } = here;
  const fits = (parts: Parts) => isOnFloor(parts, width, height, here, floor, blocks);
  if (fits(at)) return [];
  const [across, along] = (["acrossPart", "alongPart"] as const).map((key) => {
    const size = key === "alongPart" ? outline.extent.length : outline.extent.width;
    const part = nearestPart(at[key], (tried) => fits({ ...at, [key]: tried }));
    return { key, part, away: part === null ? Infinity : Math.abs(part - at[key]) * size };
  });
  const { key, part } = along.away < across.away ? along : across;
  const way = key === "alongPart" ? "along" : "across";
  const words = (tried: number) => `a part of ${tried < at[key] ? "at most" : "at least"} ${tried} ${way}`;
  return [
    {
      path: `${path}.at.floor.${key}`,
      value: at[key],
      why: `${id}, ${Math.round(width)} × ${Math.round(height)} mm, reaches past the floor there, into the radius at the foot of the wall or out of the pool`,
      wouldWork: part === null ? elsewhere(fits) : words(part),
    },
  ];
}

/** Whether all of an opening lies inside the foot of the wall's radius, on the floor or on a tread. */
function isOnFloor(
  { alongPart, acrossPart }: Parts,
  width: number,
  height: number,
  { outline, radii, draft }: Surroundings,
  floor: FloorShape,
  blocks: readonly Block[],
): boolean {
  const { extent, chain } = outline;
  const [x, y] = [alongPart * extent.length, (acrossPart - 0.5) * extent.width];
  for (let i = -POINTS; i <= POINTS; i++)
    for (let j = -POINTS; j <= POINTS; j++) {
      if (Math.max(Math.abs(i), Math.abs(j)) < POINTS) continue;
      const [px, py] = [x + ((i / POINTS) * width) / 2, y + ((j / POINTS) * height) / 2];
      let [depth, radius] = [floor.depthAt(px, py), radii.cove];
      for (const b of blocks)
        if (b.depth < depth && covers(b, px, py)) [depth, radius] = [b.depth, radii.step(b.top, "wall")];
      const inside = depth * Math.tan(draft) + (radius * (1 - Math.sin(draft))) / Math.cos(draft);
      if (-nearest(chain, px, py, found).distance < inside - 1e-6) return false;
    }
  return true;
}

/** The nearest whole hundredth that will do; null for none. */
function nearestPart(now: number, fits: (part: number) => boolean): number | null {
  for (let step = 0; step <= GRAIN; step++)
    for (const hundredth of [Math.ceil(now * GRAIN) + step, Math.floor(now * GRAIN) - step])
      if (hundredth >= 0 && hundredth <= GRAIN && fits(hundredth / GRAIN)) return hundredth / GRAIN;
  return null;
}

/** Any place that will do, in words. */
function elsewhere(fits: (parts: Parts) => boolean): string {
  for (let along = 0; along <= GRAIN; along += 5)
    for (let across = 0; across <= GRAIN; across += 5)
      if (fits({ alongPart: along / GRAIN, acrossPart: across / GRAIN }))
        return `another place, such as a part of ${along / GRAIN} along and a part of ${across / GRAIN} across`;
  return "a smaller opening: the floor has no place for this one";
}
