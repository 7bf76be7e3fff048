import { expect } from "vitest";
import type { BarDemand, BarOptions, BarPlan, BarStock } from "../../core/cutting/bars/bar-plan.ts";

/** What every plan must keep to, whatever the figures. */
export function checkPlan(
  plan: BarPlan,
  demands: readonly BarDemand[],
  stock: readonly BarStock[],
  { kerfMm, endTrimMm, keepFromMm }: BarOptions,
): void {
  const cut = new Map<string, number>();
  for (const bar of plan.bars) {
    const own = stock.find(({ id }) => id === bar.stock);
    expect(own?.lengthMm).toBe(bar.lengthMm);
    expect(bar.times).toBeGreaterThan(0);
    expect(bar.cuts.length).toBeGreaterThan(0);
    const trim = bar.remnant ? 0 : endTrimMm;
    let from = trim;
    for (const { id, lengthMm, fromMm } of bar.cuts) {
      expect(lengthMm).toBe(demands.find((demand) => demand.id === id)?.lengthMm);
      expect(Math.abs(fromMm - from)).toBeLessThan(1e-3);
      from = fromMm + lengthMm + kerfMm;
      expect(fromMm + lengthMm).toBeLessThan(bar.lengthMm - trim + 2e-3);
      cut.set(id, (cut.get(id) ?? 0) + bar.times);
    }
    expect(bar.restMm).toBeCloseTo(Math.max(0, bar.lengthMm - trim - from), 2);
    expect(bar.keep).toBe(bar.restMm > 0 && bar.restMm >= keepFromMm);
  }
  // Each piece is cut exactly as often as it is wanted, unless it is longer than any bar.
  const asked = new Map<string, number>();
  for (const { id, quantity } of demands) if (quantity > 0) asked.set(id, (asked.get(id) ?? 0) + quantity);
  for (const { id } of plan.tooLong) asked.delete(id);
  expect(Object.fromEntries(cut)).toEqual(Object.fromEntries(asked));
  // No more bars of a kind than there are, but for those that are told to be missing.
  for (const { id, quantity = Infinity } of stock) {
    const own = plan.bars.filter((bar) => bar.stock === id && !bar.lacking);
    const number = own.reduce((sum, { times }) => sum + times, 0);
    expect(number).toBeLessThanOrEqual(quantity);
    expect(plan.use.find((use) => use.stock === id)?.bars ?? 0).toBe(number);
    const lacking = plan.bars.filter((bar) => bar.stock === id && bar.lacking);
    const missing = plan.missing.find((each) => each.stock === id)?.bars ?? 0;
    expect(missing).toBe(lacking.reduce((sum, { times }) => sum + times, 0));
  }
  const { barsMm, piecesMm, sawMm, keptMm, wasteMm } = plan.lengths;
  expect(piecesMm + sawMm + keptMm + wasteMm).toBeCloseTo(barsMm, 6);
  for (const part of [piecesMm, sawMm, keptMm, wasteMm]) expect(part).toBeGreaterThanOrEqual(-1e-6);
  expect(plan.bound).toBeLessThanOrEqual(plan.cost + 1e-9);
}
