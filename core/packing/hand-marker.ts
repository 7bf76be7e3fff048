import type { Demand } from "./demand.ts";
import type { Cut, Marker, MarkerOrder, Placement, Stock } from "./order.ts";
import { placementOf } from "./plan.ts";
import type { Section } from "./sections.ts";

/** A roll, sheet or remnant with the sections on it. */
export interface Load {
  readonly stock: Stock;
  readonly sections: readonly Section[];
}

/** The sections of a load as a marker: where the pieces lie, and the cuts in the order in which they are made. */
export function markerOf(order: MarkerOrder, demands: readonly Demand[], { stock, sections }: Load): Marker {
  const { gapMm, marginMm } = order;
  const placements: Placement[] = [];
  const cuts: Cut[] = [];
  const cut = (stage: Cut["stage"], fromX: number, fromY: number, toX: number, toY: number) => {
    const inside = fromX === toX ? fromX > 0 && fromX < stock.lengthMm : fromY > 0 && fromY < stock.widthMm;
    if (inside) cuts.push({ stage, fromMm: [fromX, fromY], toMm: [toX, toY] });
  };
  // Cuts run through the middle of the gaps.
  const start = marginMm - gapMm / 2;
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
        const xMm = along + gapMm / 2 - left;
        const yMm = y + gapMm / 2 - low;
        placements.push(placementOf(demands, { demand: kind.demand, turn: kind.turn, xMm, yMm }));
        const next = along + kind.length;
        if (next < end) cut(3, next, y, next, y + lane.width);
        if (kind.width < lane.width) cut(4, along, y + kind.width, next, y + kind.width);
        along = next;
      }
      y += lane.width;
    }
    x = end;
  }
  const area = new Map(demands.map(({ piece, areaMm2 }) => [piece.id, areaMm2]));
  const areaMm2 = placements.reduce((sum, { piece }) => sum + (area.get(piece) ?? 0), 0);
  const { id, widthMm, lengthMm } = stock;
  return { stock: id, widthMm, lengthMm, usedMm, areaMm2, placements, cuts };
}
