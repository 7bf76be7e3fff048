import { type Contest, contestSlope, contestValue } from "./contest.ts";
import type { Field } from "./field.ts";
import { unitNormal } from "./normal.ts";

/** A start may lie this far from the line, mm, measured along the surface. */
const REACH = 90;
/** Slope of the contest, 1/mm, that no blend reaches: the shares jump there, as at an edge without a radius. */
const JUMP = 10;
const FLAT = 1e-7;
/** The line is found to this, mm; the last secant step leaves far less. */
const CLOSE = 2e-7;
/** Step of the one-sided difference across the line, mm: the slope there only scales how far the tangent leans. */
const NUDGE = 0.02;
/** How far aside the normals are taken where one normal does not show both faces of a sharp edge, mm. */
const ASIDE = 25;
/** How far to each side of an edge without a radius its two normals are taken, mm. */
const CREASE = 0.05;

/**
 * Finds points of the line {field = 0, contest = 0}. A sample is nine numbers: point, unit tangent, unit normal. `settle`
 * moves the sample's point square to the tangent given with it until both constraints hold within 1e-7 mm, then writes
 * the exact tangent (first side on the left: left = normal × tangent) and normal. It returns false, and leaves the
 * sample as it was, where no such point lies within reach or the contest is flat there. `framed` says that the sample has a normal
 * already, near enough to look along.
 */
export interface Settler {
  settle(sample: Float64Array, at: number, framed?: boolean): boolean;
}

/** Makes a settler for one line; it allocates nothing; give it a `nearby` field. */
export function settler(field: Field, contest: Contest): Settler {
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
  let lastRise = 0;
  let zero = 0;
  const m = new Float64Array(3);
  const a = new Float64Array(3);
  const b = new Float64Array(3);

  /** Contest at the surface point `s` to the left in the plane; NaN where the surface turns away. Leaves it in p. */
  const valueAt = (s: number): number => {
    for (let round = 0; round < 12; round++) {
      px = ox + s * lx + r * nx;
      py = oy + s * ly + r * ny;
      pz = oz + s * lz + r * nz;
      // From the second point on it is near enough; a field's value costs nothing where its shares were just asked for.
      const value = round > 0 ? contestValue(field, contest, px, py, pz) : Number.NaN;
      const f = field.evaluate(px, py, pz);
      const g = field.gradient;
      const slope = g[0] * nx + g[1] * ny + g[2] * nz;
      if (!(slope > 0.15)) return Number.NaN;
      const move = Math.min(Math.max(-f / slope, -30), 30);
      r += move;
      // Newton squares its error: after a step this small the rest is below 1e-9 mm.
      if (Math.abs(move) < 2e-5) {
        px += move * nx;
        py += move * ny;
        pz += move * nz;
        // Along its normal a surface's shares do not change.
        return round > 0 ? value : contestValue(field, contest, px, py, pz);
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
    // The slope found at the last point is a fair guess at this one: the first step's secant puts it right.
    if (!(lastRise > FLAT)) lastRise = contestSlope(field, contest, px, py, pz, lx, ly, lz);
    let slope = lastRise;
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
      zero = value;
      const rest = slope > FLAT ? Math.abs(value / slope) : Infinity;
      if (rest < CLOSE || high - low < CLOSE) return true;
    }
    return false;
  };

  /** Sets the plane's directions from the surface normal (nx, ny, nz), square to the tangent. */
  const square = (tx: number, ty: number, tz: number): boolean => {
    const along = nx * tx + ny * ty + nz * tz;
    nx -= along * tx;
    ny -= along * ty;
    nz -= along * tz;
    const across = Math.sqrt(nx * nx + ny * ny + nz * nz);
    if (!(across > 0.2)) return false;
    nx /= across;
    ny /= across;
    nz /= across;
    lx = ny * tz - nz * ty;
    ly = nz * tx - nx * tz;
    lz = nx * ty - ny * tx;
    r = 0;
    return true;
  };
  const frame = (tx: number, ty: number, tz: number): boolean => {
    field.evaluate(ox, oy, oz);
    const g = field.gradient;
    nx = g[0];
    ny = g[1];
    nz = g[2];
    return square(tx, ty, tz);
  };
  /** For a sharp edge: the mean of the normals to both sides, from which either face is seen. */
  const frameBetween = (tx: number, ty: number, tz: number): boolean => {
    if (!frame(tx, ty, tz)) return false;
    let sx = 0;
    let sy = 0;
    let sz = 0;
    for (let side = -1; side <= 1; side += 2) {
      const d = side * ASIDE;
      field.evaluate(ox + d * lx, oy + d * ly, oz + d * lz);
      sx += field.gradient[0];
      sy += field.gradient[1];
      sz += field.gradient[2];
    }
    nx = sx / 2;
    ny = sy / 2;
    nz = sz / 2;
    return square(tx, ty, tz);
  };

  const settle = (sample: Float64Array, at: number, framed = false): boolean => {
    let tx = sample[at + 3];
    let ty = sample[at + 4];
    let tz = sample[at + 5];
    ox = sample[at];
    oy = sample[at + 1];
    oz = sample[at + 2];
    if (framed) {
      nx = sample[at + 6];
      ny = sample[at + 7];
      nz = sample[at + 8];
    }
    const found =
      (framed && square(tx, ty, tz) && findZero()) ||
      (frame(tx, ty, tz) && findZero()) ||
      (frameBetween(tx, ty, tz) && findZero());
    if (!found) return false;

    // Exact frame there: normal from the gradient, tangent from how the contest falls along and across the guess.
    if (!unitNormal(field, px, py, pz, m)) return false;
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
    // Where the shares jump the point found stands on one side of the jump, and only a central difference sees it.
    let rise =
      Math.abs(zero) < 1e-4
        ? (contestValue(field, contest, px + NUDGE * ax, py + NUDGE * ay, pz + NUDGE * az) - zero) / NUDGE
        : contestSlope(field, contest, px, py, pz, ax, ay, az);
    if (!(rise > FLAT)) return false;
    lastRise = rise < JUMP ? rise : 0;
    let drift = 0;
    if (rise < JUMP) drift = contestSlope(field, contest, px, py, pz, tx, ty, tz);
    else {
      // An edge without a radius: it runs along the crease of its two sides.
      unitNormal(field, px + CREASE * ax, py + CREASE * ay, pz + CREASE * az, a);
      unitNormal(field, px - CREASE * ax, py - CREASE * ay, pz - CREASE * az, b);
      const ux = a[1] * b[2] - a[2] * b[1];
      const uy = a[2] * b[0] - a[0] * b[2];
      const uz = a[0] * b[1] - a[1] * b[0];
      const along = ux * tx + uy * ty + uz * tz;
      if (Math.abs(along) > 0.25) {
        rise = Math.abs(along);
        drift = -Math.sign(along) * (ux * ax + uy * ay + uz * az);
        const both = Math.hypot(a[0] + b[0], a[1] + b[1], a[2] + b[2]);
        for (let c = 0; c < 3; c++) m[c] = (a[c] + b[c]) / both;
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
  return { settle };
}
