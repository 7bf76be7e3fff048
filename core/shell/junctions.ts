import { rootNear } from "../surface/bracketed-root.ts";
import { type Contest, contestValue } from "../surface/contest.ts";
import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";
import type { Field } from "../surface/field.ts";
import { projectOnto } from "../surface/project.ts";
import type { Settler } from "../surface/settle.ts";

/** Junctions are found to this, mm. */
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
  const limit = (station: number) => (curve.closed ? station : Math.min(Math.max(station, 0), curve.length));
  const valueAt = (station: number): number => {
    curvePointAt(curve, limit(station), sample);
    if (!settler.settle(sample, 0)) return Number.NaN;
    return sense * contestValue(field, stem, sample[0], sample[1], sample[2]);
  };
  const station = rootNear(valueAt, near, FURTHEST, CLOSE);
  return Number.isNaN(station) || Number.isNaN(valueAt(station)) ? null : limit(station);
}

/**
 * The point where three groups of faces meet as equals: each group's shares (indices into `field.faces`) are the same
 * there, and larger than any other's. `corners` are the corners of the mesh's triangle in which their owners meet, the
 * k-th owned by group k. Found along the border of one group against the greater of the others, where these pass each
 * other; by brackets, since two faces that are nearly level with each other compete over a strip too narrow for slopes.
 * Null if there is no such point near.
 */
export function junctionOfThree(
  field: Field,
  groups: readonly (readonly number[])[],
  corners: readonly (readonly number[])[],
): Float64Array | null {
  const p = new Float64Array(3);
  const sums = new Float64Array(3);
  const middle = [0, 1, 2].map((c) => (corners[0][c] + corners[1][c] + corners[2][c]) / 3);
  for (let first = 0; first < 3; first++) {
    const second = (first + 1) % 3;
    const third = (first + 2) % 3;
    // Along: towards the first group's corner. Aside: from the second's corner to the third's.
    const along = unit(corners[first].map((v, c) => v - middle[c]));
    const aside = unit(corners[third].map((v, c) => v - corners[second][c]));
    const sharesAt = (s: number, m: number): boolean => {
      for (let c = 0; c < 3; c++) p[c] = middle[c] + s * aside[c] + m * along[c];
      if (!projectOnto(field, p, 0, 1e-9)) return false;
      const shares = field.shares(p[0], p[1], p[2]);
      groups.forEach((group, k) => {
        sums[k] = 0;
        for (const i of group) sums[k] += shares[i];
      });
      return true;
    };
    let border = 0;
    const passing = (s: number): number => {
      const lead = (m: number) =>
        sharesAt(s, m) ? sums[first] - Math.max(sums[second], sums[third]) : Number.NaN;
      const m = rootNear(lead, border, FURTHEST, CLOSE);
      if (Number.isNaN(m) || !sharesAt(s, m)) return Number.NaN;
      border = m;
      return sums[third] - sums[second];
    };
    const s = rootNear(passing, 0, FURTHEST, CLOSE);
    if (!Number.isNaN(s) && sums[first] > 0.05) return p;
  }
  return null;
}

function unit(v: readonly number[]): number[] {
  const size = Math.hypot(...v) || 1;
  return v.map((x) => x / size);
}
