import type { Chain } from "./chain.ts";
import { segmentEnd, segmentStart } from "./segments.ts";

/**
 * Area enclosed by a chain, mm²: positive when it runs counter-clockwise. Green's theorem, exact for lines and arcs: the
 * polygon of the joints and, for each arc, its circular segment R²(θ − sin θ)/2. An open chain is closed by its chord.
 */
export function signedArea(chain: Chain): number {
  const origin = segmentStart(chain.segments[0]);
  let twice = 0;
  for (const segment of chain.segments) {
    const a = segmentStart(segment);
    const b = segmentEnd(segment);
    twice += (a.x - origin.x) * (b.y - origin.y) - (b.x - origin.x) * (a.y - origin.y);
    if (segment.kind === "arc") twice += segment.radius ** 2 * (segment.sweep - Math.sin(segment.sweep));
  }
  return twice / 2;
}
