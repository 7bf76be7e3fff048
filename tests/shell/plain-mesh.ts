import type { SurfaceMesh } from "../../core/mesh/mesh.ts";
import type { Field } from "../../core/surface/field.ts";
import { projectOnto } from "../../core/surface/project.ts";

/** The six tetrahedra of a cube about its diagonal 0–7; corner bits are x, y, z. */
const TETRAHEDRA = [
  [0, 1, 3, 7],
  [0, 3, 2, 7],
  [0, 2, 6, 7],
  [0, 6, 4, 7],
  [0, 4, 5, 7],
  [0, 5, 1, 7],
];

/**
 * A plain mesh for tests: marching tetrahedra on a lattice of `cell` mm, every vertex moved onto the surface. Slow and
 * full of slivers, but independent of the product's mesher.
 */
export function plainMesh(field: Field, cell: number, bounds = field.bounds): SurfaceMesh {
  const { min, max } = bounds;
  const n = [0, 1, 2].map((k) => Math.ceil((max[k] - min[k]) / cell) + 1);
  // Off the round figures, so that no lattice plane lies on a face.
  const at = (k: number, i: number) => min[k] - 0.37 * cell + i * cell;
  const size = [n[0] + 1, n[1] + 1, n[2] + 1];
  const values = new Float64Array(size[0] * size[1] * size[2]);
  const index = (i: number, j: number, k: number) => (k * size[1] + j) * size[0] + i;
  for (let k = 0; k < size[2]; k++)
    for (let j = 0; j < size[1]; j++)
      for (let i = 0; i < size[0]; i++)
        values[index(i, j, k)] = field.evaluate(at(0, i), at(1, j), at(2, k)) || 1e-9;

  const positions: number[] = [];
  const triangles: number[] = [];
  const made = new Map<number, number>();
  const p = new Float64Array(3);
  const place = (v: number): number[] => {
    const i = v % size[0];
    const j = Math.floor(v / size[0]) % size[1];
    return [at(0, i), at(1, j), at(2, Math.floor(v / size[0] / size[1]))];
  };
  const vertex = (a: number, b: number): number => {
    const key = Math.min(a, b) * values.length + Math.max(a, b);
    const known = made.get(key);
    if (known !== undefined) return known;
    const u = values[a] / (values[a] - values[b]);
    const q = place(a);
    const r = place(b);
    for (let c = 0; c < 3; c++) p[c] = q[c] + u * (r[c] - q[c]);
    projectOnto(field, p, 0, 1e-9);
    const v = positions.length / 3;
    positions.push(p[0], p[1], p[2]);
    made.set(key, v);
    return v;
  };
  const corners = new Int32Array(8);
  for (let k = 0; k + 1 < size[2]; k++)
    for (let j = 0; j + 1 < size[1]; j++)
      for (let i = 0; i + 1 < size[0]; i++) {
        for (let c = 0; c < 8; c++) corners[c] = index(i + (c & 1), j + ((c >> 1) & 1), k + (c >> 2));
        let inside = 0;
        for (let c = 0; c < 8; c++) if (values[corners[c]] < 0) inside++;
        if (inside === 0 || inside === 8) continue;
        for (const t of TETRAHEDRA) {
          const air = t.filter((c) => values[corners[c]] < 0).map((c) => corners[c]);
          const ground = t.filter((c) => values[corners[c]] >= 0).map((c) => corners[c]);
          if (air.length === 1) triangles.push(...ground.map((g) => vertex(air[0], g)));
          else if (air.length === 3) triangles.push(...air.map((a) => vertex(a, ground[0])));
          else if (air.length === 2) {
            const [a, b, c, d] = [
              vertex(air[0], ground[0]),
              vertex(air[0], ground[1]),
              vertex(air[1], ground[1]),
              vertex(air[1], ground[0]),
            ];
            triangles.push(a, b, c, a, c, d);
          }
        }
      }

  const vertices = positions.length / 3;
  const owner = new Uint16Array(vertices);
  const normals = new Float32Array(3 * vertices);
  for (let v = 0; v < vertices; v++) {
    const [x, y, z] = positions.slice(3 * v, 3 * v + 3);
    owner[v] = field.owner(field.shares(x, y, z));
    field.evaluate(x, y, z);
    normals.set(field.gradient, 3 * v);
  }
  const kept: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = triangles.slice(t, t + 3).map((v) => 3 * v);
    const mean = (k: number) => (positions[a + k] + positions[b + k] + positions[c + k]) / 3;
    if (field.edge && field.edge.evaluate(mean(0), mean(1), mean(2)) > 0) continue;
    const u = [0, 1, 2].map((k) => positions[b + k] - positions[a + k]);
    const w = [0, 1, 2].map((k) => positions[c + k] - positions[a + k]);
    const n3 = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
    const along = n3[0] * normals[a] + n3[1] * normals[a + 1] + n3[2] * normals[a + 2];
    if (along >= 0) kept.push(triangles[t], triangles[t + 1], triangles[t + 2]);
    else kept.push(triangles[t], triangles[t + 2], triangles[t + 1]);
  }
  return { positions: Float64Array.from(positions), normals, triangles: Uint32Array.from(kept), owner };
}
