import type { Aim } from "./tool.ts";

/** Points nearer to each other than this are the same movement of the hand, mm. */
const APART = 60;
/** What is left out lies at most this far off the path that is kept, mm. */
const OFF = 25;

/**
 * The few points that a stroke of the hand needs: its ends, and those between without which the line through them would stray.
 * (Ramer 1972; Douglas and Peucker 1973. From memory.)
 */
export function fewPoints(path: readonly Aim[]): Aim[] {
  const spread: Aim[] = [];
  for (const [i, aim] of path.entries()) {
    const last = spread.at(-1);
    if (!last || distance(last, aim) >= APART) spread.push(aim);
    else if (i === path.length - 1 && spread.length > 1) spread[spread.length - 1] = aim;
  }
  return spread.length < 3 ? spread : kept(spread);
}

function kept(points: readonly Aim[]): Aim[] {
  const [first, last] = [points[0], points[points.length - 1]];
  let furthest = 0;
  let at = -1;
  for (let i = 1; i < points.length - 1; i++) {
    const off = offLine(points[i], first, last);
    if (off <= furthest) continue;
    furthest = off;
    at = i;
  }
  if (at < 0 || furthest <= OFF) return [first, last];
  return [...kept(points.slice(0, at + 1)).slice(0, -1), ...kept(points.slice(at))];
}

const distance = (a: Aim, b: Aim): number => Math.hypot(...a.point.map((p, k) => p - b.point[k]));

function offLine({ point: p }: Aim, { point: a }: Aim, { point: b }: Aim): number {
  const along = [0, 1, 2].map((k) => b[k] - a[k]);
  const square = along.reduce((sum, c) => sum + c * c, 0);
  const dot = along.reduce((sum, c, k) => sum + c * (p[k] - a[k]), 0);
  const t = square > 0 ? Math.min(1, Math.max(0, dot / square)) : 0;
  return Math.hypot(...[0, 1, 2].map((k) => p[k] - a[k] - t * along[k]));
}
