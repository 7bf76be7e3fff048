import { type Columns, RAY_STRIDE, type Ray, type RayPair, rayPoint } from "./fan.ts";
import { gatherQuads, hashQuads, placeInQuad, rayOf } from "./quads.ts";

/**
 * What the rays of a strip cover, for asking whether a point on one ray is reached sooner from elsewhere on the curve.
 * The quads between neighbouring rays and columns are kept in a hash of cubes; a quad that holds the point is a witness that
 * the point's distance to the curve is no more than the quad's own distance there, whatever becomes of the quad's rays further on.
 */
export interface Cover {
  /** Distance of the curve at which `ray` is overtaken, mm; Infinity if it is not overtaken by its last column. */
  crossing(ray: Ray, side: 0 | 1, station: number): number;
}

/** A ray counts as overtaken when another stretch is nearer by this much, mm; the place is then solved to far less. */
const NEARER = 0.05;
/** Rays near an open end are looked at this often, mm. */
const END_STEP = 6;
/** Distances within this of each other are equal, and places within this of each other one, mm. */
const EQUAL = 0.002;
const EXACT = 0.01;

/** The witness last found by `nearest`. */
interface Witness {
  /** Distance to the curve by way of the witness, mm. */
  distance: number;
  /** Unit heading of the witness's rays there. */
  hx: number;
  hy: number;
  hz: number;
}

/**
 * The cover of a strip's rays, in order of their stations; `sides` are the columns left and right, `closed` says that the last pair is
 * the first once more. Distances are good to about 0.01 mm where rays lie evenly.
 */
export function coverOf(
  pairs: readonly RayPair[],
  sides: readonly [Columns, Columns],
  closed: boolean,
): Cover {
  const quads = gatherQuads(pairs, sides);
  const slots = hashQuads(quads);
  const witness: Witness = { distance: 0, hx: 0, hy: 0, hz: 0 };
  const first = pairs[0].station;
  const last = pairs[pairs.length - 1].station;
  const point = new Float64Array(3);

  /** Finds the quad that brings the curve nearest to `point`, w mm along the asking ray, leaving out those that touch the ray. */
  function nearest(side: number, station: number, w: number): boolean {
    let best = Infinity;
    const slot = slots.slotOf(point[0], point[1], point[2]);
    for (let e = slots.heads[slot]; e >= 0; e = slots.next[e]) {
      const quad = slots.quad[e];
      // Too far from the curve to be nearer than the ray itself.
      if (quads.from[quad] > w) continue;
      const at = quads.sphere;
      const dx = point[0] - at[4 * quad];
      const dy = point[1] - at[4 * quad + 1];
      const dz = point[2] - at[4 * quad + 2];
      if (dx * dx + dy * dy + dz * dz > at[4 * quad + 3]) continue;
      const span = quads.span[quad];
      if (quads.side[quad] === side) {
        const a = pairs[span].station;
        const b = pairs[span + 1].station;
        if (station >= a && station <= b) continue;
        if (closed && ((station === first && b === last) || (station === last && a === first))) continue;
      }
      const distance = distanceIn(quad);
      if (distance < best) {
        best = distance;
        witness.distance = distance;
        headingOf(quad);
      }
    }
    return best < Infinity;
  }

  /** Distance to the curve of `point` as seen in a quad, or Infinity if the quad does not hold it. */
  function distanceIn(quad: number): number {
    const columns = sides[quads.side[quad]];
    const span = quads.span[quad];
    const at = RAY_STRIDE * quads.column[quad];
    const a = rayOf(pairs[span], quads.side[quad]).data;
    const b = rayOf(pairs[span + 1], quads.side[quad]).data;
    return placeInQuad(a, b, at, point, columns.spacing, quads.column[quad] * columns.spacing, uv);
  }

  function headingOf(quad: number): void {
    const span = quads.span[quad];
    const at = RAY_STRIDE * quads.column[quad];
    const a = rayOf(pairs[span], quads.side[quad]).data;
    const b = rayOf(pairs[span + 1], quads.side[quad]).data;
    const v = uv[1];
    const up = at + RAY_STRIDE;
    const a0 = (1 - uv[0]) * (1 - v);
    const b0 = uv[0] * (1 - v);
    const a1 = (1 - uv[0]) * v;
    const b1 = uv[0] * v;
    witness.hx = a0 * a[at + 3] + b0 * b[at + 3] + a1 * a[up + 3] + b1 * b[up + 3];
    witness.hy = a0 * a[at + 4] + b0 * b[at + 4] + a1 * a[up + 4] + b1 * b[up + 4];
    witness.hz = a0 * a[at + 5] + b0 * b[at + 5] + a1 * a[up + 5] + b1 * b[up + 5];
  }
  const uv = new Float64Array(2);

  function crossing(ray: Ray, side: 0 | 1, station: number): number {
    const columns = sides[side];
    const reach = (columns.count - 1) * columns.spacing;
    // Near an open end a ray may run out of what overtakes it again, and between columns.
    const open = !closed && Math.min(station - first, last - station) < 2 * reach;
    const steps = open ? Math.ceil(columns.spacing / END_STEP) : 1;
    const step = columns.spacing / steps;
    for (let k = 1; k <= (columns.count - 1) * steps; k++) {
      const w = k * step;
      if (w > ray.edge + step) break;
      rayPoint(ray, columns, w, point);
      if (!nearest(side, station, w) || witness.distance > w - NEARER) continue;
      return solve(ray, columns, side, station, w - step, w);
    }
    return Infinity;
  }

  /**
   * The place on the ray where the distances by its own way and by another are equal, between `low` (not overtaken) and
   * `high` (overtaken, its witness just found): Newton from above, halved where that leaves the bracket.
   */
  function solve(
    ray: Ray,
    columns: Columns,
    side: number,
    station: number,
    low: number,
    high: number,
  ): number {
    const at = RAY_STRIDE * Math.round(high / columns.spacing);
    for (let round = 0; round < 20 && high - low > EXACT; round++) {
      // The witness's distance changes along the ray by the cosine between the two headings.
      const cosine =
        ray.data[at + 3] * witness.hx + ray.data[at + 4] * witness.hy + ray.data[at + 5] * witness.hz;
      const newton = high - (high - witness.distance) / Math.max(1e-6, 1 - cosine);
      const w = newton > low ? newton : (low + high) / 2;
      rayPoint(ray, columns, w, point);
      const before = witness.distance;
      if (nearest(side, station, w) && witness.distance < w - EQUAL) high = w;
      else if (w === newton) return w;
      else {
        low = w;
        witness.distance = before;
      }
    }
    return high;
  }

  return { crossing };
}
