import { dot, less, onward, type Spot, unit } from "./handle.ts";

/** A corner of two straight sides: its point, the way into it halfway between the sides, and the sine of half its angle. */
export interface Corner {
  readonly point: Spot;
  readonly inward: Spot;
  readonly sine: number;
}

/** The corner at a point, from the points before and after it; null where the sides do not turn. */
export function cornerAt(point: Spot, before: Spot, after: Spot): Corner | null {
  const a = unit(less(before, point));
  const b = unit(less(after, point));
  if (Math.abs(a.x * b.y - a.y * b.x) < 1e-4) return null;
  const inward = unit({ x: a.x + b.x, y: a.y + b.y });
  return { point, inward, sine: Math.abs(a.x * inward.y - a.y * inward.x) };
}

/** The middle of the arc that rounds a corner with a radius, and the radius whose middle is nearest to a spot, mm. */
export const arcCentre = ({ point, inward, sine }: Corner, radius: number): Spot =>
  onward(point, inward, radius / sine);
export const radiusAt = ({ point, inward, sine }: Corner, spot: Spot): number =>
  dot(less(spot, point), inward) * sine;
