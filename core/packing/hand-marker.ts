import type { GridOrder } from "./demand.ts";
import type { Cut, Marker, Stock } from "./order.ts";
import { type Lying, markerOf } from "./plan.ts";
import { roomOn } from "./rectangles.ts";
import type { Section } from "./sections.ts";

/** A roll, sheet or remnant with the sections on it. */
export interface SectionLoad {
  readonly stock: Stock;
  readonly sections: readonly Section[];
}

/** The sections of a load as a marker: where the pieces lie, and the cuts in the order in which they are made. */
export function handMarker(order: GridOrder, { stock, sections }: SectionLoad): Marker {
  const { demands, gapMm } = order;
  const lying: Lying[] = [];
  const cuts: Cut[] = [];
  const cut = (stage: Cut["stage"], fromX: number, fromY: number, toX: number, toY: number) => {
    const inside = fromX === toX ? fromX > 0 && fromX < stock.lengthMm : fromY > 0 && fromY < stock.widthMm;
    if (inside) cuts.push({ stage, fromMm: [fromX, fromY], toMm: [toX, toY] });
  };
  // Cuts run through the middle of the gaps.
  const { start } = roomOn(order, stock);
  cut(1, start, 0, start, stock.widthMm);
  let x = start;
  for (const { length } of sections) {
    x += length;
    cut(1, x, 0, x, stock.widthMm);
  }
  const usedMm = Math.min(x, stock.lengthMm);
  x = start;
  for (const section of sections) {
    const end = x + section.length;
    let y = start;
    cut(2, x, y, end, y);
    for (const lane of section.lanes) {
      cut(2, x, y + lane.width, end, y + lane.width);
      let along = x;
      for (const kind of lane.kinds) {
        const { left, low } = demands[kind.demand].boxes[kind.turn];
        lying.push({ ...kind, xMm: along + gapMm / 2 - left, yMm: y + gapMm / 2 - low });
        const next = along + kind.length;
        if (next < end) cut(3, next, y, next, y + lane.width);
        if (kind.width < lane.width) cut(4, along, y + kind.width, next, y + kind.width);
        along = next;
      }
      y += lane.width;
    }
    x = end;
  }
  return markerOf(demands, stock, usedMm, lying, cuts);
}
