import { expect } from "vitest";
import type { CutLot } from "../../core/cutting/lots/cut-lot.ts";

/**
 * Nothing of a lot is lost and nothing is cut twice: each piece lies on a marker, is sawn from a bar, or is told to
 * be missing.
 */
export function checkLot(lot: CutLot): void {
  for (const { material, pieces, totals } of lot.demand) {
    const wanted = new Map(pieces.map(({ id, quantity }) => [id, quantity]));
    expect(wanted.size).toBe(pieces.length);
    const given = new Map<string, number>();
    const give = (id: string, number: number) => given.set(id, (given.get(id) ?? 0) + number);
    for (const { plan } of lot.strips.filter((each) => each.material === material.id)) {
      for (const { cuts, times } of plan.bars) for (const { id } of cuts) give(id, times);
      for (const { id, quantity } of plan.tooLong) give(id, quantity);
    }
    for (const { plan } of lot.markers.filter((each) => each.material === material.id)) {
      for (const { placements } of plan.markers) for (const { piece } of placements) give(piece, 1);
      for (const { piece, quantity } of plan.missing) give(piece, quantity);
    }
    expect(Object.fromEntries(given)).toEqual(Object.fromEntries(wanted));
    // Counts and masses are the sums over the single kits, as those count them themselves.
    const kits = lot.models.flatMap(({ kit }) =>
      kit.totals.filter((total) => total.material === material.id),
    );
    const sum = (figure: (total: (typeof kits)[number]) => number) =>
      kits.reduce((all, total) => all + figure(total), 0);
    expect(totals.pieces).toBe(sum((total) => total.pieces));
    expect(totals.massKg).toBeCloseTo(
      sum((total) => total.massKg),
      9,
    );
    expect(totals.areaMm2 / 1e6).toBeCloseTo(sum((total) => total.areaMm2) / 1e6, 9);
    const markers = lot.markers.find((each) => each.material === material.id);
    const use = lot.use.find((each) => each.material === material.id);
    // What the stock gives is all that is listed, where it gives all.
    if (markers && !markers.noStock && markers.plan.missing.length === 0)
      expect((use?.piecesMm2 ?? 0) / 1e6).toBeCloseTo(totals.areaMm2 / 1e6, 9);
    expect(totals.lengthMm).toBeCloseTo(
      sum((total) => total.lengthMm - total.kerfMm),
      6,
    );
  }
}
