import { pairEdges } from "./pair-edges.ts";

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

/** Adds a triangle with no corners yet and returns its first half-edge. */
export function addTriangle(m: Facets): number {
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
