import type { Chain, Line, Segment } from "../plan/chain.ts";
import { meetings } from "../plan/crossings.ts";
import { nearest } from "../plan/nearest.ts";
import { line, type Place, segmentEnd, segmentStart } from "../plan/segments.ts";
import type { FootprintAsk } from "./footprint-ask.ts";

/** Ends that face each other within 20° can leave a slot, mm; others leave a wedge, or meet. */
const FACING = Math.cos(Math.PI / 9);

/** Distance between the two ends of a run that comes round to its own start, mm; Infinity where they do not face each other. */
export function gapBetweenEnds(inner: readonly Segment[], outer: readonly Segment[]): number {
  const caps = [inner, outer].map((path) => [segmentStart(path[0]), segmentEnd(path[path.length - 1])]);
  const [[i0, i1], [o0, o1]] = caps;
  const [start, end] = [line(i0.x, i0.y, o0.x, o0.y), line(i1.x, i1.y, o1.x, o1.y)];
  if (meetings(start, end).length > 0) return 0;
  if (i0.tx * i1.tx + i0.ty * i1.ty < FACING) return Infinity;
  // Each must lie ahead of the other, and not behind its back.
  if ((i0.x - i1.x) * i1.tx + (i0.y - i1.y) * i1.ty < 0) return Infinity;
  const apart = (cap: Line, { x, y }: Place) => {
    const t = (x - cap.ax) * cap.ux + (y - cap.ay) * cap.uy;
    const on = Math.min(Math.max(t, 0), cap.length);
    return Math.hypot(x - cap.ax - on * cap.ux, y - cap.ay - on * cap.uy);
  };
  return Math.min(apart(start, i1), apart(start, o1), apart(end, i0), apart(end, o0));
}

/** An end that reaches less than this into another feature is carried on into it as well, mm. */
const BARELY = 30;

/**
 * Free way ahead of a free end until the next wall or feature, at most the ask's `slot`, mm: the least of three rays out
 * from its cap. A ray that begins in a higher feature is hidden there and leaves no slot.
 */
export function gapAhead(
  chain: Chain,
  ask: FootprintAsk,
  place: Place,
  way: 1 | -1,
): { gap: number; wall: boolean } {
  const least = { gap: ask.slot, wall: false };
  for (const part of [0, 0.4, 0.75]) {
    // The end's cap runs from the inner edge straight to the wall on its right.
    const x = place.x + place.ty * ask.reach * part;
    const y = place.y - place.tx * ask.reach * part;
    const here = ask.others.map((o) => nearest(o.footprint, x, y).distance);
    if (ask.others.some((o, i) => here[i] <= -BARELY && o.depth <= ask.depth)) continue;
    // Barely inside another the ground between the two ends would be a sheet thinner than the laminate.
    if (here.some((h) => h < 0 && h > -BARELY)) return { gap: 0, wall: false };
    const near = ask.others.filter((_, i) => here[i] >= 0 && here[i] < ask.slot);
    for (let t = 0; t < least.gap; t += 5) {
      const px = x + way * place.tx * t;
      const py = y + way * place.ty * t;
      const wall = nearest(chain, px, py).distance >= 0;
      if (!wall && near.every((o) => nearest(o.footprint, px, py).distance > 0)) continue;
      least.gap = t;
      least.wall = wall;
    }
  }
  return least;
}
