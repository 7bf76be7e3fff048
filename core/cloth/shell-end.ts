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
  const asked = { x: 0, y: 0, z: 0, clear: -1 };
  return (points, at) => {
    const x = points[at];
    const y = points[at + 1];
    const z = points[at + 2];
    const { clear } = asked;
    if (clear > 0 && (x - asked.x) ** 2 + (y - asked.y) ** 2 + (z - asked.z) ** 2 < clear * clear)
      return false;
    const { edge } = near(x, y, z);
    if (!edge) return false;
    asked.x = x;
    asked.y = y;
    asked.z = z;
    asked.clear = (OVERHANG - edge.evaluate(x, y, z)) / EDGE_SLOPE;
    return asked.clear < 0;
  };
}
