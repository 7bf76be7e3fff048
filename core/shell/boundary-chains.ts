import type { SurfaceMesh } from "../mesh/mesh.ts";

/**
 * A boundary between owners as the mesh sees it: the edges that it crosses, in order. Between crossings i and i + 1 lies
 * triangle between[i]; a closed chain has one more, from the last crossing to the first.
 */
export interface BoundaryChain {
  /** The contest that decides it: the value of `contestOf` for the owners at both ends of every edge of it. */
  readonly contest: number;
  /** Two vertices for each crossing: the first belongs to the side with the lower face index. */
  readonly edges: Int32Array;
  readonly between: Int32Array;
  readonly closed: boolean;
  /** Triangles in which an open chain begins and ends (other boundaries meet it there); −1 at the mesh's border. */
  readonly start: number;
  readonly end: number;
}

/**
 * Chains every edge whose ends have different owners. Edges with the same contest that share a triangle follow one
 * another; a chain ends in a triangle where it finds no second edge. `contestOf[a·faceCount + b]` names the contest of
 * owners a and b.
 */
export function boundaryChains(
  mesh: Pick<SurfaceMesh, "triangles" | "owner" | "positions">,
  contestOf: Int32Array,
  faceCount: number,
): BoundaryChain[] {
  const crossings = new Crossings(mesh, contestOf, faceCount);
  const { count } = crossings;
  const seen = new Uint8Array(count);
  const chains: BoundaryChain[] = [];
  const walk = (first: number, side: 0 | 1, closed: boolean) => {
    const order: number[] = [];
    const between: number[] = [];
    let edge = first;
    let way: number = side;
    for (;;) {
      order.push(edge);
      seen[edge] = 1;
      const next = crossings.next[2 * edge + way];
      const triangle = crossings.triangle[2 * edge + way];
      if (next < 0 || next === first) {
        const start = closed ? -1 : crossings.triangle[2 * first + 1 - side];
        const end = closed ? -1 : triangle;
        if (closed) between.push(triangle);
        const edges = new Int32Array(2 * order.length);
        order.forEach((e, i) => {
          edges[2 * i] = crossings.ends[2 * e];
          edges[2 * i + 1] = crossings.ends[2 * e + 1];
        });
        chains.push({
          contest: crossings.contest[first],
          edges,
          between: Int32Array.from(between),
          closed,
          start,
          end,
        });
        return;
      }
      between.push(triangle);
      way = crossings.triangle[2 * next] === triangle ? 1 : 0;
      edge = next;
    }
  };
  for (let e = 0; e < count; e++) {
    if (seen[e]) continue;
    if (crossings.next[2 * e] < 0) walk(e, 1, false);
    else if (crossings.next[2 * e + 1] < 0) walk(e, 0, false);
  }
  for (let e = 0; e < count; e++) if (!seen[e]) walk(e, 0, true);
  return chains;
}

/** The crossed edges, each with the one that follows it on either side and the triangle between. */
class Crossings {
  count = 0;
  ends = new Int32Array(2048);
  contest = new Int32Array(1024);
  next = new Int32Array(2048);
  triangle = new Int32Array(2048);
  private sides = new Uint8Array(1024);
  private readonly found = new Map<number, number>();

  constructor(
    mesh: Pick<SurfaceMesh, "triangles" | "owner" | "positions">,
    contestOf: Int32Array,
    faceCount: number,
  ) {
    const { triangles, owner } = mesh;
    const vertices = mesh.positions.length / 3;
    for (let t = 0; 3 * t < triangles.length; t++) {
      const a = triangles[3 * t];
      const b = triangles[3 * t + 1];
      const c = triangles[3 * t + 2];
      if (owner[a] === owner[b] && owner[b] === owner[c]) continue;
      const ab = contestOf[owner[a] * faceCount + owner[b]];
      const bc = contestOf[owner[b] * faceCount + owner[c]];
      const ca = contestOf[owner[c] * faceCount + owner[a]];
      const e = ab < 0 ? -1 : this.edge(a, b, ab, owner, vertices);
      const f = bc < 0 ? -1 : this.edge(b, c, bc, owner, vertices);
      const g = ca < 0 ? -1 : this.edge(c, a, ca, owner, vertices);
      const ef = e >= 0 && f >= 0 && ab === bc;
      const fg = !ef && f >= 0 && g >= 0 && bc === ca;
      const ge = !ef && !fg && g >= 0 && e >= 0 && ca === ab;
      if (e >= 0) this.link(e, ef ? f : ge ? g : -1, t);
      if (f >= 0) this.link(f, ef ? e : fg ? g : -1, t);
      if (g >= 0) this.link(g, fg ? f : ge ? e : -1, t);
    }
  }

  private edge(a: number, b: number, contest: number, owner: Uint16Array, vertices: number): number {
    const key = a < b ? a * vertices + b : b * vertices + a;
    const known = this.found.get(key);
    if (known !== undefined) return known;
    const e = this.count++;
    if (e === this.contest.length) {
      const grow = (from: Int32Array) => {
        const to = new Int32Array(2 * from.length);
        to.set(from);
        return to;
      };
      this.ends = grow(this.ends);
      this.contest = grow(this.contest);
      this.next = grow(this.next);
      this.triangle = grow(this.triangle);
      const sides = new Uint8Array(2 * this.sides.length);
      sides.set(this.sides);
      this.sides = sides;
    }
    const first = owner[a] < owner[b] ? a : b;
    this.ends[2 * e] = first;
    this.ends[2 * e + 1] = first === a ? b : a;
    this.contest[e] = contest;
    this.next[2 * e] = -1;
    this.next[2 * e + 1] = -1;
    this.triangle[2 * e] = -1;
    this.triangle[2 * e + 1] = -1;
    this.found.set(key, e);
    return e;
  }

  private link(e: number, to: number, triangle: number): void {
    const side = this.sides[e];
    // A third triangle on one edge would be a fault of the mesh: it is left out, and the chain still ends.
    if (side > 1) return;
    this.sides[e] = side + 1;
    this.next[2 * e + side] = to;
    this.triangle[2 * e + side] = triangle;
  }
}
