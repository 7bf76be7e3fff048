import { type Contest, contestSlope, contestValue } from "../surface/contest.ts";
import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";
import type { Field } from "../surface/field.ts";
import { projectOnto } from "../surface/project.ts";
import type { Settler } from "../surface/settle.ts";

/** Stations are found to this, mm. */
const CLOSE = 1e-8;
/** A junction is looked for this far to each side of where the mesh has it, mm. */
const FURTHEST = 130;

/**
 * Where a boundary that ends on a line meets it: the station near `near` at which `stem`, the contest of the two faces
 * beside the line, passes from below zero to above it in the line's direction (`sense` +1) or the other way (−1).
 * Writes the point of the line (point, tangent, normal) to `sample`. Null if there is no such place near.
 */
export function junctionOnLine(
  field: Field,
  curve: SurfaceCurve,
  settler: Settler,
  stem: Contest,
  sense: 1 | -1,
  near: number,
  sample: Float64Array,
): number | null {
  const valueAt = (station: number): number => {
    curvePointAt(curve, station, sample);
    if (!settler.settle(sample, 0)) return Number.NaN;
    return sense * contestValue(field, stem, sample[0], sample[1], sample[2]);
  };
  const limit = (station: number) => (curve.closed ? station : Math.min(Math.max(station, 0), curve.length));
  let low = near;
  let high = near;
  let below = valueAt(near);
  let above = below;
  for (let reach = 4; !(below < 0) || !(above >= 0); reach *= 2) {
    if (reach > FURTHEST) return null;
    if (!(below < 0)) {
      low = limit(near - reach);
      below = valueAt(low);
    }
    if (!(above >= 0)) {
      high = limit(near + reach);
      above = valueAt(high);
    }
  }
  let held = 0;
  for (let round = 0; round < 80 && high - low > CLOSE && above > 0; round++) {
    let at = low + ((high - low) * -below) / (above - below);
    if (!(at > low && at < high) || round % 3 === 2) at = (low + high) / 2;
    const value = valueAt(at);
    if (Number.isNaN(value)) return null;
    if (value >= 0) {
      high = at;
      above = value;
      if (held === 1) below /= 2;
      held = 1;
    } else {
      low = at;
      below = value;
      if (held === -1) above /= 2;
      held = -1;
    }
  }
  return Number.isNaN(valueAt(high)) ? null : high;
}

/**
 * The point near `guess` where three boundaries of one round meet: on the surface, with both contests zero. Newton
 * along the surface with differenced slopes. Null if it does not settle within 60 mm.
 */
export function junctionOfThree(
  field: Field,
  first: Contest,
  second: Contest,
  guess: readonly [number, number, number],
): Float64Array | null {
  const p = Float64Array.from(guess);
  for (let round = 0; round < 40; round++) {
    if (!projectOnto(field, p, 0, 1e-9)) return null;
    const [x, y, z] = p;
    const g = field.gradient;
    // Two directions along the surface.
    const size = Math.hypot(g[0], g[1], g[2]);
    const n = [g[0] / size, g[1] / size, g[2] / size];
    const k = Math.abs(n[0]) < 0.6 ? 0 : Math.abs(n[1]) < 0.6 ? 1 : 2;
    const u = [0, 1, 2].map((c) => (c === k ? 1 : 0) - n[k] * n[c]);
    const us = Math.hypot(u[0], u[1], u[2]);
    for (let c = 0; c < 3; c++) u[c] /= us;
    const v = [n[1] * u[2] - n[2] * u[1], n[2] * u[0] - n[0] * u[2], n[0] * u[1] - n[1] * u[0]];
    const a = contestValue(field, first, x, y, z);
    const b = contestValue(field, second, x, y, z);
    const au = contestSlope(field, first, x, y, z, u[0], u[1], u[2]);
    const av = contestSlope(field, first, x, y, z, v[0], v[1], v[2]);
    const bu = contestSlope(field, second, x, y, z, u[0], u[1], u[2]);
    const bv = contestSlope(field, second, x, y, z, v[0], v[1], v[2]);
    const det = au * bv - av * bu;
    if (!(Math.abs(det) > 1e-12)) return null;
    let du = (-a * bv + b * av) / det;
    let dv = (-b * au + a * bu) / det;
    const move = Math.hypot(du, dv);
    if (!Number.isFinite(move)) return null;
    if (move > 10) {
      du *= 10 / move;
      dv *= 10 / move;
    }
    for (let c = 0; c < 3; c++) p[c] += du * u[c] + dv * v[c];
    if (Math.hypot(p[0] - guess[0], p[1] - guess[1], p[2] - guess[2]) > 60) return null;
    if (move < 1e-8) return projectOnto(field, p, 0, 1e-9) ? p : null;
  }
  return null;
}
