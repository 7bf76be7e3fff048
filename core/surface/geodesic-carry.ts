import type { Field } from "./field.ts";

/**
 * Where a geodesic stands: sixteen numbers, made by `newGeodesic`, set by `startGeodesic`, moved by `advanceGeodesic`.
 * 0–2 point (mm), 3–5 unit tangent, 6–8 unit normal (into the ground), 9 length travelled (mm); from 10 on the march's
 * own memory: normal curvature at the end of the last step, turn of the normal along and across in the last step per
 * mm, its length.
 */
export type Geodesic = Float64Array;

export const TRAVELLED = 9;
export const CURVATURE = 10;
export const RATE_ALONG = 11;
export const RATE_ACROSS = 12;
export const LAST_STEP = 13;

/** Where a step has landed: point on the surface (mm) and unit normal there. */
export const landing = new Float64Array(6);
/** What one step comes to: 0–2 point, 3–5 tangent, 6–8 normal, 9 arc length, 10–12 as in Geodesic, 13 cosine of the normal's turn, 14 what the throw missed sideways. */
export const trial = new Float64Array(15);
export const LENGTH = 9;
export const COSINE = 13;
export const ASIDE = 14;

/** Where the step before foretells that parallel transport misses by more than this, rad, the middle normal is asked for. */
const SWING = 1e-6;

/**
 * Carries a geodesic to the `landing` of a step of about `h` mm, and leaves what it comes to in `trial`. Returns false if the two
 * ends do not belong together. `exact` is the turn that the normal at the middle tells (`middleTurn`); NaN takes it from the step before.
 *
 * With the normal's turn (θ along the tangent t, φ across, along b = n × t) between the two ends:
 * - the landing is moved sideways so that chord · (b₀ + b₁)/2 = −hθφ/6, which is the geodesic's own chord to fifth order:
 *   x″ = −κn and Frenet–Serret for the surface frame give x‴·b = −κτ at the middle, and b₀ + b₁ = 2b − h²/4 (κτ t + …);
 * - the tangent is carried by the least rotation from normal to normal: parallel transport along the great circle between
 *   them (Levi-Civita). The sliver between that circle and the normal's true path is (h³/12) r × r′ with r = (θ, φ)/h, taken
 *   from the step before; by Gauss–Bonnet that is the angle by which the carried tangent must still turn;
 * - the arc length is that of the cubic with the chord and both end tangents, made exact for an arc.
 */
