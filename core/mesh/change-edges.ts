/** The three changes of a net, each at one edge: splitting it, turning it to the other diagonal, drawing it together. */
import { addTriangle, aroundFrom, type Facets, next, startOf } from "./facets.ts";

function join(twin: Int32Array, a: number, b: number): void {
  twin[a] = b;
  if (b >= 0) twin[b] = a;
}

/** Splits the edge of half-edge `h` at vertex `v`; each triangle at it becomes two. */
export function splitEdge(m: Facets, h: number, v: number): void {
  const g = m.twin[h];
  const T = addTriangle(m);
  const S = g >= 0 ? addTriangle(m) : -1;
  const { corner, twin, leaving, plain } = m;
  const h1 = next(h);
  const h2 = next(h1);
  const b = corner[h1];
  plain[(h / 3) | 0] = 0;
  if (g >= 0) plain[(g / 3) | 0] = 0;
  // (a, b, c) becomes (a, v, c) and (v, b, c).
  corner[T] = v;
  corner[T + 1] = b;
  corner[T + 2] = corner[h2];
  corner[h1] = v;
  join(twin, T + 1, twin[h1]);
  join(twin, h1, T + 2);
  leaving[b] = T + 1;
  leaving[v] = h1;
  if (g < 0) {
    twin[T] = -1;
    return;
  }
  const g1 = next(g);
  const g2 = next(g1);
  // (b, a, d) becomes (v, a, d) and (b, v, d).
  corner[S] = b;
  corner[S + 1] = v;
  corner[S + 2] = corner[g2];
  corner[g] = v;
  join(twin, S + 2, twin[g2]);
  join(twin, g2, S + 1);
  join(twin, S, T);
}

/** Turns the edge of `h` to the other diagonal of its two triangles. The caller has made sure that there are two. */
export function flipEdge(m: Facets, h: number): void {
  const { corner, twin, leaving } = m;
  const g = twin[h];
  const h1 = next(h);
  const h2 = next(h1);
  const g1 = next(g);
  const g2 = next(g1);
  const a = corner[h];
  const b = corner[g];
  const c = corner[h2];
  const d = corner[g2];
  m.plain[(h / 3) | 0] = 0;
  m.plain[(g / 3) | 0] = 0;
  const bc = twin[h1];
  const ca = twin[h2];
  const ad = twin[g1];
  const db = twin[g2];
  corner[h] = d;
  corner[h1] = c;
  corner[h2] = a;
  corner[g] = c;
  corner[g1] = d;
  corner[g2] = b;
  join(twin, h1, ca);
  join(twin, h2, ad);
  join(twin, g1, db);
  join(twin, g2, bc);
  leaving[a] = h2;
  leaving[b] = g2;
  leaving[c] = h1;
  leaving[d] = g1;
}

/**
 * Draws the start of half-edge `h` into its end, which removes the triangles at the edge. The caller has made sure
 * that the net stays a surface: the two ends share no neighbours but the corners opposite the edge.
 */
export function collapseEdge(m: Facets, h: number): void {
  const { corner, twin, leaving } = m;
  const a = corner[h];
  const b = corner[next(h)];
  const start = startOf(m, a);
  let walk = start;
  do {
    const on = aroundFrom(m, walk);
    corner[walk] = b;
    m.plain[(walk / 3) | 0] = 0;
    walk = on;
  } while (walk >= 0 && walk !== start);
  for (const side of [h, twin[h]]) {
    if (side < 0) continue;
    const s1 = next(side);
    const s2 = next(s1);
    const p = twin[s1];
    const q = twin[s2];
    const apex = corner[s2];
    // The two outer edges of the removed triangle become one.
    if (p >= 0) twin[p] = q;
    if (q >= 0) twin[q] = p;
    if (p >= 0) {
      leaving[apex] = p;
      leaving[b] = next(p);
    }
    if (q >= 0) {
      leaving[b] = q;
      leaving[apex] = next(q);
    }
    if (p < 0 && q < 0) leaving[apex] = -1;
    const t = side - (side % 3);
    corner[t] = -1;
    corner[t + 1] = -1;
    corner[t + 2] = -1;
  }
  leaving[a] = -1;
}
