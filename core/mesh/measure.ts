import type { Field } from "../surface/field.ts";
import type { SurfaceMesh } from "./mesh.ts";

/** What a surface measures. */
export interface SurfaceMeasure {
  readonly areaMm2: number;
  /** Area that each face owns, in the order of `field.faces`; they sum to `areaMm2`. */
  readonly areaByFace: Float64Array;
}

/**
 * Area of the surface under a mesh, whole and by face, mm². Each triangle stands for a curved one: the middle of an edge
 * lies off its chord by (b − a)·(n_b − n_a)/8 along the mean normal (cubic Hermite, exact to fourth order), and the areas
 * of the triangle and of its four quarters are extrapolated, (4A′ − A)/3 (Richardson). Mixed triangles are shared out
 * along the lines where their corners' faces compete.
 */
export function measureSurface(field: Field, mesh: SurfaceMesh): SurfaceMeasure {
  const { triangles, owner } = mesh;
  const areaByFace = new Float64Array(field.faces.length);
  let areaMm2 = 0;
  const curved = new Float64Array(18);
  for (let t = 0; t < triangles.length; t += 3) {
    const [i, j, k] = [triangles[t], triangles[t + 1], triangles[t + 2]];
    curve(mesh, i, j, k, curved);
    const area = extrapolate(area3(curved, 0, 1, 2), quarters(curved, area3));
    areaMm2 += area;
    if (owner[i] === owner[j] && owner[j] === owner[k]) areaByFace[owner[i]] += area;
    else shareOut(field, mesh, [i, j, k], area, areaByFace);
  }
  return { areaMm2, areaByFace };
}

/**
 * Volume between the level z = `level` and the surface below it, mm³, where `inside(x, y)` < 0 (the coping's outer edge dips below
 * the rim too and must not count). Triangles are cut at the level; extrapolated as the area is.
 */
export function volumeBelow(
  mesh: SurfaceMesh,
  level: number,
  inside: (x: number, y: number) => number,
): number {
  const { triangles, positions } = mesh;
  const curved = new Float64Array(18);
  const below = (p: Float64Array, a: number, b: number, c: number) => columnBelow(p, a, b, c, level);
  let volume = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [i, j, k] = [triangles[t], triangles[t + 1], triangles[t + 2]];
    if (positions[3 * i + 2] >= level && positions[3 * j + 2] >= level && positions[3 * k + 2] >= level)
      continue;
    const x = (positions[3 * i] + positions[3 * j] + positions[3 * k]) / 3;
    const y = (positions[3 * i + 1] + positions[3 * j + 1] + positions[3 * k + 1]) / 3;
    if (inside(x, y) >= 0) continue;
    curve(mesh, i, j, k, curved);
    volume += extrapolate(below(curved, 0, 1, 2), quarters(curved, below));
  }
  return volume;
}

type OfTriangle = (points: Float64Array, a: number, b: number, c: number) => number;

const extrapolate = (coarse: number, fine: number): number => (4 * fine - coarse) / 3;

const quarters = (p: Float64Array, of: OfTriangle): number =>
  of(p, 0, 3, 5) + of(p, 3, 1, 4) + of(p, 5, 4, 2) + of(p, 3, 4, 5);

/** Corners 0, 1, 2 and the curved middles 3 (of 0–1), 4 (of 1–2), 5 (of 2–0) to `out`. */
function curve(mesh: SurfaceMesh, i: number, j: number, k: number, out: Float64Array): void {
  const { positions } = mesh;
  for (let c = 0; c < 3; c++) {
    out[c] = positions[3 * i + c];
    out[3 + c] = positions[3 * j + c];
    out[6 + c] = positions[3 * k + c];
  }
  middle(mesh, i, j, out, 9);
  middle(mesh, j, k, out, 12);
  middle(mesh, k, i, out, 15);
}

