import type { MarkerPlan } from "../../core/packing/order.ts";
import { counterClockwise, exact, firstOverlap, within } from "./exact-overlap.ts";
import { type Instance, scaleOf } from "./instances.ts";

/**
 * Proves a plan for an instance on the instance's own outlines, exactly: every piece there, turned as allowed, within the
 * strip, none over another. Gives the length of strip that they take, in the instance's unit.
 *
 * @throws Error when it is not so, saying what is wrong
 */
export function provedLength(instance: Instance, { markers, missing }: MarkerPlan): number {
  const fault = (why: string) => new Error(`${instance.name}: ${why}`);
  if (missing.length > 0 || markers.length !== 1) throw fault("pieces are missing");
  const scale = scaleOf(instance);
  const counts = instance.items.map(() => 0);
  const rings = markers[0].placements.map(({ piece, turnDeg, mirrored, xMm, yMm }) => {
    const item = instance.items[Number(piece)];
    counts[Number(piece)]++;
    if (mirrored || !item.turns.includes(turnDeg)) throw fault(`piece ${piece} is turned by ${turnDeg}°`);
    const points: (readonly [bigint, bigint])[] = [];
    for (let i = 0; i < item.outline.length; i += 2) {
      let [x, y] = [exact(item.outline[i]), exact(item.outline[i + 1])];
      for (let quarter = 0; quarter < turnDeg / 90; quarter++) [x, y] = [-y, x];
      points.push([x + exact(xMm / scale), y + exact(yMm / scale)]);
    }
    return counterClockwise(points);
  });
  instance.items.forEach(({ demand }, i) => {
    if (counts[i] !== demand) throw fault(`piece ${i} lies ${counts[i]} times, wanted is ${demand}`);
  });
  let end = 0n;
  for (const [x] of rings.flat()) if (x > end) end = x;
  if (!rings.every((ring) => within(ring, end, exact(instance.width))))
    throw fault("a piece is outside the strip");
  const pair = firstOverlap(rings);
  if (pair) throw fault(`pieces ${pair} overlap`);
  return Number(end) / 2 ** 80;
}
