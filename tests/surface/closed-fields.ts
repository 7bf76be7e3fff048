import type { Field } from "../../core/surface/field.ts";

/**
 * Fields in closed form for tests: planes, cylinders, cones, spheres, tori and the fillet between two planes. All are
 * signed distances (gradient of unit length but on axes).
 */
type Distance = (x: number, y: number, z: number, gradient: Float64Array) => number;

/** A field from one distance; counts its evaluations. */
export function fieldOf(distance: Distance): Field & { evaluations: number } {
  const gradient = new Float64Array(3);
  const shares = new Float64Array([1]);
  const field = {
    evaluations: 0,
    gradient,
    evaluate: (x: number, y: number, z: number) => {
      field.evaluations++;
      return distance(x, y, z, gradient);
    },
    shares: () => shares,
    faces: ["face"],
    owner: () => 0,
    within: () => field,
    bounds: { min: [-1e5, -1e5, -1e5] as const, max: [1e5, 1e5, 1e5] as const },
    edge: null,
  };
  return field;
}

/** z = 0, the ground above it. */
export const plane = () =>
  fieldOf((_x, _y, z, g) => {
    g[0] = 0;
    g[1] = 0;
    g[2] = 1;
    return z;
  });

/** Cylinder about the x axis; the ground outside it. */
export const cylinder = (radius: number) =>
  fieldOf((_x, y, z, g) => {
    const r = Math.hypot(y, z);
    g[0] = 0;
    g[1] = y / r;
    g[2] = z / r;
    return r - radius;
  });

export const sphere = (radius: number) =>
  fieldOf((x, y, z, g) => {
    const r = Math.hypot(x, y, z);
    g[0] = x / r;
    g[1] = y / r;
    g[2] = z / r;
    return r - radius;
  });

/** Torus about the z axis: tube of radius `tube` round the circle of radius `ring`. */
export const torus = (ring: number, tube: number) =>
  fieldOf((x, y, z, g) => {
    const rho = Math.hypot(x, y);
    const a = rho - ring;
    const r = Math.hypot(a, z);
    g[0] = ((a / r) * x) / rho;
    g[1] = ((a / r) * y) / rho;
    g[2] = z / r;
    return r - tube;
  });

/** Cone about the z axis, apex at the origin, opening upwards; `half` is the angle between axis and side. Ground outside. */
export const cone = (half: number) =>
  fieldOf((x, y, z, g) => {
    const rho = Math.hypot(x, y);
    const c = Math.cos(half);
    const s = Math.sin(half);
    g[0] = (c * x) / rho;
    g[1] = (c * y) / rho;
    g[2] = -s;
    return c * rho - s * z;
  });

/**
 * Floor (ground below z = 0) and a wall (ground beyond y = 0, leaning out by `draft`) joined by a rolling ball of
 * `radius`, inside: the ball's centre lies in the water.
 */
export const dihedral = (radius: number, draft = 0) =>
  fieldOf((_x, y, z, g) => {
    const cos = Math.cos(draft);
    const sin = Math.sin(draft);
    const a = -z;
    const b = cos * y - sin * z;
    // Unit normals (0, 0, −1) and (0, cos, −sin): their product is sin.
    const u = a + radius;
    const v = b + radius;
    if (u - sin * v > 0 && v - sin * u > 0) {
      const q = Math.sqrt((u * u + v * v - 2 * sin * u * v) / (1 - sin * sin));
      const du = (u - sin * v) / (q * (1 - sin * sin));
      const dv = (v - sin * u) / (q * (1 - sin * sin));
      g[0] = 0;
      g[1] = dv * cos;
      g[2] = -du - dv * sin;
      return q - radius;
    }
    const floor = a > b;
    g[0] = 0;
    g[1] = floor ? 0 : cos;
    g[2] = floor ? -1 : -sin;
    return floor ? a : b;
  });
