import { fitsAlone, type GridOrder } from "./demand.ts";
import type { Stock } from "./order.ts";

/** The rectangle round a piece, lying one way, with half the gap added on every side, mm. */
export interface Kind {
  readonly demand: number;
  readonly turn: number;
  /** Along the stock. */
  readonly length: number;
  /** Across it. */
  readonly width: number;
}

/** For each demand the ways in which its rectangle may lie; turns that give the same rectangle count once. */
export function kindsOf({ demands, gapMm }: GridOrder): Kind[][] {
  return demands.map(({ boxes }, demand) => {
    const kinds: Kind[] = [];
    boxes.forEach(({ left, right, low, high }, turn) => {
      const length = right - left + gapMm;
      const width = high - low + gapMm;
      if (!kinds.some((kind) => kind.length === length && kind.width === width))
        kinds.push({ demand, turn, length, width });
    });
    return kinds;
  });
}

/** What is wanted of each demand; none of those that fit on no stock. */
export function wantedOf(order: GridOrder): Int32Array {
  return Int32Array.from(order.demands, (demand) => (fitsAlone(demand, order) ? demand.piece.quantity : 0));
}

/** The stock one by one in its order, no more of a kind than there are pieces. */
export function binsOf({ stock }: GridOrder, pieces: number): Stock[] {
  return stock.flatMap((each) => new Array<Stock>(Math.min(each.count, pieces)).fill(each));
}

/** What rectangles with their half gaps may take of some stock: the margins keep half a gap less. */
export function roomOn(
  { gapMm, marginMm }: GridOrder,
  { lengthMm, widthMm }: Pick<Stock, "lengthMm" | "widthMm">,
) {
  const border = 2 * marginMm - gapMm;
  return { start: marginMm - gapMm / 2, length: lengthMm - border, width: widthMm - border };
}
