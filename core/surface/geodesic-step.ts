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
const RATE_ALONG = 11;
const RATE_ACROSS = 12;
const LAST_STEP = 13;

/** The normal turns by no more than this in one step (cosine of 0.35 rad); sharper steps are halved. */
const LEAST_COSINE = Math.cos(0.35);
/** A crease sharper than LEAST_COSINE is stepped over once the step is down to this, mm. */
export const SHORTEST_STEP = 0.25;
/** A step may miss the length asked for by this much, mm; the rest is made up along the tangent. */
export const SLACK = 0.03;
/** A step thrown further off than this sideways, mm, is thrown again. */
const SLACK_ASIDE = 0.002;
/** … and one that still lands further off than this is halved: moved there along the tangent plane, it would leave the surface. */
const WIDE = 0.1;
/** Newton goes on while |f| is larger, mm: one more step then leaves about f²/2r. */
const NEWTON = 0.01;
/** Where the step before foretells that parallel transport misses by more than this, rad, the middle normal is asked for. */
const SWING = 1e-6;
/** A step that ends further than this from the surface, mm, has lost it. */
export const LOST = 0.05;

/** What one trial step found: 0–2 point, 3–5 tangent, 6–8 normal, 9 arc length, 10–12 as in Geodesic, 13 cosine of the normal's turn, 14 what the throw missed sideways. */
const trial = new Float64Array(15);
const LENGTH = 9;
const COSINE = 13;
const ASIDE = 14;

/** Takes one step of about `step` mm (never past `most`), shorter where the surface turns; returns the step asked of the trial that was taken, 0 if lost. */
export function takeStep(field: Field, geodesic: Geodesic, step: number, most: number): number {
  for (;;) {
    let asked = step;
    let sideways = (-step * step * step * geodesic[RATE_ALONG] * geodesic[RATE_ACROSS]) / 6;
    let found = tryStep(field, geodesic, asked, geodesic[CURVATURE], sideways);
    for (let round = 0; found && round < 2; round++) {
      const missed = Math.abs(trial[LENGTH] - step) > SLACK || Math.abs(trial[ASIDE]) > SLACK_ASIDE;
      if (!missed || (round > 0 && trial[LENGTH] <= most + SLACK)) break;
      // The curvature changed within the step: once more with the one just seen.
      asked *= step / trial[LENGTH];
      sideways += trial[ASIDE];
      found = tryStep(field, geodesic, asked, trial[RATE_ALONG], sideways);
    }
    const smooth =
      trial[COSINE] > LEAST_COSINE && Math.abs(trial[ASIDE]) < WIDE && trial[LENGTH] <= most + SLACK;
    if (found && (smooth || step <= SHORTEST_STEP)) break;
    if (step <= SHORTEST_STEP) return 0;
    step /= 2;
  }
  const reached = geodesic[TRAVELLED] + trial[LENGTH];
  for (let k = 0; k < 9; k++) geodesic[k] = trial[k];
  geodesic[TRAVELLED] = reached;
  geodesic[CURVATURE] = trial[CURVATURE];
  geodesic[RATE_ALONG] = trial[RATE_ALONG];
  geodesic[RATE_ACROSS] = trial[RATE_ACROSS];
  geodesic[LAST_STEP] = trial[LENGTH];
  return step;
}

/**
 * One trial step of about `h` mm; leaves it in `trial`. Returns false if there is no surface.
 *
 * With the normal's turn (θ along the tangent t, φ across, along b = n × t) between the two ends:
 * - the point is thrown along an arc of the curvature last seen and dropped onto the surface along the gradient;
 * - it is moved sideways so that chord · (b₀ + b₁)/2 = −hθφ/6, which is the geodesic's own chord to fifth order: x″ = −κn
 *   and Frenet–Serret for the surface frame give x‴·b = −κτ at the middle, and b₀ + b₁ = 2b − h²/4 (κτ t + …);
 * - the tangent is carried by the least rotation from normal to normal: parallel transport along the great circle between
 *   them (Levi-Civita). The sliver between that circle and the normal's true path is (h³/12) r × r′ with r = (θ, φ)/h, taken
 *   from the step before; by Gauss–Bonnet that is the angle by which the carried tangent must still turn;
 * - the arc length is that of the cubic with the chord and both end tangents, made exact for an arc.
 */
function tryStep(field: Field, geodesic: Geodesic, h: number, curvature: number, sideways: number): boolean {
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
  const bend = Math.max(-1, Math.min(1, curvature * h));
  const bend2 = bend * bend;
  const ahead = h * (1 - bend2 / 6 + (bend2 * bend2) / 120);
  const down = -h * bend * (0.5 - bend2 / 24);
  const bx = ny * tz - nz * ty;
  const by = nz * tx - nx * tz;
  const bz = nx * ty - ny * tx;
  let x = px + ahead * tx + down * nx + sideways * bx;
  let y = py + ahead * ty + down * ny + sideways * by;
  let z = pz + ahead * tz + down * nz + sideways * bz;
  let ux = 0;
  let uy = 0;
  let uz = 0;
  for (let round = 0; ; round++) {
    const f = field.evaluate(x, y, z);
    const g = field.gradient;
    ux = g[0];
    uy = g[1];
    uz = g[2];
    const g2 = ux * ux + uy * uy + uz * uz;
    if (!(g2 > 1e-9) || !(Math.abs(f) < h + 1)) return false;
    const size = Math.sqrt(g2);
    const drop = f / g2;
    x -= drop * ux;
    y -= drop * uy;
    z -= drop * uz;
    ux /= size;
    uy /= size;
    uz /= size;
    if (Math.abs(f) <= NEWTON) break;
    if (round === 6) {
      if (Math.abs(f) > LOST) return false;
      break;
    }
  }

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
  const swing = (h * h * (geodesic[RATE_ALONG] * phi - geodesic[RATE_ACROSS] * theta)) / (6 * (h + last));
  if (swing !== 0 || (last === 0 && Math.abs(phi) > 1e-3)) {
    const turn =
      last > 0 && Math.abs(swing) < SWING
        ? swing
        : sliver(field, h, px, py, pz, tx, ty, tz, nx, ny, nz, x, y, z, vx, vy, vz, ux, uy, uz);
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

/**
 * The angle by which the least rotation from end to end of a step misses parallel transport: the area on the unit sphere
 * between the great circle of the two end normals and the normal's true path, as 4/3 of the triangle with the normal at the middle
 * of the step (a parabola's segment). Costs one evaluation.
 */
function sliver(
  field: Field,
  h: number,
  px: number,
  py: number,
  pz: number,
  tx: number,
  ty: number,
  tz: number,
  nx: number,
  ny: number,
  nz: number,
  x: number,
  y: number,
  z: number,
  vx: number,
  vy: number,
  vz: number,
  ux: number,
  uy: number,
  uz: number,
): number {
  const e = h / 8;
  field.evaluate(
    0.5 * (px + x) + e * (tx - vx),
    0.5 * (py + y) + e * (ty - vy),
    0.5 * (pz + z) + e * (tz - vz),
  );
  const [mx, my, mz] = [field.gradient[0], field.gradient[1], field.gradient[2]];
  const size = Math.sqrt(mx * mx + my * my + mz * mz);
  if (!(size > 1e-9)) return 0;
  const triple = mx * (uy * nz - uz * ny) + my * (uz * nx - ux * nz) + mz * (ux * ny - uy * nx);
  return (2 / 3) * (triple / size);
}
