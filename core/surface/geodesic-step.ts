import type { Field } from "./field.ts";
import type { Geodesic } from "./geodesic-carry.ts";
import * as carrying from "./geodesic-carry.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every step.
const { ASIDE, COSINE, CURVATURE, carry, LAST_STEP, LENGTH, landing, middleTurn } = carrying;
const { RATE_ACROSS, RATE_ALONG, swings, TRAVELLED, trial } = carrying;

/** The normal turns by no more than this in one step (cosine of 0.35 rad); sharper steps are halved. */
const LEAST_COSINE = Math.cos(0.35);
/** A step over which the normal turns by less than this (0.12 rad) might have been longer. */
const EASY = Math.cos(0.12);
/** A crease sharper than LEAST_COSINE is stepped over once the step is down to this, mm. */
export const SHORTEST_STEP = 0.25;
/** A step may miss the length asked for by this much, mm; the rest is made up along the arc that it ends on. */
export const SLACK = 0.1;
/** A step thrown further off than this sideways, mm, is thrown again. */
const SLACK_ASIDE = 0.002;
/** So is one thrown like its neighbour, further off than this: neighbours' errors lie side by side and do not open areas between them. */
const LIKE_ASIDE = 0.01;
/** … and one that still lands further off than this is halved: moved there along the tangent plane, it would leave the surface. */
const WIDE = 0.1;
/** A throw that misses by more than this, mm, is not like the neighbour's. */
const ALIKE = 1;
/**
 * Newton goes on while |f| is larger, mm: where f is a distance the last step is exact and the normal the same all along it; where it
 * is one only nearly, what is left is far below what matters.
 */
const NEWTON = 0.5;

/**
 * How the steps over one length of a geodesic were thrown: for each its length and where it landed, mm along the tangent, the normal
 * and their cross product at its start; zeros after the last. That hardly changes from one geodesic to its neighbour, so that steps
 * thrown as the neighbour's landed need no second throw.
 */
export type Throws = Float64Array;
/** Numbers a step. */
export const THROW = 4;
/** Steps over one length that are remembered. */
export const MOST_THROWS = 8;

/** Where the present throw goes: along the tangent, the normal and their cross product, mm. */
const thrown = new Float64Array(3);

/**
 * Takes one step of about `step` mm (never past the `most` that is left), shorter where the surface turns; returns the step asked of
 * the trial that was taken, 0 if lost. Goes by the throw at `at` of `like` first, if there is one, and leaves the one taken there.
 */
export function takeStep(
  field: Field,
  geodesic: Geodesic,
  step: number,
  most: number,
  like: Throws | null,
  at: number,
): number {
  if (like && like[at] > 0) {
    const short = like[at] < 0.75 * step;
    const alike = fitting(like[at], most);
    if (throwLike(field, geodesic, alike, most, like, at)) {
      // Steps shorter than they need be are not handed on.
      if (short && trial[COSINE] > EASY) like.fill(0, at);
      else keepThrow(like, at, geodesic);
      finish(field, geodesic, alike);
      return alike;
    }
    // What the neighbour did from here on is of no use.
    like.fill(0, at);
  }
  step = fitting(step, most);
  for (;;) {
    let reach = step;
    let sideways = (-step * step * step * geodesic[RATE_ALONG] * geodesic[RATE_ACROSS]) / 6;
    throwAlong(geodesic[CURVATURE], reach, sideways);
    let found = tryThrow(field, geodesic, reach);
    for (let round = 0; found && round < 2; round++) {
      if (hits(step, SLACK_ASIDE) || (round > 0 && trial[LENGTH] <= most + SLACK)) break;
      // The curvature changed within the step: once more with the one just seen.
      reach *= step / trial[LENGTH];
      sideways += trial[ASIDE];
      throwAlong(trial[RATE_ALONG], reach, sideways);
      found = tryThrow(field, geodesic, reach);
    }
    if (found && (smooth(most) || step <= SHORTEST_STEP)) {
      if (like) keepThrow(like, at, geodesic);
      finish(field, geodesic, reach);
      return step;
    }
    if (step <= SHORTEST_STEP) return 0;
    step /= 2;
  }
}

/** A step that goes into the way left: an odd remnant is taken in two halves rather than leave a sliver for a step of its own. */
function fitting(step: number, left: number): number {
  return left < 1.01 * step ? left : left < 2 * step ? Math.max(left / 2, Math.min(step, left)) : step;
}

