import { downToGrid, onGrid, upToGrid } from "./grid.ts";
import type { MarkerOrder, MarkerPiece } from "./order.ts";
import { type Box, boxOf, type Ring, ringArea, tidyRing } from "./ring.ts";
import { type Turn, turned } from "./variant.ts";

/** A line of an order, with what packing wants to know of it. */
export interface Demand {
  readonly piece: MarkerPiece;
  /** On the grid. */
  readonly outline: Ring;
  readonly areaMm2: number;
  readonly turns: readonly Turn[];
  /** The rectangle round the outline in each of these turns. */
  readonly boxes: readonly Box[];
}

/** An order on the grid: outlines to the nearest, gap and margin not less, stock not more than asked for. */
export interface GridOrder extends MarkerOrder {
  readonly demands: readonly Demand[];
}

export function putOnGrid(order: MarkerOrder): GridOrder {
  return {
    ...order,
    demands: order.pieces.map(demandOf),
    stock: order.stock.map((stock) => ({
      ...stock,
      widthMm: downToGrid(stock.widthMm),
      lengthMm: downToGrid(stock.lengthMm),
    })),
    // Half of it stands on either side of a cut.
    gapMm: upToGrid(order.gapMm, 2),
    marginMm: upToGrid(order.marginMm),
  };
}

function demandOf(piece: MarkerPiece): Demand {
  const outline = tidyRing(Float64Array.from(piece.outline, onGrid));
  const turns = [false, ...(piece.mirror ? [true] : [])].flatMap((mirrored) =>
    piece.turns.map((degrees): Turn => ({ quarters: (degrees / 90) as Turn["quarters"], mirrored })),
  );
  const boxes = turns.map((turn) => boxOf(turned(outline, turn)));
  return { piece, outline, areaMm2: ringArea(outline), turns, boxes };
}

/** Whether a piece fits on some stock by itself, in one of its turns. */
export function fitsAlone({ boxes }: Demand, { stock, marginMm }: GridOrder): boolean {
  return boxes.some(({ left, right, low, high }) =>
    stock.some(
      ({ lengthMm, widthMm, count }) =>
        count > 0 && right - left <= lengthMm - 2 * marginMm && high - low <= widthMm - 2 * marginMm,
    ),
  );
}

/** Whether a piece is a rectangle that lies straight. */
export function isRectangle({ outline, areaMm2, boxes: [{ left, right, low, high }] }: Demand): boolean {
  return outline.length === 8 && areaMm2 === (right - left) * (high - low);
}
