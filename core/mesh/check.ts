import type { Field } from "../surface/field.ts";
import type { SurfaceMesh } from "./mesh.ts";
import { pairEdges } from "./pair-edges.ts";
import { type Flaw, makeProbe } from "./probe.ts";
import { type Space, spaceOf } from "./space.ts";

/** What a mesh and the surface under it are found to be. */
export interface MeshCheck {
  readonly triangles: number;
  /** Edges with a triangle on one side only, and those of them that do not lie on the surface's edge: holes. */
  readonly openEdges: number;
  readonly holeEdges: number;
  /** Edges shared by more than two triangles, or run the same way by two. */
  readonly tangledEdges: number;
  /** Smallest angle of any triangle, radians. */
  readonly smallestAngle: number;
  /** Largest distance of an edge's middle or a triangle's centroid from the surface, mm. */
  readonly chordGapMm: number;
  /** Neighbouring points of the surface that stay apart however close they are asked for. */
  readonly tears: readonly Flaw[];
  /** Jumps of the normal that stay however close one looks. */
  readonly kinks: readonly Flaw[];
}

export interface CheckLimits {
  /** Gaps wider than this are tears, mm. */
  readonly tearMm: number;
  /** Turns over more than this are kinks, radians. */
  readonly kinkRad: number;
}

/** As asked of every shell: no tear over 0.1 mm, no kink over 1°. */
const usualLimits: CheckLimits = { tearMm: 0.1, kinkRad: Math.PI / 180 };

/** Vertices of the open boundary lie on the edge cut within this, mm. */
const ON_EDGE = 1e-3;

/**
 * The surface's self-check: is the mesh closed but for the surface's own edge, are its triangles well shaped and close
 * to the surface, and is the surface under it whole and smooth: every edge that leaves a tangent plane is followed on
 * the surface by halving until it turns out smooth, to hide a kink, or to be torn.
 */
export function checkMesh(field: Field, mesh: SurfaceMesh, limits: CheckLimits = usualLimits): MeshCheck {
  return {
    triangles: mesh.triangles.length / 3,
    smallestAngle: smallestAngle(mesh),
    chordGapMm: largestGap(spaceOf(field), mesh),
    ...checkSurface(field, mesh, limits),
  };
}

/** What the self-check says of the surface alone: whether it is closed, whole and smooth, whatever the mesh's triangles look like. */
export type SurfaceCheck = Omit<MeshCheck, "triangles" | "smallestAngle" | "chordGapMm">;

/** The part of the self-check that looks for flaws of the surface: holes, tangles, tears and kinks. */
export function checkSurface(
  field: Field,
  mesh: SurfaceMesh,
  limits: CheckLimits = usualLimits,
): SurfaceCheck {
  return { ...checkEdges(field, mesh), ...findFlaws(spaceOf(field), mesh, limits) };
}

function checkEdges(
  { edge }: Field,
  { triangles, positions: p }: SurfaceMesh,
): Pick<MeshCheck, "openEdges" | "holeEdges" | "tangledEdges"> {
  const vertices = p.length / 3;
  const twin = pairEdges(triangles, vertices);
  const end = (h: number) => triangles[h % 3 === 2 ? h - 2 : h + 1];
  const key = (h: number) => Math.min(triangles[h], end(h)) * vertices + Math.max(triangles[h], end(h));
  const onEdge = (v: number) =>
    edge !== null && Math.abs(edge.evaluate(p[3 * v], p[3 * v + 1], p[3 * v + 2])) < ON_EDGE;
  // An edge of more than two triangles leaves half-edges over beside its pairs, or several without any.
  const single = new Map<number, number>();
  for (let h = 0; h < twin.length; h++) if (twin[h] < 0) single.set(key(h), (single.get(key(h)) ?? 0) + 1);
  const tangled = new Set<number>();
  for (const [edgeKey, count] of single) if (count > 1) tangled.add(edgeKey);
  if (single.size > 0)
    for (let h = 0; h < twin.length; h++) if (twin[h] > h && single.has(key(h))) tangled.add(key(h));
  let openEdges = 0;
  let holeEdges = 0;
  for (let h = 0; h < twin.length; h++) {
    if (twin[h] >= 0 || tangled.has(key(h))) continue;
    openEdges++;
    if (!onEdge(triangles[h]) || !onEdge(end(h))) holeEdges++;
  }
  return { openEdges, holeEdges, tangledEdges: tangled.size };
}

function smallestAngle({ triangles, positions: p }: SurfaceMesh): number {
  let most = triangles.length === 0 ? 0.5 : -1;
  for (let t = 0; t < triangles.length; t += 3)
    for (let i = 0; i < 3; i++) {
      const a = 3 * triangles[t + i];
      const b = 3 * triangles[t + ((i + 1) % 3)];
      const c = 3 * triangles[t + ((i + 2) % 3)];
      let uu = 0;
      let vv = 0;
      let uv = 0;
      for (let k = 0; k < 3; k++) {
        const u = p[b + k] - p[a + k];
        const v = p[c + k] - p[a + k];
        uu += u * u;
        vv += v * v;
        uv += u * v;
      }
      const cosine = uu > 0 && vv > 0 ? uv / Math.sqrt(uu * vv) : 1;
      if (cosine > most) most = cosine;
    }
  return Math.acos(Math.min(most, 1));
}

function largestGap(space: Space, { triangles, positions: p }: SurfaceMesh): number {
  let most = 0;
  const look = (x: number, y: number, z: number): void => {
    const gap = Math.abs(space.fieldAt(x, y, z).evaluate(x, y, z));
    if (gap > most) most = gap;
  };
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    look(
      (p[a] + p[b] + p[c]) / 3,
      (p[a + 1] + p[b + 1] + p[c + 1]) / 3,
      (p[a + 2] + p[b + 2] + p[c + 2]) / 3,
    );
    // Inner edges come twice, once each way round; of the open ones half are looked at, and all triangles beside them.
    if (a < b) look((p[a] + p[b]) / 2, (p[a + 1] + p[b + 1]) / 2, (p[a + 2] + p[b + 2]) / 2);
    if (b < c) look((p[b] + p[c]) / 2, (p[b + 1] + p[c + 1]) / 2, (p[b + 2] + p[c + 2]) / 2);
    if (c < a) look((p[c] + p[a]) / 2, (p[c + 1] + p[a + 1]) / 2, (p[c + 2] + p[a + 2]) / 2);
  }
  return most;
}

function findFlaws(space: Space, mesh: SurfaceMesh, limits: CheckLimits): Pick<MeshCheck, "tears" | "kinks"> {
  const { triangles } = mesh;
  const probe = makeProbe(space, limits);
  const tears: Flaw[] = [];
  const kinks: Flaw[] = [];
  for (let h = 0; h < triangles.length; h++) {
    const a = triangles[h];
    const b = triangles[h % 3 === 2 ? h - 2 : h + 1];
    if (a > b) continue;
    const found = probe(mesh, a, b);
    if (found?.tear) tears.push(found.flaw);
    else if (found) kinks.push(found.flaw);
  }
  return { tears, kinks };
}
