import type { Field } from "./field.ts";

const MOST_STEPS = 30;
/** Longest single step, mm: keeps a start far from the surface from being thrown across the pool. */
const LONGEST_STEP = 500;

/**
 * Moves the point p[at], p[at + 1], p[at + 2] (mm) onto the zero set of `field` by Newton steps along the gradient,
 * until |f| ≤ tolerance. Returns whether it got there; if not, p holds the best point met. A point with a vanishing
 * gradient (on the axis of a fillet, say) cannot be moved and returns false. Allocates nothing.
 *
 * With converged = true, `field.gradient` is that of the returned point.
 */
export function projectOnto(field: Field, p: Float64Array, at: number, tolerance: number): boolean {
  let x = p[at];
  let y = p[at + 1];
  let z = p[at + 2];
  let best = Infinity;
  let scale = 1;
  for (let step = 0; step < MOST_STEPS; step++) {
    const f = field.evaluate(x, y, z);
    const size = Math.abs(f);
    if (size < best) {
      best = size;
      p[at] = x;
      p[at + 1] = y;
      p[at + 2] = z;
      if (size <= tolerance) return true;
      scale = 1;
    } else {
      // Gone past a bend: half the way back towards the best point, then on from there.
      if (!(size < Infinity)) return false;
      scale /= 2;
      x = p[at] + (x - p[at]) / 2;
      y = p[at + 1] + (y - p[at + 1]) / 2;
      z = p[at + 2] + (z - p[at + 2]) / 2;
      if (scale < 1e-3) return false;
      continue;
    }
    const gx = field.gradient[0];
    const gy = field.gradient[1];
    const gz = field.gradient[2];
    const g2 = gx * gx + gy * gy + gz * gz;
    if (!(g2 > 1e-12)) return false;
    let move = -f / g2;
    const longest = LONGEST_STEP / Math.sqrt(g2);
    if (Math.abs(move) > longest) move = Math.sign(move) * longest;
    x += move * gx;
    y += move * gy;
    z += move * gz;
  }
  return false;
}
