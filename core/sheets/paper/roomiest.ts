/** A place within an outline where words stand well. */
export interface RoomyPlace {
  readonly x: number;
  readonly y: number;
  /** How far the outline lets words run to both sides together, and how high they may be. */
  readonly width: number;
  readonly height: number;
}

const LINES = 15;
/** Words are wider than high. */
const SHAPE = 4;

/**
 * Looks along some level lines for the longest stretch inside a closed outline (x y pairs) with room above and below. Null for an outline without
 * area.
 */
export function roomiestPlace(points: ArrayLike<number>): RoomyPlace | null {
  const ys = Array.from(points).filter((_, i) => i % 2 === 1);
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  let best: RoomyPlace | null = null;
  let most = 0;
  for (let i = 0; i < LINES; i++) {
    const level = low + ((high - low) * (i + 0.5)) / LINES;
    for (const [from, to] of stretches(points, level, 1)) {
      const x = (from + to) / 2;
      const upright = stretches(points, x, 0).find(([foot, head]) => foot <= level && level <= head);
      if (!upright) continue;
      const height = 2 * Math.min(level - upright[0], upright[1] - level);
      const worth = Math.min(to - from, SHAPE * height);
      if (worth <= most) continue;
      most = worth;
      best = { x, y: level, width: to - from, height };
    }
  }
  return best;
}

/** Where a line across `axis` at a coordinate runs inside the outline. */
function stretches(points: ArrayLike<number>, at: number, axis: 0 | 1): [number, number][] {
  const crossings: number[] = [];
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    const [a, b] = [points[i + axis], points[j + axis]];
    if (a > at === b > at) continue;
    const [c, d] = [points[i + 1 - axis], points[j + 1 - axis]];
    crossings.push(c + ((d - c) * (at - a)) / (b - a));
  }
  crossings.sort((a, b) => a - b);
  const found: [number, number][] = [];
  for (let i = 0; i + 1 < crossings.length; i += 2) found.push([crossings[i], crossings[i + 1]]);
  return found;
}
