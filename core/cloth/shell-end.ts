import type { FieldNear } from "../surface/bricks.ts";

/**
 * Cloth may hang over the surface's open edge by this much, mm: a little more than a cell of its net. Further on there is only what the field goes on as, a
 * lip that ends in a sharp corner.
 */
const OVERHANG = 50;
/** The open edge's value grows by at most this much a mm. */
const EDGE_SLOPE = 1.1;

/** Tells of points (mm, three numbers at an offset) whether they lie too far beyond the surface's open edge for cloth to hang there. */
export function offShell(near: FieldNear): (points: Float64Array, at: number) => boolean {
  // The edge is asked for again only where it could have been reached since.
  let [x, y, z] = [0, 0, 0];
  let clear = -1;
  return (points, at) => {
    const [px, py, pz] = [points[at], points[at + 1], points[at + 2]];
    const [dx, dy, dz] = [px - x, py - y, pz - z];
    if (clear > 0 && dx * dx + dy * dy + dz * dz < clear * clear) return false;
    const { edge } = near(px, py, pz);
    if (!edge) return false;
    [x, y, z] = [px, py, pz];
    clear = (OVERHANG - edge.evaluate(x, y, z)) / EDGE_SLOPE;
    return clear < 0;
  };
}