function middle(mesh: SurfaceMesh, i: number, j: number, out: Float64Array, at: number): void {
  const p = mesh.positions;
  const n = mesh.normals;
  const a = 3 * i;
  const b = 3 * j;
  const nx = n[a] + n[b];
  const ny = n[a + 1] + n[b + 1];
  const nz = n[a + 2] + n[b + 2];
  const turn =
    (p[b] - p[a]) * (n[b] - n[a]) +
    (p[b + 1] - p[a + 1]) * (n[b + 1] - n[a + 1]) +
    (p[b + 2] - p[a + 2]) * (n[b + 2] - n[a + 2]);
  const size = nx * nx + ny * ny + nz * nz;
  // The sum of the normals is 2 cos(½ turn) long: dividing by its square scales the sagitta to the mean normal.
  const s = size > 1e-9 ? (2 * turn) / (8 * size) : 0;
  out[at] = (p[a] + p[b]) / 2 + s * nx;
  out[at + 1] = (p[a + 1] + p[b + 1]) / 2 + s * ny;
  out[at + 2] = (p[a + 2] + p[b + 2]) / 2 + s * nz;
}

function area3(p: Float64Array, a: number, b: number, c: number): number {
  const ux = p[3 * b] - p[3 * a];
  const uy = p[3 * b + 1] - p[3 * a + 1];
  const uz = p[3 * b + 2] - p[3 * a + 2];
  const vx = p[3 * c] - p[3 * a];
  const vy = p[3 * c + 1] - p[3 * a + 1];
  const vz = p[3 * c + 2] - p[3 * a + 2];
  return Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
}

/** Signed volume between a plane triangle (normal into the ground, so down for a floor) and the level above it. */
function columnBelow(p: Float64Array, a: number, b: number, c: number, level: number): number {
  const depth = [level - p[3 * a + 2], level - p[3 * b + 2], level - p[3 * c + 2]];
  const plan =
    ((p[3 * b] - p[3 * a]) * (p[3 * c + 1] - p[3 * a + 1]) -
      (p[3 * b + 1] - p[3 * a + 1]) * (p[3 * c] - p[3 * a])) /
    2;
  const under = depth.filter((d) => d > 0).length;
  if (under === 0) return 0;
  if (under === 3) return (-plan * (depth[0] + depth[1] + depth[2])) / 3;
  // One corner alone on its side of the level: a small triangle about it is cut off.
  const alone = depth.findIndex((d) => d > 0 === (under === 1));
  const d = depth[alone];
  const s = d / (d - depth[(alone + 1) % 3]);
  const t = d / (d - depth[(alone + 2) % 3]);
  const tip = (-plan * s * t * d) / 3;
  return under === 1 ? tip : (-plan * (depth[0] + depth[1] + depth[2])) / 3 - tip;
}

/** Shares a mixed triangle's area out among the faces that own its corners. */
function shareOut(
  field: Field,
  mesh: SurfaceMesh,
  corners: readonly [number, number, number],
  area: number,
  out: Float64Array,
): void {
  const { owner, positions } = mesh;
  const own = corners.map((v) => owner[v]);
  const shares = corners.map((v) =>
    Float64Array.from(field.shares(positions[3 * v], positions[3 * v + 1], positions[3 * v + 2])),
  );
  /** Part of the edge from corner a to corner b that belongs to a's face. */
  const cut = (a: number, b: number): number => {
    const lead = (s: Float64Array) => s[own[a]] - s[own[b]];
    const [p, q] = [lead(shares[a]), lead(shares[b])];
    return p > 0 && q < 0 ? p / (p - q) : 0.5;
  };
  const alone = [0, 1, 2].find(
    (c) =>
      own[c] !== own[(c + 1) % 3] && own[c] !== own[(c + 2) % 3] && own[(c + 1) % 3] === own[(c + 2) % 3],
  );
  if (alone !== undefined) {
    const part = cut(alone, (alone + 1) % 3) * cut(alone, (alone + 2) % 3);
    out[own[alone]] += part * area;
    out[own[(alone + 1) % 3]] += (1 - part) * area;
    return;
  }
  // Three faces: each takes the quadrilateral between its corner, two edge cuts and the middle.
  const c01 = cut(0, 1);
  const c12 = cut(1, 2);
  const c20 = cut(2, 0);
  out[own[0]] += ((c01 + 1 - c20) / 3) * area;
  out[own[1]] += ((c12 + 1 - c01) / 3) * area;
  out[own[2]] += ((c20 + 1 - c12) / 3) * area;
}