/** Throws a step as the neighbour's landed, and again from where it missed; false if that does not lead to a step to be taken. */
function throwLike(
  field: Field,
  geodesic: Geodesic,
  step: number,
  most: number,
  like: Throws,
  at: number,
): boolean {
  let scale = step / like[at];
  thrown[0] = like[at + 1];
  thrown[1] = like[at + 2];
  thrown[2] = like[at + 3];
  for (let round = 0; round < 3; round++) {
    thrown[0] *= scale;
    thrown[1] *= scale * scale;
    if (!tryThrow(field, geodesic, step)) return false;
    if (hits(step, LIKE_ASIDE)) return smooth(most);
    if (Math.abs(trial[LENGTH] - step) > ALIKE || Math.abs(trial[ASIDE]) > ALIKE) return false;
    scale = step / trial[LENGTH];
    thrown[2] += trial[ASIDE];
  }
  return false;
}

/** Whether the trial landed where a geodesic of this length ends. */
function hits(step: number, aside: number): boolean {
  return Math.abs(trial[LENGTH] - step) <= SLACK && Math.abs(trial[ASIDE]) <= aside;
}

/** Whether the surface turns little enough over the trial for it to be taken. */
function smooth(most: number): boolean {
  return trial[COSINE] > LEAST_COSINE && Math.abs(trial[ASIDE]) < WIDE && trial[LENGTH] <= most + SLACK;
}

/** Throws to the end of an arc `reach` mm long of a curvature, moved sideways. */
function throwAlong(curvature: number, reach: number, sideways: number): void {
  const bend = Math.max(-1, Math.min(1, curvature * reach));
  const bend2 = bend * bend;
  thrown[0] = reach * (1 - bend2 / 6 + (bend2 * bend2) / 120);
  thrown[1] = -reach * bend * (0.5 - bend2 / 24);
  thrown[2] = sideways;
}

/** Keeps the trial's landing at `at` of some throws. */
function keepThrow(like: Throws, at: number, geodesic: Geodesic): void {
  const tx = geodesic[3];
  const ty = geodesic[4];
  const tz = geodesic[5];
  const nx = geodesic[6];
  const ny = geodesic[7];
  const nz = geodesic[8];
  const dx = trial[0] - geodesic[0];
  const dy = trial[1] - geodesic[1];
  const dz = trial[2] - geodesic[2];
  like[at] = trial[LENGTH];
  like[at + 1] = dx * tx + dy * ty + dz * tz;
  like[at + 2] = dx * nx + dy * ny + dz * nz;
  like[at + 3] = dx * (ny * tz - nz * ty) + dy * (nz * tx - nx * tz) + dz * (nx * ty - ny * tx);
}

/** Moves the geodesic to the end of the trial, its turn measured where it swings. */
function finish(field: Field, geodesic: Geodesic, h: number): void {
  if (swings(geodesic, h)) carry(geodesic, h, middleTurn(field, geodesic, h));
  const reached = geodesic[TRAVELLED] + trial[LENGTH];
  for (let k = 0; k < 9; k++) geodesic[k] = trial[k];
  geodesic[TRAVELLED] = reached;
  geodesic[CURVATURE] = trial[CURVATURE];
  geodesic[RATE_ALONG] = trial[RATE_ALONG];
  geodesic[RATE_ACROSS] = trial[RATE_ACROSS];
  geodesic[LAST_STEP] = trial[LENGTH];
}

/** Throws a step of about `h` mm to `thrown`, drops it onto the surface along the gradient and carries the geodesic there, in `trial`. False if there is no surface. */
function tryThrow(field: Field, geodesic: Geodesic, h: number): boolean {
  const ahead = thrown[0];
  const down = thrown[1];
  const sideways = thrown[2];
  const tx = geodesic[3];
  const ty = geodesic[4];
  const tz = geodesic[5];
  const nx = geodesic[6];
  const ny = geodesic[7];
  const nz = geodesic[8];
  let x = geodesic[0] + ahead * tx + down * nx + sideways * (ny * tz - nz * ty);
  let y = geodesic[1] + ahead * ty + down * ny + sideways * (nz * tx - nx * tz);
  let z = geodesic[2] + ahead * tz + down * nz + sideways * (nx * ty - ny * tx);
  for (let round = 0; ; round++) {
    const f = field.evaluate(x, y, z);
    const g = field.gradient;
    const g2 = g[0] * g[0] + g[1] * g[1] + g[2] * g[2];
    if (!(g2 > 1e-9) || !(Math.abs(f) < h + 1)) return false;
    const drop = f / g2;
    x -= drop * g[0];
    y -= drop * g[1];
    z -= drop * g[2];
    if (Math.abs(f) > NEWTON) {
      if (round === 6) return false;
      continue;
    }
    const size = Math.sqrt(g2);
    landing[0] = x;
    landing[1] = y;
    landing[2] = z;
    landing[3] = g[0] / size;
    landing[4] = g[1] / size;
    landing[5] = g[2] / size;
    return carry(geodesic, h, Number.NaN);
  }
}
