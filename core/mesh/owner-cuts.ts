import type { SurfaceMesh } from "./mesh.ts";
import { endOf, type MeshEdges } from "./mesh-edges.ts";
import type { Space } from "./space.ts";

/**
 * Where the owner changes along those edges of a mesh whose ends belong to different faces: the part of the way from the
 * edge's start, and how fast the start's face falls behind there (shares per whole edge, negative). NaN elsewhere.
 */
export interface OwnerCuts {
  readonly place: Float64Array;
  readonly slope: Float64Array;
}

/** Most looks at the field for one edge. */
const MOST_LOOKS = 24;
/** The place is known within this part of the edge before the last interpolation. */
const CLOSE = 2e-3;

/** Finds the places by the Illinois rule on the lead of one face over the other, its sign the field's own judgement. */
export function ownerCuts(
  space: Space,
  mesh: SurfaceMesh,
  edges: MeshEdges,
  middles: Float64Array,
): OwnerCuts {
  const { owner, positions: p, triangles } = mesh;
  const place = new Float64Array(edges.count).fill(Number.NaN);
  const slope = new Float64Array(edges.count).fill(Number.NaN);
  const shares = vertexShares(space, mesh);
  for (let e = 0; e < edges.count; e++) {
    const h = edges.halfEdge[e];
    const a = triangles[h];
    const b = endOf(mesh, h);
    const mine = owner[a];
    const other = owner[b];
    if (mine === other) continue;
    let low = 0;
    let high = 1;
    let atLow = Math.max(shares(a, mine) - shares(a, other), 1e-9);
    let atHigh = Math.min(shares(b, mine) - shares(b, other), -1e-9);
    let kept = 0;
    let t = 0.5;
    for (let look = 0; look < MOST_LOOKS && high - low > CLOSE; look++) {
      const before = t;
      // Away from the blend the shares are flat and a step by their slope would creep: every third look halves.
      t = look % 3 === 2 ? (low + high) / 2 : low + ((high - low) * atLow) / (atLow - atHigh);
      if (look > 0 && look % 3 !== 2 && Math.abs(t - before) < CLOSE) break;
      const value = leadAt(space, p, middles, a, b, e, t, mine, other);
      if (value > 0) {
        low = t;
        atLow = value;
        if (kept > 0) atHigh /= 2;
        kept = 1;
      } else {
        high = t;
        atHigh = value;
        if (kept < 0) atLow /= 2;
        kept = -1;
      }
    }
    place[e] = low + ((high - low) * atLow) / (atLow - atHigh);
    slope[e] = (atHigh - atLow) / (high - low);
  }
  return { place, slope };
}

/** How far face `mine` leads over `other` on the curved edge e from vertex a to b, t of the way; > 0 where it owns. */
function leadAt(
  space: Space,
  p: Float64Array,
  middles: Float64Array,
  a: number,
  b: number,
  e: number,
  t: number,
  mine: number,
  other: number,
): number {
  const u = (1 - t) * (1 - 2 * t);
  const m = 4 * t * (1 - t);
  const w = t * (2 * t - 1);
  return lead(
    space,
    u * p[3 * a] + m * middles[3 * e] + w * p[3 * b],
    u * p[3 * a + 1] + m * middles[3 * e + 1] + w * p[3 * b + 1],
    u * p[3 * a + 2] + m * middles[3 * e + 2] + w * p[3 * b + 2],
    mine,
    other,
  );
}

/**
 * How far face `mine` leads over `other` at a point, −1 … 1. The sign is that of the field's owner, since a third face
 * may decide.
 */
export function lead(space: Space, x: number, y: number, z: number, mine: number, other: number): number {
  const field = space.fieldAt(x, y, z);
  const shares = field.shares(x, y, z);
  const by = shares[mine] - shares[other];
  return field.owner(shares) === mine ? Math.max(by, 1e-9) : Math.min(by, -1e-9);
}

/** Share of a face at a vertex; the field is asked once for each vertex. */
function vertexShares(space: Space, { positions: p }: SurfaceMesh): (vertex: number, face: number) => number {
  const faces = space.field.faces.length;
  const rowOf = new Int32Array(p.length / 3);
  let rows = new Float64Array(1024 * faces);
  let count = 0;
  return (vertex, face) => {
    if (rowOf[vertex] === 0) {
      const [x, y, z] = [p[3 * vertex], p[3 * vertex + 1], p[3 * vertex + 2]];
      const shares = space.fieldAt(x, y, z).shares(x, y, z);
      if ((count + 1) * faces > rows.length) {
        const larger = new Float64Array(2 * rows.length);
        larger.set(rows);
        rows = larger;
      }
      for (let f = 0; f < faces; f++) rows[count * faces + f] = shares[f];
      rowOf[vertex] = ++count;
    }
    return rows[(rowOf[vertex] - 1) * faces + face];
  };
}
