import type { SurfaceMesh } from "../mesh/mesh.ts";
import type { BoundaryChain } from "./boundary-chains.ts";

export interface ChainGuess {
  /** Three numbers a crossing: the middles of the crossed edges, smoothed once. */
  readonly points: Float64Array;
  /** How far the line may lie from each, mm. */
  readonly slack: Float64Array;
  /** Length of the polyline. */
  readonly lengthMm: number;
  /** For a closed chain: the line begins where y has this value, at the smallest x. */
  readonly startY: number;
  /** The chain itself, turned so that its first side lies on its left, and rotated to its beginning. */
  readonly chain: BoundaryChain;
}

/** Room for the chord's distance from a curved line, mm. */
const CHORD = 6;

/**
 * The polyline that a chain suggests for its exact line, running with the first side on its left; a closed one begins
 * next to where it crosses the pool's centre line, at its shallow end.
 */
export function chainGuess(
  mesh: Pick<SurfaceMesh, "positions" | "triangles">,
  found: BoundaryChain,
): ChainGuess {
  let chain = firstSideLeft(mesh, found);
  let middles = middlesOf(mesh, chain);
  let startY = 0;
  if (chain.closed) {
    const beginning = beginningOf(middles);
    startY = beginning.y;
    chain = rotated(chain, beginning.index);
    middles = middlesOf(mesh, chain);
  }
  const count = middles.length / 3;
  const points = middles.slice();
  const slack = new Float64Array(count);
  const { positions: p } = mesh;
  for (let i = 0; i < count; i++) {
    const a = 3 * chain.edges[2 * i];
    const b = 3 * chain.edges[2 * i + 1];
    slack[i] = Math.hypot(p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]) / 2 + CHORD;
    if (!chain.closed && (i === 0 || i === count - 1)) continue;
    const before = 3 * ((i + count - 1) % count);
    const after = 3 * ((i + 1) % count);
    for (let c = 0; c < 3; c++)
      points[3 * i + c] = (middles[before + c] + 2 * middles[3 * i + c] + middles[after + c]) / 4;
    slack[i] += Math.hypot(
      points[3 * i] - middles[3 * i],
      points[3 * i + 1] - middles[3 * i + 1],
      points[3 * i + 2] - middles[3 * i + 2],
    );
  }
  let lengthMm = 0;
  for (let i = chain.closed ? 0 : 1; i < count; i++) {
    const before = 3 * ((i + count - 1) % count);
    lengthMm += Math.hypot(
      points[3 * i] - points[before],
      points[3 * i + 1] - points[before + 1],
      points[3 * i + 2] - points[before + 2],
    );
  }
  return { points, slack, lengthMm, startY, chain };
}

function middlesOf(mesh: Pick<SurfaceMesh, "positions">, chain: BoundaryChain): Float64Array {
  const { positions: p } = mesh;
  const count = chain.edges.length / 2;
  const middles = new Float64Array(3 * count);
  for (let i = 0; i < count; i++) {
    const a = 3 * chain.edges[2 * i];
    const b = 3 * chain.edges[2 * i + 1];
    for (let c = 0; c < 3; c++) middles[3 * i + c] = (p[a + c] + p[b + c]) / 2;
  }
  return middles;
}

/** The chain, or the chain turned round, so that it runs with its first side on its left. */
export function firstSideLeft(
  mesh: Pick<SurfaceMesh, "positions" | "triangles">,
  chain: BoundaryChain,
): BoundaryChain {
  return facesRight(mesh, chain) ? turned(chain) : chain;
}

/** Whether the chain runs with its first side on the right: by the triangles between its crossings, whose normals point into the ground. */
function facesRight(mesh: Pick<SurfaceMesh, "positions" | "triangles">, chain: BoundaryChain): boolean {
  const { positions: p, triangles } = mesh;
  let left = 0;
  for (let i = 0; i < chain.between.length; i++) {
    const j = (i + 1) % (chain.edges.length / 2);
    if (chain.between[i] < 0) continue;
    const t = 3 * chain.between[i];
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const ux = p[b] - p[a];
    const uy = p[b + 1] - p[a + 1];
    const uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a];
    const vy = p[c + 1] - p[a + 1];
    const vz = p[c + 2] - p[a + 2];
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const e = 3 * chain.edges[2 * i];
    const f = 3 * chain.edges[2 * i + 1];
    const g = 3 * chain.edges[2 * j];
    const h = 3 * chain.edges[2 * j + 1];
    const tx = (p[g] + p[h] - p[e] - p[f]) / 2;
    const ty = (p[g + 1] + p[h + 1] - p[e + 1] - p[f + 1]) / 2;
    const tz = (p[g + 2] + p[h + 2] - p[e + 2] - p[f + 2]) / 2;
    const across = (k: number) => p[e + k] - p[f + k] + p[g + k] - p[h + k];
    left +=
      (ny * tz - nz * ty) * across(0) + (nz * tx - nx * tz) * across(1) + (nx * ty - ny * tx) * across(2);
  }
  return left < 0;
}

function turned(chain: BoundaryChain): BoundaryChain {
  const count = chain.edges.length / 2;
  const edges = new Int32Array(2 * count);
  for (let i = 0; i < count; i++) {
    edges[2 * i] = chain.edges[2 * (count - 1 - i)];
    edges[2 * i + 1] = chain.edges[2 * (count - 1 - i) + 1];
  }
  // Between the new crossings i and i + 1 lay the old ones count − 2 − i and count − 1 − i; the seam stays last.
  const inner = chain.closed ? chain.between.subarray(0, count - 1) : chain.between;
  const between = Int32Array.from(
    [...inner].reverse().concat(chain.closed ? [chain.between[count - 1]] : []),
  );
  return { ...chain, edges, between, start: chain.end, end: chain.start };
}

function rotated(chain: BoundaryChain, by: number): BoundaryChain {
  const count = chain.edges.length / 2;
  const edges = new Int32Array(2 * count);
  const between = new Int32Array(count);
  for (let i = 0; i < count; i++) {
    const from = (i + by) % count;
    edges[2 * i] = chain.edges[2 * from];
    edges[2 * i + 1] = chain.edges[2 * from + 1];
    between[i] = chain.between[from];
  }
  return { ...chain, edges, between };
}

/** The point nearest to where a closed line crosses the centre line (or, off it, its own middle line) at the smallest x. */
function beginningOf(middles: Float64Array): { index: number; y: number } {
  const count = middles.length / 3;
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < count; i++) {
    low = Math.min(low, middles[3 * i + 1]);
    high = Math.max(high, middles[3 * i + 1]);
  }
  const y = low < 0 && high > 0 ? 0 : (low + high) / 2;
  let index = 0;
  let best = Infinity;
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    const before = middles[3 * i + 1] - y;
    const after = middles[3 * j + 1] - y;
    if (before * after > 0 || before === after) continue;
    const x = Math.min(middles[3 * i], middles[3 * j]);
    if (x >= best) continue;
    best = x;
    index = Math.abs(before) < Math.abs(after) ? i : j;
  }
  return { index, y };
}
