import { addVertex, aroundFrom, type Facets } from "./facets.ts";

/**
 * Gives every fan of triangles a vertex of its own: where a cut leaves two that touch in a point only, whoever walks round the
 * point would see one of them, and with it drawn together the other would be left without a vertex.
 */
export function partFans(m: Facets): void {
  const { corner, twin } = m;
  const met = new Uint8Array(m.vertices);
  for (let h = 0; h < 3 * m.triangles; h++) {
    // A fan that ends at an open boundary begins there too.
    if (corner[h] < 0 || twin[h] >= 0) continue;
    const v = corner[h];
    if (met[v] === 0) {
      met[v] = 1;
      m.leaving[v] = h;
      continue;
    }
    const own = copyOf(m, v);
    m.leaving[own] = h;
    for (let walk = h; walk >= 0; walk = aroundFrom(m, walk)) corner[walk] = own;
  }
}

function copyOf(m: Facets, v: number): number {
  const own = addVertex(m);
  for (let i = 0; i < 3; i++) {
    m.position[3 * own + i] = m.position[3 * v + i];
    m.normal[3 * own + i] = m.normal[3 * v + i];
  }
  m.onCut[own] = m.onCut[v];
  m.standing[own] = m.standing[v];
  m.owner[own] = m.owner[v];
  return own;
}
