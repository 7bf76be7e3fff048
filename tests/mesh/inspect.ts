import type { SurfaceMesh } from "../../core/mesh/mesh.ts";
import type { Field } from "../../core/surface/field.ts";

/** What a mesh is, found the slow and obvious way: by listing edges in a map. */
export function inspect(field: Field, mesh: SurfaceMesh) {
  const { positions: p, normals: n, triangles } = mesh;
  const vertices = p.length / 3;
  const at = (v: number) => [p[3 * v], p[3 * v + 1], p[3 * v + 2]] as const;
  const edges = new Map<string, { forward: number; backward: number; a: number; b: number }>();
  let turned = 0;
  let smallest = 180;
  let gap = 0;
  const value = (x: number, y: number, z: number) => Math.abs(field.evaluate(x, y, z));
  for (let t = 0; t < triangles.length; t += 3) {
    const v = [triangles[t], triangles[t + 1], triangles[t + 2]];
    const [a, b, c] = v.map(at);
    const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    const w = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
    const cross = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
    let way = 0;
    for (const i of v) for (let k = 0; k < 3; k++) way += n[3 * i + k] * cross[k];
    if (way <= 0) turned++;
    gap = Math.max(gap, value((a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3, (a[2] + b[2] + c[2]) / 3));
    for (let i = 0; i < 3; i++) {
      const [q, r, s] = [at(v[i]), at(v[(i + 1) % 3]), at(v[(i + 2) % 3])];
      const x = [r[0] - q[0], r[1] - q[1], r[2] - q[2]];
      const y = [s[0] - q[0], s[1] - q[1], s[2] - q[2]];
      const dot = x[0] * y[0] + x[1] * y[1] + x[2] * y[2];
      const sine = Math.hypot(
        x[1] * y[2] - x[2] * y[1],
        x[2] * y[0] - x[0] * y[2],
        x[0] * y[1] - x[1] * y[0],
      );
      smallest = Math.min(smallest, (Math.atan2(sine, dot) * 180) / Math.PI);
      gap = Math.max(gap, value((q[0] + r[0]) / 2, (q[1] + r[1]) / 2, (q[2] + r[2]) / 2));
      const [low, high] = [Math.min(v[i], v[(i + 1) % 3]), Math.max(v[i], v[(i + 1) % 3])];
      const key = `${low} ${high}`;
      const edge = edges.get(key) ?? { forward: 0, backward: 0, a: low, b: high };
      if (low === v[i]) edge.forward++;
      else edge.backward++;
      edges.set(key, edge);
    }
  }
  const all = [...edges.values()];
  const open = all.filter((e) => e.forward + e.backward === 1);
  let off = 0;
  let normalOff = 0;
  for (let v = 0; v < vertices; v++) {
    const [x, y, z] = at(v);
    off = Math.max(off, value(x, y, z));
    const size = Math.hypot(...field.gradient);
    for (let k = 0; k < 3; k++)
      normalOff = Math.max(normalOff, Math.abs(field.gradient[k] / size - n[3 * v + k]));
  }
  const offCut = Math.max(
    0,
    ...open.flatMap((e) => [e.a, e.b]).map((v) => Math.abs(field.edge?.evaluate(...at(v)) ?? Infinity)),
  );
  return {
    vertices,
    triangles: triangles.length / 3,
    /** Vertices − edges + triangles: 2 for a sphere, 0 for a torus, 1 for a disc. */
    euler: vertices - all.length + triangles.length / 3,
    openEdges: open.length,
    /** Edges of more than two triangles or with both the same way round. */
    tangled: all.filter((e) => e.forward > 1 || e.backward > 1).length,
    /** Triangles that look the wrong way. */
    turned,
    smallestAngleDeg: smallest,
    /** Largest distance of a middle of an edge or a triangle from the surface, mm. */
    gapMm: gap,
    /** Largest distance of a vertex from the surface, and of an open edge's end from the cut, mm. */
    offMm: off,
    offCutMm: offCut,
    normalOff,
  };
}
