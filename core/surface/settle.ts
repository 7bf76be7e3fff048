import { type Contest, contestSlope, contestValue } from "./contest.ts";
import type { Field } from "./field.ts";
import { unitNormal } from "./normal.ts";

/** Radius of the ball of space for which one local field is asked, mm. */
const BALL = 200;
/** A start may lie this far from the line, mm, measured along the surface. */
const REACH = 90;
/** Slope of the contest, 1/mm, that no blend reaches: the shares jump there, as at an edge without a radius. */
const JUMP = 10;
const FLAT = 1e-7;
/** How far to each side of an edge without a radius its two normals are taken, mm. */
const CREASE = 0.05;

/**
 * Finds points of the line {field = 0, contest = 0}. A sample is nine numbers: point, unit tangent, unit normal. `settle`
 * moves the sample's point square to the tangent given with it until both constraints hold within 1e-7 mm, then writes
 * the exact tangent (first side on the left: left = normal × tangent) and normal. It returns false, and leaves the
 * sample as it was, where no such point lies within reach or the contest is flat there.
 */
export interface Settler {
  settle(sample: Float64Array, at: number): boolean;
  /** The field, cut down to the neighbourhood of the point. */
  near(x: number, y: number, z: number): Field;
}

/** Makes a settler for one line; it keeps the local field of the last neighbourhood and allocates only to renew it. */
export function settler(field: Field, contest: Contest): Settler {
  let local = field;
  let cx = Infinity;
  let cy = Infinity;
  let cz = Infinity;
  const near = (x: number, y: number, z: number): Field => {
    const dx = x - cx;
    const dy = y - cy;
    const dz = z - cz;
    if (!(dx * dx + dy * dy + dz * dz < (BALL - REACH) * (BALL - REACH))) {
      local = field.within(x, y, z, BALL);
      cx = x;
      cy = y;
      cz = z;
    }
    return local;
  };

  // The plane square to the tangent: origin o, directions n (out of the surface) and l (left); r keeps the height.
  let ox = 0;
  let oy = 0;
  let oz = 0;
  let nx = 0;
  let ny = 0;
  let nz = 0;
  let lx = 0;
  let ly = 0;
  let lz = 0;
  let r = 0;
  let px = 0;
  let py = 0;
  let pz = 0;
  const m = new Float64Array(3);
  const a = new Float64Array(3);
  const b = new Float64Array(3);

  /** Contest at the surface point `s` to the left in the plane; NaN where the surface turns away. Leaves it in p. */
  const valueAt = (s: number): number => {
    for (let round = 0; round < 12; round++) {
      px = ox + s * lx + r * nx;
      py = oy + s * ly + r * ny;
      pz = oz + s * lz + r * nz;
      const f = local.evaluate(px, py, pz);
      const g = local.gradient;
      const slope = g[0] * nx + g[1] * ny + g[2] * nz;
      if (!(slope > 0.15)) return Number.NaN;
      const move = Math.min(Math.max(-f / slope, -30), 30);
      r += move;
      // Newton squares its error: after a step this small the rest is below 1e-9 mm.
      if (Math.abs(move) < 2e-5) {
        px += move * nx;
        py += move * ny;
        pz += move * nz;
        return contestValue(local, contest, px, py, pz);
      }
    }
    return Number.NaN;
  };

  /** Walks along the plane's section to the zero of the contest; leaves the point in p. */
  const findZero = (): boolean => {
    let s = 0;
    let value = valueAt(0);
    if (!(Math.abs(value) <= 1.000001)) return false;
    let low = -Infinity;
    let high = Infinity;
    let slope = contestSlope(local, contest, px, py, pz, lx, ly, lz);
    let stride = 1;
    for (let round = 0; round < 60; round++) {
      if (value < 0) low = s;
      else if (value > 0) high = s;
      let move: number;
      if (slope > FLAT && Math.abs(value) < 0.9999) {
        move = -value / slope;
        const most = 0.6 / slope;
        move = Math.min(Math.max(move, -most), most);
      } else {
        if (value === 0) return false;
        stride *= 2;
        move = value > 0 ? -stride : stride;
      }
      const bracketed = high - low < Infinity;
      // A bracket that does not shrink by half in four rounds is halved: the shares may have a kink or a jump.
      if (bracketed && (!(s + move > low && s + move < high) || round % 4 === 3)) move = (low + high) / 2 - s;
      if (Math.abs(s + move) > REACH) return false;
      const before = value;
      s += move;
      value = valueAt(s);
      if (!(Math.abs(value) <= 1.000001)) return false;
      if (move !== 0 && value !== before) slope = (value - before) / move;
      const rest = slope > FLAT ? Math.abs(value / slope) : Infinity;
      if (rest < 2e-8 || high - low < 2e-8) return true;
    }
    return false;
  };

  const settle = (sample: Float64Array, at: number): boolean => {
    let tx = sample[at + 3];
    let ty = sample[at + 4];
    let tz = sample[at + 5];
    ox = sample[at];
    oy = sample[at + 1];
    oz = sample[at + 2];
    near(ox, oy, oz).evaluate(ox, oy, oz);
    const g = local.gradient;
    const along = g[0] * tx + g[1] * ty + g[2] * tz;
    nx = g[0] - along * tx;
    ny = g[1] - along * ty;
    nz = g[2] - along * tz;
    const across = Math.sqrt(nx * nx + ny * ny + nz * nz);
    if (!(across > 0.2)) return false;
    nx /= across;
    ny /= across;
    nz /= across;
    lx = ny * tz - nz * ty;
    ly = nz * tx - nx * tz;
    lz = nx * ty - ny * tx;
    r = 0;
    if (!findZero()) return false;

    // Exact frame there: normal from the gradient, tangent from how the contest falls along and across the guess.
    if (!unitNormal(local, px, py, pz, m)) return false;
    const lean = m[0] * tx + m[1] * ty + m[2] * tz;
    tx -= lean * m[0];
    ty -= lean * m[1];
    tz -= lean * m[2];
    const flat = Math.sqrt(tx * tx + ty * ty + tz * tz);
    if (!(flat > 0.2)) return false;
    tx /= flat;
    ty /= flat;
    tz /= flat;
    const ax = m[1] * tz - m[2] * ty;
    const ay = m[2] * tx - m[0] * tz;
    const az = m[0] * ty - m[1] * tx;
    let rise = contestSlope(local, contest, px, py, pz, ax, ay, az);
    if (!(rise > FLAT)) return false;
    let drift = 0;
    if (rise < JUMP) drift = contestSlope(local, contest, px, py, pz, tx, ty, tz);
    else {
      // An edge without a radius: it runs along the crease of its two sides.
      unitNormal(local, px + CREASE * ax, py + CREASE * ay, pz + CREASE * az, a);
      unitNormal(local, px - CREASE * ax, py - CREASE * ay, pz - CREASE * az, b);
      const ux = a[1] * b[2] - a[2] * b[1];
      const uy = a[2] * b[0] - a[0] * b[2];
      const uz = a[0] * b[1] - a[1] * b[0];
      const along = ux * tx + uy * ty + uz * tz;
      if (Math.abs(along) > 0.05) {
        rise = Math.abs(along);
        drift = -Math.sign(along) * (ux * ax + uy * ay + uz * az);
      }
    }
    const both = Math.sqrt(rise * rise + drift * drift);
    sample[at] = px;
    sample[at + 1] = py;
    sample[at + 2] = pz;
    sample[at + 3] = (rise * tx - drift * ax) / both;
    sample[at + 4] = (rise * ty - drift * ay) / both;
    sample[at + 5] = (rise * tz - drift * az) / both;
    sample[at + 6] = m[0];
    sample[at + 7] = m[1];
    sample[at + 8] = m[2];
    return true;
  };
  return { settle, near };
}
