import type { FeatureSpec } from "../project/schema.ts";
import type { Block } from "./blocks.ts";
import type { Radii } from "./radii.ts";
import type { Refusal } from "./shell.ts";
import { tenths } from "./tenths.ts";
import { shortTreads } from "./tread-depths.ts";
import { leastDepthOf } from "./validity.ts";

/**
 * How many times larger than the smaller of two unequal radii to the wall a nose may be. Where a riser meets the wall square
 * the nose's ball turns from the one fillet to the other on an ellipse whose sharpest radius is (n + r)·sin 45°, which must
 * be more than its own n: n < 2.41 r. The rest is for drafted walls, which meet it less squarely.
 */
const MOST = 2;

/** A tread and its riser with unequal radii to the wall: the nose between them runs out over both fillets, and must be round enough for it. */
export function checkApart(
  features: readonly FeatureSpec[],
  blocks: readonly Block[],
  radii: Radii,
): Refusal[] {
  /** How many treads would have nothing level, or no wall above them. */
  const faults = (tried: Radii) =>
    shortTreads(features, tried).length + blocks.filter((b) => b.depth < leastDepthOf(b, tried)).length;
  return blocks.flatMap((b): Refusal[] => {
    const [tread, riser] = [radii.step(b.top, "wall"), radii.step(b.riser, "wall")];
    const smaller = Math.min(tread, riser);
    if (tread === riser || b.nose <= MOST * smaller) return [];
    const larger = Math.ceil(b.nose / MOST);
    const atWall = (one: string, other: string) => one === "wall" || other === "wall";
    const step: Radii["step"] = (one, other) =>
      Math.max(radii.step(one, other), atWall(one, other) ? larger : 0);
    const rounder =
      faults({ ...radii, step }) > faults(radii) ? "" : `, or radii to the wall of at least ${larger} mm`;
    return [
      {
        ...radii.figure(b.top, b.riser, "nose"),
        why: `the nose of ${b.top}, ${tenths(b.nose)} mm, cannot run out over the radii of ${tenths(tread)} mm from tread to wall and ${tenths(riser)} mm from riser to wall`,
        wouldWork: `a nose of at most ${Math.floor(MOST * smaller)} mm${rounder}`,
      },
    ];
  });
}

/** The common ball is smaller by this than what it must not touch all at once. */
const UNDER = 0.95;
/** Points along the way of the nose's ball at which its bend is asked for. */
const POINTS = 64;

/**
 * The largest ball that rolls along a nose between a tread and a riser with unequal radii to the wall, mm: smaller than both
 * fillets, and than the hollow that the nose leaves where it turns from the one to the other. A larger one would touch all
 * of a fillet at once, or the hollow in two places.
 */
export function largestBeside(nose: number, tread: number, riser: number): number {
  return UNDER * Math.min(tread, riser, sharpestTurn(nose, tread, riser) - nose);
}

/**
 * Least radius of the way on which the nose's ball touches both fillets, mm. At w from an upright wall that stands square to
 * the riser it has moved out by r − √(R² − (r − w)²) along each fillet, R = n + r: a curve over w whose slopes are tan φ
 * with R sin φ = r − w, and its second derivatives 1/(R cos³ φ).
 */
function sharpestTurn(nose: number, tread: number, riser: number): number {
  const nearest = Math.min(tread, riser);
  let most = 0;
  for (let k = 1; k <= POINTS; k++) {
    const w = nearest - ((nearest + nose) * (k - 1)) / POINTS;
    const [s, a] = bendAt(nose, tread, w);
    const [t, b] = bendAt(nose, riser, w);
    const squared = (a * a + b * b + (s * b - t * a) ** 2) / (1 + s * s + t * t) ** 3;
    most = Math.max(most, squared);
  }
  return 1 / Math.sqrt(most);
}

/** Slope and second derivative over w. */
function bendAt(nose: number, fillet: number, w: number): [number, number] {
  const radius = nose + fillet;
  const sine = (fillet - w) / radius;
  const cosine = Math.sqrt(1 - sine * sine);
  return [sine / cosine, 1 / (radius * cosine ** 3)];
}
