import { expect } from "vitest";
import type { Marker, MarkerOrder, MarkerPlan } from "../../core/packing/order.ts";
import { leastDistance } from "./distance.ts";
import { exact, exactRing, firstOverlap, within } from "./exact-overlap.ts";
import { cutStages } from "./guillotine.ts";

/** The rectangles round the pieces of a marker. */
export const boxes = ({ placements }: Marker) =>
  placements.map(({ outline }) => {
    const xs = outline.filter((_, i) => i % 2 === 0);
    const ys = outline.filter((_, i) => i % 2 === 1);
    return { left: Math.min(...xs), right: Math.max(...xs), low: Math.min(...ys), high: Math.max(...ys) };
  });

/** Everything that holds for any plan: all pieces there or missing, within the margins, apart, turned as allowed. */
export function validate(order: MarkerOrder, { markers, missing }: MarkerPlan): void {
  const count = (id: string) =>
    markers.flatMap(({ placements }) => placements).filter((p) => p.piece === id).length;
  for (const { id, quantity, turns, mirror } of order.pieces) {
    const lacking = missing.find(({ piece }) => piece === id)?.quantity ?? 0;
    expect(count(id) + lacking).toBe(quantity);
    for (const placement of markers.flatMap(({ placements }) => placements).filter((p) => p.piece === id)) {
      expect(turns).toContain(placement.turnDeg);
      if (!mirror) expect(placement.mirrored).toBe(false);
    }
  }
  for (const stock of order.stock)
    expect(markers.filter((marker) => marker.stock === stock.id).length).toBeLessThanOrEqual(stock.count);
  for (const marker of markers) {
    const rings = marker.placements.map(({ outline }) => exactRing(outline));
    expect(firstOverlap(rings)).toBe(null);
    expect(rings.every((ring) => within(ring, exact(marker.usedMm), exact(marker.widthMm)))).toBe(true);
    expect(marker.usedMm).toBeLessThanOrEqual(marker.lengthMm);
    // Sums of lengths are rounded in the last places.
    const hair = 1e-6;
    for (const { left, right, low, high } of boxes(marker)) {
      expect(left).toBeGreaterThanOrEqual(order.marginMm - hair);
      expect(low).toBeGreaterThanOrEqual(order.marginMm - hair);
      expect(high).toBeLessThanOrEqual(marker.widthMm - order.marginMm + hair);
      expect(right).toBeLessThanOrEqual(marker.lengthMm - order.marginMm + hair);
    }
    if (order.way === "hand") expect(cutStages(boxes(marker))).toBeLessThanOrEqual(4);
    expect(leastDistance(marker.placements.map(({ outline }) => outline))).toBeGreaterThanOrEqual(
      order.gapMm - hair,
    );
  }
}
