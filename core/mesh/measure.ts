import type { Field } from "../surface/field.ts";
import { curvedMiddles } from "./curved-edges.ts";
import { curve, extrapolated, makeCurvedTriangle, planeArea } from "./curved-triangle.ts";
import type { SurfaceMesh } from "./mesh.ts";
import { edgesOf } from "./mesh-edges.ts";
import { ownerCuts } from "./owner-cuts.ts";
import { makeShareOut } from "./share-out.ts";
import { spaceOf } from "./space.ts";

/** What a surface measures. */
export interface SurfaceMeasure {
  readonly areaMm2: number;
  /** Area that each face owns, in the order of `field.faces`; they sum to `areaMm2`. */
  readonly areaByFace: Float64Array;
}

/**
 * Area of the surface under a mesh, whole and by face, mm². Each triangle stands for a curved one; those whose corners
 * belong to different faces are shared out along the lines where the field's owner changes.
 */
export function measureSurface(field: Field, mesh: SurfaceMesh): SurfaceMeasure {
  const { triangles, owner } = mesh;
  const space = spaceOf(field);
  const edges = edgesOf(mesh);
  const middles = curvedMiddles(mesh, edges, space);
  const shareOut = makeShareOut(space, mesh, edges, ownerCuts(space, mesh, edges, middles));
  const areaByFace = new Float64Array(field.faces.length);
  const curved = makeCurvedTriangle();
  let areaMm2 = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    curve(mesh, edges, middles, t, curved);
    const area = extrapolated(curved, planeArea);
    areaMm2 += area;
    const face = owner[triangles[t]];
    if (owner[triangles[t + 1]] === face && owner[triangles[t + 2]] === face) areaByFace[face] += area;
    else shareOut.add(curved, t, area, areaByFace);
  }
  return { areaMm2, areaByFace };
}

/**
 * Volume between the level z = `level` and the surface below it, mm³, where `inside(x, y)` < 0: the coping's outer edge
 * dips below the rim too and must not count. Curved triangles are cut at the level.
 */
export function volumeBelow(
  mesh: SurfaceMesh,
  level: number,
  inside: (x: number, y: number) => number,
): number {
  const { triangles, positions } = mesh;
  const edges = edgesOf(mesh);
  const middles = curvedMiddles(mesh, edges, null);
  const curved = makeCurvedTriangle();
  const below = (p: Float64Array, a: number, b: number, c: number) => columnBelow(p, a, b, c, level);
  let volume = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const i = 3 * triangles[t];
    const j = 3 * triangles[t + 1];
    const k = 3 * triangles[t + 2];
    if (positions[i + 2] >= level && positions[j + 2] >= level && positions[k + 2] >= level) continue;
    const x = (positions[i] + positions[j] + positions[k]) / 3;
    const y = (positions[i + 1] + positions[j + 1] + positions[k + 1]) / 3;
    if (inside(x, y) >= 0) continue;
    curve(mesh, edges, middles, t, curved);
    volume += extrapolated(curved, below);
  }
  return volume;
}

/** Signed volume between a plane triangle (normal into the ground, so down for a floor) and the level above it, mm³. */
function columnBelow(p: Float64Array, a: number, b: number, c: number, level: number): number {
  const da = level - p[3 * a + 2];
  const db = level - p[3 * b + 2];
  const dc = level - p[3 * c + 2];
  const plan =
    ((p[3 * b] - p[3 * a]) * (p[3 * c + 1] - p[3 * a + 1]) -
      (p[3 * b + 1] - p[3 * a + 1]) * (p[3 * c] - p[3 * a])) /
    2;
  const under = (da > 0 ? 1 : 0) + (db > 0 ? 1 : 0) + (dc > 0 ? 1 : 0);
  if (under === 0) return 0;
  const whole = (-plan * (da + db + dc)) / 3;
  if (under === 3) return whole;
  // One corner alone on its side of the level: a small triangle about it is cut off.
  const one = under === 1;
  const tip =
    da > 0 === one
      ? tipOf(plan, da, db, dc)
      : db > 0 === one
        ? tipOf(plan, db, dc, da)
        : tipOf(plan, dc, da, db);
  return one ? tip : whole - tip;
}

/** Volume of the part of a triangle's column about one corner, `d` below the level, on the other side of it than e and f. */
function tipOf(plan: number, d: number, e: number, f: number): number {
  return (-plan * (d / (d - e)) * (d / (d - f)) * d) / 3;
}
