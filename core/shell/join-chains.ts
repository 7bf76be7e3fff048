import type { SurfaceMesh } from "../mesh/mesh.ts";
import type { BoundaryChain } from "./boundary-chains.ts";

/** An open chain with its first side on its left, and which of its ends lie nowhere in particular. */
export interface LooseChain {
  readonly chain: BoundaryChain;
  readonly looseStart: boolean;
  readonly looseEnd: boolean;
}

/** Chains that may be one line, in order, and the chain that they make together. */
export interface Joined {
  readonly parts: readonly BoundaryChain[];
  readonly whole: BoundaryChain;
}

/** A face narrower than the mesh's edges may be missed over this length, mm. */
const GAP = 500;

/**
 * Puts chains of one contest together whose loose ends lie near each other: the mesh loses a boundary where a face is
 * narrower than its edges. Whether there is a line between them is for the tracer to find out.
 */
export function joinLooseEnds(mesh: Pick<SurfaceMesh, "positions">, chains: readonly LooseChain[]): Joined[] {
  const pairs: { end: number; start: number; gap: number }[] = [];
  chains.forEach((a, end) => {
    if (!a.looseEnd) return;
    chains.forEach((b, start) => {
      if (!b.looseStart || a.chain.contest !== b.chain.contest) return;
      const last = a.chain.edges.length / 2 - 1;
      const gap = distance(crossing(mesh, a.chain, last), crossing(mesh, b.chain, 0));
      if (gap < GAP && (a !== b || lengthOf(mesh, a.chain) > 3 * gap)) pairs.push({ end, start, gap });
    });
  });
  pairs.sort((p, q) => p.gap - q.gap);
  const next = new Map<number, number>();
  const before = new Map<number, number>();
  for (const { end, start } of pairs) {
    if (next.has(end) || before.has(start)) continue;
    next.set(end, start);
    before.set(start, end);
  }
  const seen = new Set<number>();
  const follow = (from: number): number[] => {
    const run: number[] = [];
    for (let n: number | undefined = from; n !== undefined && !seen.has(n); n = next.get(n)) {
      seen.add(n);
      run.push(n);
    }
    return run;
  };
  const runs = chains
    .map((_, n) => n)
    .filter((n) => !before.has(n))
    .map(follow);
  // What is left goes round in circles.
  for (let n = 0; n < chains.length; n++) if (!seen.has(n)) runs.push(follow(n));
  return runs.map((run) => {
    const parts = run.map((n) => chains[n].chain);
    return { parts, whole: together(parts, before.has(run[0])) };
  });
}

function together(parts: readonly BoundaryChain[], closed: boolean): BoundaryChain {
  if (parts.length === 1 && !closed) return parts[0];
  const edges = Int32Array.from(parts.flatMap((p) => [...p.edges]));
  // No triangle lies between two parts.
  const between = parts.flatMap((p, n) => [...(n === 0 ? [] : [-1]), ...p.between]);
  if (closed) between.push(-1);
  const { start } = closed ? { start: -1 } : parts[0];
  const { end } = closed ? { end: -1 } : parts[parts.length - 1];
  return { contest: parts[0].contest, edges, between: Int32Array.from(between), closed, start, end };
}

function crossing(
  { positions: p }: Pick<SurfaceMesh, "positions">,
  chain: BoundaryChain,
  i: number,
): [number, number, number] {
  const a = 3 * chain.edges[2 * i];
  const b = 3 * chain.edges[2 * i + 1];
  return [(p[a] + p[b]) / 2, (p[a + 1] + p[b + 1]) / 2, (p[a + 2] + p[b + 2]) / 2];
}

function lengthOf(mesh: Pick<SurfaceMesh, "positions">, chain: BoundaryChain): number {
  let sum = 0;
  for (let i = 1; i < chain.edges.length / 2; i++)
    sum += distance(crossing(mesh, chain, i - 1), crossing(mesh, chain, i));
  return sum;
}

function distance(a: ArrayLike<number>, b: ArrayLike<number>): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
