import { boxOf, type Ring } from "./ring.ts";

/**
 * Where one shape may not stand beside another: the places of B's reference point, seen from A's, at which they overlap.
 * For convex parts P of A and Q of B that is the open convex polygon P ⊕ (−Q) (the Minkowski sum; Cuninghame-Green,
 * "Geometry, shoemaking and the milk tray problem", New Scientist, 1989); for the whole shapes it is all of these
 * together. Kept as half planes n·d < c, so that a place is tried with one product an edge, and sorted into cells, so
 * that only polygons near the place are tried.
 */
export interface NoFit {
  /** left, right, low, high of each polygon. */
  readonly boxes: Float64Array;
  /** Polygon k has the half planes from starts[k] up to starts[k + 1]. */
  readonly starts: Int32Array;
  /** nx, ny, c of each half plane, n a unit vector. */
  readonly planes: Float64Array;
  /** Made when a depth is first asked for: laying pieces down along lines asks for none of most. */
  cells: Cells | undefined;
}

interface Cells {
  /** Left and low end of the cells, and cells for each unit along and across. */
  readonly left: number;
  readonly low: number;
  readonly perX: number;
  readonly perY: number;
  /** So many cells along and across. */
  readonly across: number;
  /** Cell i, row by row, has the polygons in `inCells` from cellStarts[i] up to cellStarts[i + 1]. */
  readonly cellStarts: Int32Array;
  readonly inCells: Int32Array;
}

/** Cells are this many times as many as polygons, and this many along and across at the most. */
const CELLS = 4;
const MOST_CELLS = 24;

/** @param clearance by how much B is kept off A; above the rounding of the places, so that what is found can be proved. */
export function noFit(partsOfA: readonly Ring[], partsOfB: readonly Ring[], clearance: number): NoFit {
  const boxes: number[] = [];
  const starts: number[] = [0];
  const planes: number[] = [];
  const turnedB = partsOfB.map((b) => fromLowest(negated(b)));
  for (const a of partsOfA.map(fromLowest)) {
    for (const b of turnedB) {
      const sum = convexSum(a, b);
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
        const c = Math.max(nx * sum[i] + ny * sum[i + 1], nx * sum[j] + ny * sum[j + 1]);
        planes.push(nx, ny, c + clearance);
      }
      starts.push(planes.length / 3);
    }
  }
  return {
    boxes: Float64Array.from(boxes),
    starts: Int32Array.from(starts),
    planes: Float64Array.from(planes),
    cells: undefined,
  };
}

function sortIntoCells({ boxes, planes, starts }: NoFit): Cells {
  const polygons = starts.length - 1;
  const across = polygons < 3 ? 1 : Math.min(MOST_CELLS, Math.ceil(Math.sqrt(CELLS * polygons)));
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < boxes.length; i += 4) {
    left = Math.min(left, boxes[i]);
    right = Math.max(right, boxes[i + 1]);
    low = Math.min(low, boxes[i + 2]);
    high = Math.max(high, boxes[i + 3]);
  }
  const width = (right - left) / across;
  const height = (high - low) / across;
  const hair = 1e-6 * (width + height);
  /** Polygon, row, first and last column of each stretch of cells that a polygon reaches into. */
  const stretches: number[] = [];
  const cellStarts = new Int32Array(across * across + 1);
  for (let k = 0; k < polygons; k++) {
    const firstRow = Math.max(0, Math.floor((boxes[4 * k + 2] - hair - low) / height));
    const lastRow = Math.min(across - 1, Math.floor((boxes[4 * k + 3] + hair - low) / height));
    for (let row = firstRow; row <= lastRow; row++) {
      const y = low + row * height;
      let from = boxes[4 * k] - hair;
      let to = boxes[4 * k + 1] + hair;
      // A cell is left out when the whole of it, and a hair round it, lies beyond one of the polygon's edges.
      for (let i = 3 * starts[k]; i < 3 * starts[k + 1]; i += 3) {
        const nx = planes[i];
        const room = planes[i + 2] + hair - planes[i + 1] * (planes[i + 1] > 0 ? y : y + height);
        if (nx > 0) to = Math.min(to, room / nx);
        else if (nx < 0) from = Math.max(from, room / nx);
        else if (room < 0) to = -Infinity;
      }
      const first = Math.max(0, Math.floor((from - left) / width));
      const last = Math.min(across - 1, Math.floor((to - left) / width));
      if (last < first) continue;
      stretches.push(k, row, first, last);
      for (let column = first; column <= last; column++) cellStarts[row * across + column + 1]++;
    }
  }
  for (let cell = 0; cell < across * across; cell++) cellStarts[cell + 1] += cellStarts[cell];
  const inCells = new Int32Array(cellStarts[across * across]);
  const next = cellStarts.slice();
  for (let i = 0; i < stretches.length; i += 4)
    for (let column = stretches[i + 2]; column <= stretches[i + 3]; column++)
      inCells[next[stretches[i + 1] * across + column]++] = stretches[i];
  return { left, low, perX: 1 / width, perY: 1 / height, across, cellStarts, inCells };
}

/**
 * How deep two shapes overlap with B's reference point at (x, y) from A's: the least way out of each pair of convex parts,
 * summed. Nought exactly where they do not overlap.
 */
export function depthOf(table: NoFit, x: number, y: number): number {
  const { starts, planes } = table;
  table.cells ??= sortIntoCells(table);
  const { left, low, perX, perY, across, cellStarts, inCells } = table.cells;
  const column = Math.floor((x - left) * perX);
  const row = Math.floor((y - low) * perY);
  if (column < 0 || column >= across || row < 0 || row >= across) return 0;
  const cell = row * across + column;
  let sum = 0;
  for (let at = cellStarts[cell]; at < cellStarts[cell + 1]; at++) {
    const k = inCells[at];
    const end = 3 * starts[k + 1];
    let depth = Infinity;
    for (let i = 3 * starts[k]; i < end; i += 3) {
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

/** Minkowski sum of two convex rings, each from its lowest corner on: their edges in the order of their directions. */
function convexSum(p: readonly number[], q: readonly number[]): number[] {
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