export function carry(geodesic: Geodesic, h: number, exact: number): boolean {
  const px = geodesic[0];
  const py = geodesic[1];
  const pz = geodesic[2];
  const tx = geodesic[3];
  const ty = geodesic[4];
  const tz = geodesic[5];
  const nx = geodesic[6];
  const ny = geodesic[7];
  const nz = geodesic[8];
  const curvatureBefore = geodesic[CURVATURE];
  const bx = ny * tz - nz * ty;
  const by = nz * tx - nx * tz;
  const bz = nx * ty - ny * tx;
  let x = landing[0];
  let y = landing[1];
  let z = landing[2];
  const ux = landing[3];
  const uy = landing[4];
  const uz = landing[5];
  const cosine = nx * ux + ny * uy + nz * uz;
  if (cosine < -0.9) return false;
  let theta = ux * tx + uy * ty + uz * tz;
  let phi = ux * bx + uy * by + uz * bz;
  // Least rotation n → u, applied to t (square to n).
  const back = theta / (1 + cosine);
  let vx = tx - back * (nx + ux);
  let vy = ty - back * (ny + uy);
  let vz = tz - back * (nz + uz);
  const sine2 = theta * theta + phi * phi;
  const stretch = cosine > 0.5 ? 1 + sine2 / 6 + 0.075 * sine2 * sine2 : 1;
  theta *= stretch;
  phi *= stretch;

  let wx = uy * vz - uz * vy;
  let wy = uz * vx - ux * vz;
  let wz = ux * vy - uy * vx;
  const last = geodesic[LAST_STEP];
  const turn = Number.isNaN(exact) ? foretold(geodesic, h, theta, phi) : exact;
  if (turn !== 0) {
    vx += turn * wx;
    vy += turn * wy;
    vz += turn * wz;
    const size = 1 / Math.sqrt(vx * vx + vy * vy + vz * vz);
    vx *= size;
    vy *= size;
    vz *= size;
    wx = uy * vz - uz * vy;
    wy = uz * vx - ux * vz;
    wz = ux * vy - uy * vx;
  }

  let cx = x - px;
  let cy = y - py;
  let cz = z - pz;
  let chord = Math.sqrt(cx * cx + cy * cy + cz * cz);
  if (!(chord > 0)) return false;
  // Angles of chord to tangents in the plane of the normals, positive where the surface bends as `theta` does.
  const sinA = -(cx * nx + cy * ny + cz * nz) / chord;
  const sinB = (cx * ux + cy * uy + cz * uz) / chord;
  const alpha = sinA + (sinA * sinA * sinA) / 6;
  const beta = sinB + (sinB * sinB * sinB) / 6;
  let bent = (2 * alpha * alpha + alpha * beta + 2 * beta * beta) / 30;
  let offset = 1 / 6;
  let curvatureAfter = (4 * beta - 2 * alpha) / h;
  // A turn of `first` at the curvature before, spread over the whole step, and of `then` in its last `part` only.
  const first = curvatureBefore * h;
  const then = alpha + beta - first;
  if (last > 0 && Math.abs(then) > 0.2 * Math.abs(first)) {
    const part = Math.max(0.05, Math.min(1, (2 * alpha - first) / then));
    const whole = alpha + beta;
    const shared = first * then * (part / 4 - (part * part) / 6);
    bent = (first * first) / 24 + then * then * (part / 6 - (part * part) / 8) + shared;
    const mean = 0.5 * (first + then * part);
    if (Math.abs(whole) > 1e-4)
      offset = 0.25 * (1 - (2 * mean) / whole + (4 * bent + 2 * mean * mean) / (whole * whole));
    curvatureAfter = curvatureBefore + then / (part * h);
  }
  const aside = -h * theta * phi * offset - 0.5 * (cx * (bx + wx) + cy * (by + wy) + cz * (bz + wz));
  x += aside * wx;
  y += aside * wy;
  z += aside * wz;
  cx += aside * wx;
  cy += aside * wy;
  cz += aside * wz;
  chord = Math.sqrt(cx * cx + cy * cy + cz * cz);
  const ct = (cx * tx + cy * ty + cz * tz) / chord;
  const cv = (cx * vx + cy * vy + cz * vz) / chord;
  if (ct <= 0 || cv <= 0) return false;
  const slant = Math.max(0, 2 * (1 - ct * ct - sinA * sinA + (1 - cv * cv - sinB * sinB)));
  const excess = bent + slant / 30;
  const length = chord * (1 + excess + 0.7 * excess * excess);

  trial[0] = x;
  trial[1] = y;
  trial[2] = z;
  trial[3] = vx;
  trial[4] = vy;
  trial[5] = vz;
  trial[6] = ux;
  trial[7] = uy;
  trial[8] = uz;
  trial[LENGTH] = length;
  trial[CURVATURE] = curvatureAfter;
  trial[RATE_ALONG] = theta / length;
  trial[RATE_ACROSS] = phi / length;
  trial[COSINE] = cosine;
  trial[ASIDE] = aside;
  return true;
}

/** The turn of the carried tangent that the step before lets expect, rad; 0 after a start. */
function foretold(geodesic: Geodesic, h: number, theta: number, phi: number): number {
  const last = geodesic[LAST_STEP];
  if (last === 0) return 0;
  return (h * h * (geodesic[RATE_ALONG] * phi - geodesic[RATE_ACROSS] * theta)) / (6 * (h + last));
}

/** Whether the trial of a step swings so much that its turn must be measured. */
export function swings(geodesic: Geodesic, h: number): boolean {
  const theta = trial[RATE_ALONG] * trial[LENGTH];
  const phi = trial[RATE_ACROSS] * trial[LENGTH];
  return geodesic[LAST_STEP] === 0
    ? Math.abs(phi) > 1e-3
    : Math.abs(foretold(geodesic, h, theta, phi)) >= SWING;
}

/**
 * The angle by which the least rotation from end to end of the step in `trial` misses parallel transport: the area on the unit
 * sphere between the great circle of the two end normals and the normal's true path, as 4/3 of the triangle with the normal at the
 * middle of the step (a parabola's segment). Costs one evaluation.
 */
export function middleTurn(field: Field, geodesic: Geodesic, h: number): number {
  const e = h / 8;
  field.evaluate(
    0.5 * (geodesic[0] + trial[0]) + e * (geodesic[3] - trial[3]),
    0.5 * (geodesic[1] + trial[1]) + e * (geodesic[4] - trial[4]),
    0.5 * (geodesic[2] + trial[2]) + e * (geodesic[5] - trial[5]),
  );
  const mx = field.gradient[0];
  const my = field.gradient[1];
  const mz = field.gradient[2];
  const size = Math.sqrt(mx * mx + my * my + mz * mz);
  if (!(size > 1e-9)) return 0;
  const nx = geodesic[6];
  const ny = geodesic[7];
  const nz = geodesic[8];
  const ux = trial[6];
  const uy = trial[7];
  const uz = trial[8];
  const triple = mx * (uy * nz - uz * ny) + my * (uz * nx - ux * nz) + mz * (ux * ny - uy * nx);
  return (2 / 3) * (triple / size);
}
