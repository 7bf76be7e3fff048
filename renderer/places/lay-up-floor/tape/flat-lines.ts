import type { Extent } from "./window.ts";

/** A place of a flat drawing, mm; on a level face `down` is across it. */
export interface Point {
  readonly along: number;
  readonly down: number;
}

/** The place of a line (pairs of along and down, or across, mm) nearest to a point: between which points, how far from one to the next, and how far off, mm. */
export interface OnFlat {
  readonly from: number;
  readonly t: number;
  readonly off: number;
}

export function nearestOnFlat(line: ArrayLike<number>, x: number, y: number): OnFlat {
  let best: OnFlat = { from: 0, t: 0, off: Infinity };
  for (let i = 2; i < line.length; i += 2) {
    const [ax, ay] = [line[i - 2], line[i - 1]];
    const [ux, uy, vx, vy] = [line[i] - ax, line[i + 1] - ay, x - ax, y - ay];
    const square = ux * ux + uy * uy;
    const t = square > 0 ? Math.min(1, Math.max(0, (ux * vx + uy * vy) / square)) : 0;
    const off = Math.hypot(vx - t * ux, vy - t * uy);
    if (off < best.off) best = { from: i / 2 - 1, t, off };
  }
  return best;
}

/** Distance from a point to a line, mm. */
export const distanceTo = (line: ArrayLike<number>, x: number, y: number): number =>
  nearestOnFlat(line, x, y).off;

/** Distance to a line that may be drawn a turn of the rim away, mm. */
export const distanceRound = (line: ArrayLike<number>, x: number, y: number, rimLengthMm: number): number =>
  Math.min(...[-rimLengthMm, 0, rimLengthMm].map((turn) => distanceTo(line, x + turn, y)));

/** Whether a closed outline holds a point: crossings of a ray counted, even and odd. */
export function holds(outline: ArrayLike<number>, x: number, y: number): boolean {
  let inside = false;
  const count = outline.length;
  for (let i = 0, j = count - 2; i < count; j = i, i += 2) {
    const [ax, ay, bx, by] = [outline[i], outline[i + 1], outline[j], outline[j + 1]];
    if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) inside = !inside;
  }
  return inside;
}

export function boxOf(line: ArrayLike<number>): Extent {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < line.length; i += 2) {
    x0 = Math.min(x0, line[i]);
    x1 = Math.max(x1, line[i]);
    y0 = Math.min(y0, line[i + 1]);
    y1 = Math.max(y1, line[i + 1]);
  }
  return { x0, y0, x1, y1 };
}
