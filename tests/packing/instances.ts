import { GRID } from "../../core/packing/grid.ts";
import type { MarkerOrder, MarkerPiece } from "../../core/packing/order.ts";
import { ringArea } from "../../core/packing/ring.ts";

/** A strip of given width, as short as possible, with all pieces on it. */
export interface Instance {
  readonly name: string;
  readonly width: number;
  /** So many of its units of length make one of its file's. */
  readonly parts: number;
  readonly items: readonly Item[];
}

export interface Item {
  /** x along the strip, in the instance's own unit. */
  readonly outline: readonly number[];
  readonly demand: number;
  readonly turns: MarkerPiece["turns"];
}

/** Area of all pieces, in the instance's own unit. */
export function totalArea({ items }: Instance): number {
  return items.reduce((sum, { outline, demand }) => sum + demand * Math.abs(ringArea(outline)), 0);
}

/** A strip is packed about as wide as this, mm: the grid is fine then. */
export const WIDEST = 60_000;

/** The power of two by which an instance is enlarged to be packed in mm: exact. */
export function scaleOf({ width }: Instance): number {
  return 2 ** Math.floor(Math.log2(WIDEST / width));
}

/**
 * An instance as an order for the table: a roll without end, no gap and no margin, or a hair of both where corners are rounded to the grid:
 * the instance's own outlines reach beyond those by half of it.
 */
export function orderOf(instance: Instance, seed: number): MarkerOrder {
  const scale = scaleOf(instance);
  const rounded = instance.items.some(({ outline }) =>
    outline.some((at) => !Number.isInteger((at * scale) / GRID)),
  );
  return {
    pieces: instance.items.map(({ outline, demand, turns }, i) => ({
      id: `${i}`,
      outline: outline.map((at) => at * scale),
      quantity: demand,
      turns,
      mirror: false,
    })),
    stock: [{ id: "strip", widthMm: instance.width * scale, lengthMm: Infinity, count: 1 }],
    gapMm: rounded ? GRID : 0,
    marginMm: rounded ? GRID : 0,
    way: "table",
    seed,
  };
}
