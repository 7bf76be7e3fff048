import { boxOf, type Ring } from "./ring.ts";

/**
 * Where one shape may not stand beside another: the places of B's reference point, seen from A's, at which they overlap.
 * For convex parts P of A and Q of B that is the open convex polygon P ⊕ (−Q) (the Minkowski sum; Cuninghame-Green,
 * "Geometry, shoemaking and the milk tray problem", New Scientist, 1989); for the whole shapes it is all of these together. Kept
 * as half planes n·d < c, so that a place is tried with one product an edge.
 */
export interface NoFit {
  /** left, right, low, high of each polygon. */
  readonly boxes: Float64Array;
  /** Polygon k has the half planes from starts[k] up to starts[k + 1]. */
  readonly starts: Int32Array;
  /** nx, ny, c of each half plane, n a unit vector. */
  readonly planes: Float64Array;
}

/** @param clearance by how much B is kept off A; above the rounding of the places, so that what is found can be proved. */
export function noFit(partsOfA: readonly Ring[], partsOfB: readonly Ring[], clearance: number): NoFit {
  const boxes: number[] = [];
  const starts: number[] = [0];
  const planes: number[] = [];
  for (const a of partsOfA) {
    for (const b of partsOfB) {
      const sum = convexSum(a, negated(b));
      const { left, right, low, high } = boxOf(sum);
      boxes.push(left - clearance, right + clearance, low - clearance, high + clearance);
      for (let i = 0; i < sum.length; i += 2) {
        const j = (i + 2) % sum.length;
        const dx = sum[j] - sum[i];
        const dy = sum[j + 1] - sum[i + 1];
        const length = Math.hypot(dx, dy);
        if (length === 0) continue;
        const nx = dy / length;
        const ny = -dx / length;
        planes.push(
          nx,
          ny,
          Math.max(nx * sum[i] + ny * sum[i + 1], nx * sum[j] + ny * sum[j + 1]) + clearance,
        );
      }
      starts.push(planes.length / 3);
    }
  }
  return {
    boxes: Float64Array.from(boxes),
    starts: Int32Array.from(starts),
    planes: Float64Array.from(planes),
  };
}

/**
 * How deep two shapes overlap with B's reference point at (x, y) from A's: the least way out of each pair of convex parts,
 * summed. Nought exactly where they do not overlap.
 */
export function depthOf({ boxes, starts, planes }: NoFit, x: number, y: number): number {
  let sum = 0;
  const count = starts.length - 1;
  for (let k = 0; k < count; k++) {
    if (x <= boxes[4 * k] || x >= boxes[4 * k + 1] || y <= boxes[4 * k + 2] || y >= boxes[4 * k + 3])
      continue;
    let depth = Infinity;
    for (let i = 3 * starts[k]; i < 3 * starts[k + 1]; i += 3) {
      const inside = planes[i + 2] - planes[i] * x - planes[i + 1] * y;
      if (inside < depth) {
        depth = inside;
        if (inside <= 0) break;
      }
    }
    if (depth > 0) sum += depth;
  }
  return sum;
}

function negated(ring: Ring): Ring {
  return ring.map((value) => -value);
}

/** Minkowski sum of two convex rings: their edges in the order of their directions. */
function convexSum(a: Ring, b: Ring): number[] {
  const p = fromLowest(a);
  const q = fromLowest(b);
  const sum: number[] = [];
  let i = 0;
  let j = 0;
  while (i < p.length || j < q.length) {
    sum.push(p[i % p.length] + q[j % q.length], p[(i + 1) % p.length] + q[(j + 1) % q.length]);
    const turn = edge(p, i, 0) * edge(q, j, 1) - edge(p, i, 1) * edge(q, j, 0);
    const takeP = j >= q.length || (i < p.length && turn >= 0);
    const takeQ = i >= p.length || (j < q.length && turn <= 0);
    if (takeP) i += 2;
    if (takeQ) j += 2;
  }
  return sum;
}

function edge(ring: readonly number[], i: number, axis: 0 | 1): number {
  return ring[(i + 2 + axis) % ring.length] - ring[(i + axis) % ring.length];
}

function fromLowest(ring: Ring): number[] {
  let lowest = 0;
  for (let i = 2; i < ring.length; i += 2) {
    const higher = ring[i + 1] - ring[lowest + 1];
    if (higher < 0 || (higher === 0 && ring[i] < ring[lowest])) lowest = i;
  }
  return [...ring.slice(lowest), ...ring.slice(0, lowest)];
}
