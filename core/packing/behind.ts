import type { GridOrder } from "./demand.ts";
import type { Marker, MarkerPlan, Placement, Stock } from "./order.ts";
import { planOf } from "./plan.ts";
import { binsOf, roomOn } from "./rectangles.ts";
import type { SetPlan } from "./sets.ts";

/** Something that lies on a stretch of stock by itself, half gaps included, mm. */
export interface Block<Content> {
  readonly lengthMm: number;
  /** Stock at least as wide is wanted, its margins less half a gap taken off. */
  readonly widthMm: number;
  readonly content: Content;
}

/** Some stock with the blocks on it, one behind the other. */
export interface BlockLoad<Content> {
  readonly stock: Stock;
  readonly blocks: readonly Block<Content>[];
}

/**
 * Lays blocks one behind another on the first stock in the order's own order that has room for them, the longest first; none is opened while one that
 * is open has room. Blocks for which there is no room are left out.
 */
export function layBehind<Content>(
  order: GridOrder,
  blocks: readonly Block<Content>[],
): BlockLoad<Content>[] {
  const loads = binsOf(order, blocks.length).map((stock) => ({
    stock,
    room: roomOn(order, stock),
    used: 0,
    blocks: [] as Block<Content>[],
  }));
  for (const block of blocks.toSorted((a, b) => b.lengthMm - a.lengthMm)) {
    const load = loads.find(
      ({ room, used }) => block.widthMm <= room.width && used + block.lengthMm <= room.length,
    );
    if (!load) continue;
    load.blocks.push(block);
    load.used += block.lengthMm;
  }
  return loads.filter((load) => load.blocks.length > 0);
}

/** Plans of sets for a cutting table as a plan for all of them, the markers of one behind those of another. */
export function setsBehind(order: GridOrder, plans: readonly SetPlan<MarkerPlan>[]): MarkerPlan {
  const blocks = plans.flatMap(({ times, plan }) => {
    const own = plan.markers.map((marker) => blockOf(order, marker));
    return Array.from({ length: times }, () => own).flat();
  });
  const markers = layBehind(order, blocks).map(({ stock, blocks: laid }): Marker => {
    let along = 0;
    const placements = laid.flatMap(({ lengthMm, content }) => {
      const moved = content.placements.map((each) => movedAlong(each, along));
      along += lengthMm;
      return moved;
    });
    return {
      stock: stock.id,
      widthMm: stock.widthMm,
      lengthMm: stock.lengthMm,
      usedMm: Math.min(stock.lengthMm, roomOn(order, stock).start + along),
      areaMm2: laid.reduce((sum, { content }) => sum + content.areaMm2, 0),
      placements,
      cuts: [],
    };
  });
  return planOf(order, markers);
}

function blockOf(order: GridOrder, marker: Marker): Block<Marker> {
  const { start, width } = roomOn(order, marker);
  // Not the length used, which the end of the stock may have cut short of half a gap.
  let end = 0;
  for (const { outline } of marker.placements)
    for (let i = 0; i < outline.length; i += 2) end = Math.max(end, outline[i]);
  return { lengthMm: end + order.gapMm / 2 - start, widthMm: width, content: marker };
}

function movedAlong(placement: Placement, by: number): Placement {
  const outline = placement.outline.map((value, i) => (i % 2 === 0 ? value + by : value));
  return { ...placement, xMm: placement.xMm + by, outline };
}
