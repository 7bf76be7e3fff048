/**
 * A triangle net that can be edited in place. Half-edge h = 3·t + i runs from corner[h] to the next corner of triangle t;
 * twin[h] is the same edge seen from the neighbour, −1 on an open boundary. All arrays are flat and grow by doubling;
 * functions that add vertices or triangles may replace them, so callers read them afresh afterwards.
 */
export interface Facets {
  vertices: number;
  triangles: number;
  /** x, y, z, mm. */
  position: Float64Array;
  /** Unit normal of the field at each vertex. */
  normal: Float64Array;
  /** 1 where the vertex lies on the edge cut: it may slide along the cut only. */
  onCut: Uint8Array;
  /** How surely each vertex lies on the surface: SEATED, TAKEN or ADRIFT. */
  standing: Uint8Array;
  /** Face that owns each seated vertex, as the field said when it was seated; −1 for others. */
  owner: Int16Array;
  /** A half-edge that leaves each vertex; −1 for a vertex no longer in use. */
  leaving: Int32Array;
  /** Start of each half-edge; −1 in a triangle that has been removed. */
  corner: Int32Array;
  twin: Int32Array;
  /**
   * 1 for a triangle with which there is nothing to be done: it lies in a plane face, is small enough and well shaped. Known of
   * those that come from cutting a larger one into four, half of a mesh, until they or their corners are changed.
   */
  plain: Uint8Array;
}

/** Seated by the field. */
export const SEATED = 0;
/** Taken to lie in a plane face, since all round it does; not asked of the field yet. */
export const TAKEN = 1;
/** The field would not seat it (it is torn there): it stays on its chord, and edges at it are not split. */
export const ADRIFT = 2;

export function makeFacets(
  position: Float64Array,
  normal: Float64Array,
  vertices: number,
  corner: Int32Array,
): Facets {
  const triangles = corner.length / 3;
  const facets: Facets = {
    vertices,
    triangles,
    position,
    normal,
    onCut: new Uint8Array(position.length / 3),
    standing: new Uint8Array(position.length / 3),
    owner: new Int16Array(position.length / 3).fill(-1),
    leaving: new Int32Array(position.length / 3).fill(-1),
    corner,
    twin: new Int32Array(0),
    plain: new Uint8Array(triangles),
  };
  facets.twin = pairEdges(corner, vertices);
  for (let h = 0; h < corner.length; h++) facets.leaving[corner[h]] = h;
  return facets;
}

export function next(h: number): number {
  return h % 3 === 2 ? h - 2 : h + 1;
}

export function previous(h: number): number {
  return h % 3 === 0 ? h + 2 : h - 1;
}

/**
 * Twin of each half-edge of a triangle list: the opposite half-edge of the neighbour, −1 where there is none. Where more
 * than two triangles share an edge, pairs are formed while they last and the rest stay open.
 */
export function pairEdges(corner: ArrayLike<number>, vertices: number): Int32Array {
  const n = corner.length;
  const twin = new Int32Array(n).fill(-1);
  // Half-edges not yet paired, chained by the lower of their two vertices.
  const first = new Int32Array(vertices).fill(-1);
  const chain = new Int32Array(n);
  for (let t = 0; t < n; t += 3)
    for (let i = 0; i < 3; i++) {
      const h = t + i;
      const a = corner[h];
      const b = corner[i === 2 ? t : h + 1];
      const low = Math.min(a, b);
      const high = Math.max(a, b);
      let before = -1;
      let g = first[low];
      for (; g >= 0; before = g, g = chain[g]) {
        const e = g % 3 === 2 ? g - 2 : g + 1;
        const c = corner[g];
        if (c === b && corner[e] === a && (c === high || corner[e] === high)) break;
      }
      if (g >= 0) {
        twin[h] = g;
        twin[g] = h;
        if (before < 0) first[low] = chain[g];
        else chain[before] = chain[g];
      } else {
        chain[h] = first[low];
        first[low] = h;
      }
    }
  return twin;
}

function grown<A extends Float64Array | Int32Array | Int16Array | Uint8Array>(array: A, length: number): A {
  const larger = new (array.constructor as new (n: number) => A)(length);
  larger.set(array);
  return larger;
}

/** Adds a vertex with no place yet and returns its number. */
export function addVertex(m: Facets): number {
  const v = m.vertices++;
  if (v >= m.leaving.length) {
    const room = 2 * v + 64;
    m.position = grown(m.position, 3 * room);
    m.normal = grown(m.normal, 3 * room);
    m.onCut = grown(m.onCut, room);
    m.standing = grown(m.standing, room);
    m.owner = grown(m.owner, room);
    m.leaving = grown(m.leaving, room);
  }
  m.onCut[v] = 0;
  m.standing[v] = SEATED;
  m.owner[v] = -1;
  m.leaving[v] = -1;
  return v;
}

function addTriangle(m: Facets): number {
  const h = 3 * m.triangles++;
  if (h + 2 >= m.corner.length) {
    const room = 2 * h + 192;
    m.corner = grown(m.corner, room);
    m.twin = grown(m.twin, room);
    m.plain = grown(m.plain, room / 3);
  }
  m.plain[h / 3] = 0;
  return h;
}

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
 * The half-edge at which a walk round the vertex of `h` begins: on an open boundary the last one clockwise, so that
 * stepping on by `aroundFrom` meets every triangle of the vertex.
 */
export function startOf(m: Facets, vertex: number): number {
  const first = m.leaving[vertex];
  let h = first;
  for (;;) {
    const g = m.twin[h];
    if (g < 0) return h;
    h = next(g);
    if (h === first) return h;
  }
}

/** The next half-edge counter-clockwise that leaves the same vertex; −1 at an open boundary. */
export function aroundFrom(m: Facets, h: number): number {
  return m.twin[previous(h)];
}

/** To be called when a vertex has been moved other than within a plane face: none of its triangles is plain any more. */
export function unplain(m: Facets, vertex: number): void {
  const start = startOf(m, vertex);
  let h = start;
  do {
    m.plain[(h / 3) | 0] = 0;
    h = aroundFrom(m, h);
  } while (h >= 0 && h !== start);
}

/** Whether an edge joins the two vertices. */
export function joined(m: Facets, a: number, b: number): boolean {
  const start = startOf(m, a);
  let h = start;
  do {
    if (m.corner[next(h)] === b || m.corner[previous(h)] === b) return true;
    h = aroundFrom(m, h);
  } while (h >= 0 && h !== start);
  return false;
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
