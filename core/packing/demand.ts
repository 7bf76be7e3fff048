import type { MarkerOrder, MarkerPiece, Stock } from "./order.ts";
import { type Box, boxOf, type Ring, ringArea, tidyRing } from "./ring.ts";
import { type Turn, turned } from "./variant.ts";

/** A line of an order, with what packing wants to know of it. */
export interface Demand {
  readonly piece: MarkerPiece;
  readonly outline: Ring;
  readonly areaMm2: number;
  readonly turns: readonly Turn[];
  /** The rectangle round the outline in each of these turns. */
  readonly boxes: readonly Box[];
}

export function demandsOf(order: MarkerOrder): Demand[] {
  return order.pieces.map((piece) => {
    const outline = tidyRing(piece.outline);
    const turns = [false, ...(piece.mirror ? [true] : [])].flatMap((mirrored) =>
      piece.turns.map((degrees): Turn => ({ quarters: (degrees / 90) as Turn["quarters"], mirrored })),
    );
    const boxes = turns.map((turn) => boxOf(turned(outline, turn)));
    return { piece, outline, areaMm2: ringArea(outline), turns, boxes };
  });
}

/** Whether a piece fits on some stock by itself, in one of its turns. */
export function fitsAlone({ boxes }: Demand, stock: readonly Stock[], marginMm: number): boolean {
  return boxes.some(({ left, right, low, high }) =>
    stock.some(
      ({ lengthMm, widthMm, count }) =>
        count > 0 && right - left <= lengthMm - 2 * marginMm && high - low <= widthMm - 2 * marginMm,
    ),
  );
}
