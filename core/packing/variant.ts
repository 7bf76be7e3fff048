import { convexParts } from "./convex-parts.ts";
import { type Box, boxOf, type Ring, tidyRing } from "./ring.ts";

/** A way to lay a piece down: turned by quarter turns, after being turned over or not. */
export interface Turn {
  /** Quarter turns counter-clockwise. */
  readonly quarters: 0 | 1 | 2 | 3;
  /** Turned over left to right first. */
  readonly mirrored: boolean;
}

/** A shape in one of the ways it may lie; its reference point is the origin of its outline. */
export interface Variant {
  readonly turn: Turn;
  /** Convex parts of what others keep off. */
  readonly parts: readonly Ring[];
  /** What others keep off, with whatever is kept free round it. */
  readonly claim: Box;
  /** What must lie on the strip. */
  readonly box: Box;
}

/** A turned outline, exactly: its corners change place and sign only. */
export function turned(ring: ArrayLike<number>, { quarters, mirrored }: Turn): Ring {
  const out = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    // Taken from nought, so that nought stays without a sign.
    const x = mirrored ? 0 - ring[i] : ring[i];
    const y = ring[i + 1];
    out[i] = quarters === 0 ? x : quarters === 1 ? 0 - y : quarters === 2 ? 0 - x : y;
    out[i + 1] = quarters === 0 ? y : quarters === 1 ? x : quarters === 2 ? 0 - y : 0 - x;
  }
  return out;
}

/**
 * The ways a shape may lie, those left out that are the same again (a rectangle turned by half).
 *
 * @param outline what must lie on the strip
 * @param claimed what others keep off: the outline, or one grown by half the gap
 * @throws RangeError when an outline crosses itself
 */
export function variantsOf(outline: Ring, claimed: Ring, turns: readonly Turn[]): Variant[] {
  const seen = new Set<string>();
  const variants: Variant[] = [];
  for (const turn of turns) {
    const ring = tidyRing(turned(claimed, turn));
    const box = boxOf(turned(outline, turn));
    const key = sortedCorners(ring, box);
    if (seen.has(key)) continue;
    seen.add(key);
    const parts = convexParts(ring);
    if (parts === null)
      throw new RangeError("An outline crosses itself; one line round the piece is wanted.");
    variants.push({ turn, parts, claim: boxOf(ring), box });
  }
  return variants;
}

/** The same text for outlines that differ by a shift only. */
function sortedCorners(ring: Ring, { left, right, low, high }: Box): string {
  const unit = 1e-7 * Math.max(right - left, high - low);
  const corners: string[] = [];
  for (let i = 0; i < ring.length; i += 2)
    corners.push(`${Math.round((ring[i] - left) / unit)} ${Math.round((ring[i + 1] - low) / unit)}`);
  return corners.sort().join();
}
