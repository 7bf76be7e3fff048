import type { FlatShape } from "./laid.ts";

/** A closed polygon in its plane from x y pairs, mm: turned counter-clockwise, repeated points left out, with its area. */
export function flatShape(pairs: ArrayLike<number>): FlatShape {
  const kept: number[] = [];
  for (let i = 0; i < pairs.length; i += 2) {
    const n = kept.length;
    if (n > 0 && Math.hypot(pairs[i] - kept[n - 2], pairs[i + 1] - kept[n - 1]) < 1e-6) continue;
    kept.push(pairs[i], pairs[i + 1]);
  }
  while (
    kept.length > 2 &&
    Math.hypot(kept[0] - kept[kept.length - 2], kept[1] - kept[kept.length - 1]) < 1e-6
  )
    kept.length -= 2;
  const area = signedArea(kept);
  if (area >= 0) return { points: Float64Array.from(kept), areaMm2: area };
  const turned: number[] = [];
  for (let i = kept.length - 2; i >= 0; i -= 2) turned.push(kept[i], kept[i + 1]);
  return { points: Float64Array.from(turned), areaMm2: -area };
}

/** Area of a closed polygon (x y pairs), mm²: positive counter-clockwise. Taken about its first point, for accuracy. */
export function signedArea(pairs: ArrayLike<number>): number {
  const count = pairs.length / 2;
  let twice = 0;
  for (let i = 1; i + 1 < count; i++) {
    const ax = pairs[2 * i] - pairs[0];
    const ay = pairs[2 * i + 1] - pairs[1];
    const bx = pairs[2 * i + 2] - pairs[0];
    const by = pairs[2 * i + 3] - pairs[1];
    twice += ax * by - ay * bx;
  }
  return twice / 2;
}

/** Length of the outline of a shape, mm. */
export function outlineLength({ points }: FlatShape): number {
  let sum = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    sum += Math.hypot(points[j] - points[i], points[j + 1] - points[i + 1]);
  }
  return sum;
}
