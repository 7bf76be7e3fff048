import type { Facets } from "./facets.ts";

/** sin² of an angle given in degrees: the unit in which `shapeOf` measures. */
export function shapeAt(degrees: number): number {
  return Math.sin((degrees * Math.PI) / 180) ** 2;
}

/** Shape of a triangle with no angle under 20°: good enough as it is. */
export const FAIR = shapeAt(20);

/** On a dome the gap at the middle of a triangle is this part of the sum of those at the middles of its edges. */
export const DOME = 4 / 9;

/**
 * Shape of the triangle (a, b, c): sin² of its smallest angle, at most ¾; negative when the triangle lies the wrong way
 * round against the field's normals. The smallest angle lies between the two longest sides: sin = 2A/(their product).
 */
export function shapeOf(m: Facets, a: number, b: number, c: number): number {
  leaveShape(m, a, b, c);
  return shape[0];
}

/** Where `leaveShape` leaves what it finds: a number returned by a function as long as that would be put on the heap each time. */
const shape = new Float64Array(1);

function leaveShape(m: Facets, a: number, b: number, c: number): void {
  const p = m.position;
  a *= 3;
  b *= 3;
  c *= 3;
  const ax = p[a];
  const ay = p[a + 1];
  const az = p[a + 2];
  const ux = p[b] - ax;
  const uy = p[b + 1] - ay;
  const uz = p[b + 2] - az;
  const vx = p[c] - ax;
  const vy = p[c + 1] - ay;
  const vz = p[c + 2] - az;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const twice = nx * nx + ny * ny + nz * nz;
  const u = ux * ux + uy * uy + uz * uz;
  const v = vx * vx + vy * vy + vz * vz;
  const wx = vx - ux;
  const wy = vy - uy;
  const wz = vz - uz;
  const w = wx * wx + wy * wy + wz * wz;
  // Product of the two longer sides' squares: the product of all three over the smallest.
  const longer = u < v ? (u < w ? v * w : u * v) : v < w ? u * w : u * v;
  if (!(longer > 0)) {
    shape[0] = -1;
    return;
  }
  const n = m.normal;
  const way =
    nx * (n[a] + n[b] + n[c]) + ny * (n[a + 1] + n[b + 1] + n[c + 1]) + nz * (n[a + 2] + n[b + 2] + n[c + 2]);
  shape[0] = way > 0 ? twice / longer : -twice / longer - 1e-12;
}

/**
 * Gap that the edge a–b is expected to leave to the surface at its middle, mm, from the larger height H of one end over
 * the tangent plane at the other. On an arc H/L is the sine of half its turn, and the sagitta is H/2 / (1 + cos of it).
 * Too large where an edge crosses a tangent line, and never blind to an edge that runs through an S.
 */
export function gapOf(m: Facets, a: number, b: number): number {
  const { position: p, normal: n } = m;
  a *= 3;
  b *= 3;
  const dx = p[b] - p[a];
  const dy = p[b + 1] - p[a + 1];
  const dz = p[b + 2] - p[a + 2];
  const s = Math.abs(n[a] * dx + n[a + 1] * dy + n[a + 2] * dz);
  const t = Math.abs(n[b] * dx + n[b + 1] * dy + n[b + 2] * dz);
  const height = Math.max(s, t);
  const square = dx * dx + dy * dy + dz * dz;
  // A small turn, the usual case: a quarter of the height.
  if (height * height < 1e-3 * square) return height / 4;
  return height / 2 / (1 + Math.sqrt(Math.max(0, 1 - (height * height) / square)));
}

/** Whether a corner of the triangle at half-edge `t` lies more than `height` mm over or under the tangent plane at another. */
export function rises({ corner, position: p, normal: n }: Facets, t: number, height: number): boolean {
  const a = 3 * corner[t];
  const b = 3 * corner[t + 1];
  const c = 3 * corner[t + 2];
  const ux = p[b] - p[a];
  const uy = p[b + 1] - p[a + 1];
  const uz = p[b + 2] - p[a + 2];
  const vx = p[c] - p[a];
  const vy = p[c + 1] - p[a + 1];
  const vz = p[c + 2] - p[a + 2];
  const wx = vx - ux;
  const wy = vy - uy;
  const wz = vz - uz;
  return (
    Math.abs(n[a] * ux + n[a + 1] * uy + n[a + 2] * uz) > height ||
    Math.abs(n[a] * vx + n[a + 1] * vy + n[a + 2] * vz) > height ||
    Math.abs(n[b] * ux + n[b + 1] * uy + n[b + 2] * uz) > height ||
    Math.abs(n[b] * wx + n[b + 1] * wy + n[b + 2] * wz) > height ||
    Math.abs(n[c] * vx + n[c + 1] * vy + n[c + 2] * vz) > height ||
    Math.abs(n[c] * wx + n[c + 1] * wy + n[c + 2] * wz) > height
  );
}

/**
 * Most gap that the edge a–b can leave at its middle, mm, if the surface bends one way between its ends: it then lies
 * between the chord and both tangent planes. Half the larger height when the normals tell of an S.
 */
export function mostGapOf(m: Facets, a: number, b: number): number {
  const { position: p, normal: n } = m;
  a *= 3;
  b *= 3;
  const dx = p[b] - p[a];
  const dy = p[b + 1] - p[a + 1];
  const dz = p[b + 2] - p[a + 2];
  const s = n[a] * dx + n[a + 1] * dy + n[a + 2] * dz;
  const t = n[b] * dx + n[b + 1] * dy + n[b + 2] * dz;
  return s * t < 0 ? Math.min(Math.abs(s), Math.abs(t)) / 2 : Math.max(Math.abs(s), Math.abs(t)) / 2;
}

/** By how much the heights of the edge a–b's ends, each over the tangent plane at the other, differ, mm: not at all on one arc. */
export function unevennessOf(m: Facets, a: number, b: number): number {
  const { position: p, normal: n } = m;
  a *= 3;
  b *= 3;
  return Math.abs(
    (n[a] + n[b]) * (p[b] - p[a]) +
      (n[a + 1] + n[b + 1]) * (p[b + 1] - p[a + 1]) +
      (n[a + 2] + n[b + 2]) * (p[b + 2] - p[a + 2]),
  );
}

/** The gap as foreseen with its sign (positive where the surface bends towards its normals), by the mean of both ends: s″L²/8. */
export function signedGapOf(m: Facets, a: number, b: number): number {
  const { position: p, normal: n } = m;
  a *= 3;
  b *= 3;
  const dx = p[b] - p[a];
  const dy = p[b + 1] - p[a + 1];
  const dz = p[b + 2] - p[a + 2];
  return ((n[b] - n[a]) * dx + (n[b + 1] - n[a + 1]) * dy + (n[b + 2] - n[a + 2]) * dz) / 8;
}

/** Square of the distance between two vertices, mm². */
export function squareLength(m: Facets, a: number, b: number): number {
  const p = m.position;
  a *= 3;
  b *= 3;
  const dx = p[b] - p[a];
  const dy = p[b + 1] - p[a + 1];
  const dz = p[b + 2] - p[a + 2];
  return dx * dx + dy * dy + dz * dz;
}
