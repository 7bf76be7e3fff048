import type { MarkerPlan, Stock } from "./order.ts";

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
  loads: readonly { readonly stock: Pick<Stock, "lengthMm" | "widthMm">; readonly usedMm: number }[],
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

/** @param areaMm2 of a piece by its id */
export function costOfPlan({ markers, missing }: MarkerPlan, areaMm2: (piece: string) => number): Cost {
  return costOf(
    missing.reduce((sum, { piece, quantity }) => sum + quantity * areaMm2(piece), 0),
    markers.map((marker) => ({ stock: marker, usedMm: marker.usedMm })),
  );
}

/** Negative when the first cost is less, positive when it is more; less than a square millimetre is no difference. */
export function compareCosts(one: Cost, other: Cost): number {
  const place = one.findIndex((value, i) => Math.abs(value - other[i]) > 1);
  return place < 0 ? 0 : one[place] - other[place];
}
