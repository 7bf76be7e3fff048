import type { SurfaceMesh } from "./mesh.ts";
import { pairEdges } from "./pair-edges.ts";

/** The edges of a mesh, each once. Half-edge h = 3·t + i runs from corner i of triangle t to the next. */
export interface MeshEdges {
  readonly count: number;
  /** Edge of each half-edge. */
  readonly edgeOf: Int32Array;
  /** The half-edge whose direction the edge takes. */
  readonly halfEdge: Int32Array;
}

export function edgesOf(mesh: SurfaceMesh): MeshEdges {
  const twin = pairEdges(mesh.triangles, mesh.positions.length / 3);
  const edgeOf = new Int32Array(twin.length);
  const halfEdge = new Int32Array(twin.length);
  let count = 0;
  for (let h = 0; h < twin.length; h++) {
    if (twin[h] >= 0 && twin[h] < h) edgeOf[h] = edgeOf[twin[h]];
    else {
      halfEdge[count] = h;
      edgeOf[h] = count++;
    }
  }
  return { count, edgeOf, halfEdge };
}

/** The vertex at which a half-edge ends. */
export function endOf(mesh: SurfaceMesh, h: number): number {
  return mesh.triangles[h % 3 === 2 ? h - 2 : h + 1];
}
