import { boxOf } from "../packing/ring.ts";

/**
 * Whether two outlines (x y pairs, mm) cover each other within `tolerance` mm when they are moved onto each other by the
 * lower left corner of their boxes, neither turned nor turned over: no corner of one is further from the other.
 */
export function sameShape(a: Float64Array, b: Float64Array, tolerance: number): boolean {
  return staysBy(a, b, tolerance) && staysBy(b, a, tolerance);
}

function staysBy(corners: Float64Array, outline: Float64Array, tolerance: number): boolean {
  const from = boxOf(corners);
  const onto = boxOf(outline);
  for (let i = 0; i < corners.length; i += 2) {
    const x = corners[i] - from.left + onto.left;
    const y = corners[i + 1] - from.low + onto.low;
    if (distanceTo(outline, x, y) > tolerance) return false;
  }
  return true;
}

function distanceTo(outline: Float64Array, x: number, y: number): number {
  let least = Infinity;
  for (let i = 0; i < outline.length; i += 2) {
    const j = (i + 2) % outline.length;
    const dx = outline[j] - outline[i];
    const dy = outline[j + 1] - outline[i + 1];
    const along = ((x - outline[i]) * dx + (y - outline[i + 1]) * dy) / (dx * dx + dy * dy || 1);
    const u = Math.min(1, Math.max(0, along));
    least = Math.min(least, Math.hypot(outline[i] + u * dx - x, outline[i + 1] + u * dy - y));
  }
  return least;
}
