import type { Places } from "./layout.ts";
import type { Stock } from "./order.ts";

/** A roll, sheet or remnant with the pieces on it: their numbers, and their places in the same order. */
export interface Load {
  readonly stock: Stock;
  readonly pieces: readonly number[];
  readonly places: Places;
}

/** A load without the pieces for whose place in its lists this is true. */
export function without({ stock, pieces, places }: Load, isGone: (place: number) => boolean): Load {
  const isKept = (_: number, place: number) => !isGone(place);
  return {
    stock,
    pieces: pieces.filter(isKept),
    places: {
      length: places.length,
      variant: places.variant.filter(isKept),
      x: places.x.filter(isKept),
      y: places.y.filter(isKept),
    },
  };
}
