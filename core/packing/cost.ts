import type { Stock } from "./order.ts";

/** What decides between two plans, in this order, mm²; less is better. */
export type Cost = readonly [
  /** Area of the pieces that are missing. */
  missing: number,
  /** Area of the stock before the last, which is opened anyway, and of what the last is used. */
  opened: number,
  /** Area used of all of them. */
  used: number,
];

/** @param loads the stock that holds pieces, in order, with the length used of each, mm */
export function costOf(
  missingMm2: number,
  loads: readonly { readonly stock: Stock; readonly usedMm: number }[],
): Cost {
  let opened = 0;
  let used = 0;
  loads.forEach(({ stock: { lengthMm, widthMm }, usedMm }, i) => {
    const isWhole = i < loads.length - 1 && Number.isFinite(lengthMm);
    opened += widthMm * (isWhole ? lengthMm : usedMm);
    used += widthMm * usedMm;
  });
  return [missingMm2, opened, used];
}

/** Negative when the first cost is less, positive when it is more; less than a square millimetre is no difference. */
export function compareCosts(one: Cost, other: Cost): number {
  const place = one.findIndex((value, i) => Math.abs(value - other[i]) > 1);
  return place < 0 ? 0 : one[place] - other[place];
}
