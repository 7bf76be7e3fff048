import type { SurfaceMesh } from "./mesh.ts";
import { endOf, type MeshEdges } from "./mesh-edges.ts";
import type { Space } from "./space.ts";

/** Ends that disagree about the bend between them by more than this part of it (and mm) are not on one arc. */
const DISAGREE = 0.02;
const DISAGREE_MM = 1e-4;

/**
 * Middles of the edges of a mesh, bent to follow the surface: x, y, z of each edge. A middle lies off its chord by
 * (b − a)·(n_b − n_a)/8 along the mean normal (cubic Hermite, exact to fourth order). Where the ends disagree about the
 * bend, as on an edge that runs from a plane face into a round, that would be off by a part of the sagitta: there, when a
 * space is given, one step of Newton's on the field seats the middle.
 */
export function curvedMiddles(mesh: SurfaceMesh, edges: MeshEdges, space: Space | null): Float64Array {
  const middles = new Float64Array(3 * edges.count);
  for (let e = 0; e < edges.count; e++) {
    const h = edges.halfEdge[e];
    middle(mesh, mesh.triangles[h], endOf(mesh, h), middles, 3 * e, space);
  }
  return middles;
}

function middle(
  mesh: SurfaceMesh,
  i: number,
  j: number,
  out: Float64Array,
  at: number,
  space: Space | null,
): void {
  const p = mesh.positions;
  const n = mesh.normals;
  const a = 3 * i;
  const b = 3 * j;
  const dx = p[b] - p[a];
  const dy = p[b + 1] - p[a + 1];
  const dz = p[b + 2] - p[a + 2];
  const atA = dx * n[a] + dy * n[a + 1] + dz * n[a + 2];
  const atB = dx * n[b] + dy * n[b + 1] + dz * n[b + 2];
  let x = (p[a] + p[b]) / 2;
  let y = (p[a + 1] + p[b + 1]) / 2;
  let z = (p[a + 2] + p[b + 2]) / 2;
  if (space && Math.abs(atA + atB) > DISAGREE_MM + DISAGREE * Math.abs(atA - atB)) {
    const field = space.fieldAt(x, y, z);
    const f = field.evaluate(x, y, z);
    const g = field.gradient;
    const g2 = g[0] * g[0] + g[1] * g[1] + g[2] * g[2];
    // No further than the tangent planes allow: a torn field may throw the point anywhere.
    if (g2 > 1e-12 && f * f < (atA * atA + atB * atB) * g2) {
      const move = f / g2;
      x -= move * g[0];
      y -= move * g[1];
      z -= move * g[2];
    }
  } else {
    const nx = n[a] + n[b];
    const ny = n[a + 1] + n[b + 1];
    const nz = n[a + 2] + n[b + 2];
    const size = nx * nx + ny * ny + nz * nz;
    // The sum of the normals is 2 cos(½ turn) long: dividing by its square scales the sagitta to the mean normal.
    const s = size > 1e-9 ? (atB - atA) / (4 * size) : 0;
    x += s * nx;
    y += s * ny;
    z += s * nz;
  }
  out[at] = x;
  out[at + 1] = y;
  out[at + 2] = z;
}
