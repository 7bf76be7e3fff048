import { z } from "zod";
import { GRID } from "../../core/packing/grid.ts";
import type { MarkerOrder, MarkerPiece } from "../../core/packing/order.ts";
import { boxOf, ringArea } from "../../core/packing/ring.ts";

/** A strip of given width, as short as possible, with all pieces on it. */
export interface Instance {
  readonly name: string;
  readonly width: number;
  readonly items: readonly Item[];
}

export interface Item {
  /** x along the strip, in the instance's own unit. */
  readonly outline: readonly number[];
  readonly demand: number;
  readonly turns: MarkerPiece["turns"];
}

const point = z.tuple([z.number(), z.number()]);
const turn = z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]);
const demand = z.int().nonnegative();

/** One irregular instance, as the shared irregular/*.json. */
const irregularFile = z.object({
  name: z.string(),
  strip_height: z.number().positive(),
  items: z.array(
    z.object({
      demand,
      allowed_orientations: z.array(turn).min(1),
      shape: z.object({ type: z.literal("simple_polygon"), data: z.array(point).min(3) }),
    }),
  ),
});

/** Jigsaws, as the shared irregular/dighe_jigsaw.json: the strip is as wide as the board. */
const jigsawFile = z.object({
  instances: z.array(
    z.object({
      name: z.string(),
      board: z.array(point).min(3),
      items: z.array(z.object({ demand, allowed: z.array(turn).min(1), polygon: z.array(point).min(3) })),
    }),
  ),
});

/** Rectangles that may be turned, as the shared rect/*.json. */
const rectangleFile = z.object({
  instances: z.array(
    z.object({
      name: z.string(),
      strip_width: z.number().positive(),
      items: z.array(z.object({ w: z.number().positive(), h: z.number().positive() })),
    }),
  ),
});

/** The instances in a file's text; null when it has none of the shared formats. */
export function readInstances(text: string): Instance[] | null {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return null;
  }
  const irregular = irregularFile.safeParse(data);
  if (irregular.success) {
    const { name, strip_height, items } = irregular.data;
    return [
      {
        name,
        width: strip_height,
        items: items.map((item) => ({
          outline: item.shape.data.flat(),
          demand: item.demand,
          turns: item.allowed_orientations,
        })),
      },
    ];
  }
  const jigsaws = jigsawFile.safeParse(data);
  if (jigsaws.success) {
    return jigsaws.data.instances.map(({ name, board, items }) => ({
      name,
      width: boxOf(board.flat()).high,
      items: items.map(({ polygon, allowed, ...item }) => ({
        outline: polygon.flat(),
        turns: allowed,
        ...item,
      })),
    }));
  }
  const rectangles = rectangleFile.safeParse(data);
  if (!rectangles.success) return null;
  return rectangles.data.instances.map(({ name, strip_width, items }) => ({
    name,
    width: strip_width,
    items: items.map(({ w, h }) => ({ outline: [0, 0, h, 0, h, w, 0, w], demand: 1, turns: [0, 90] })),
  }));
}

/** Area of all pieces. */
export function totalArea({ items }: Instance): number {
  return items.reduce((sum, { outline, demand }) => sum + demand * Math.abs(ringArea(outline)), 0);
}

/** The power of two by which an instance is enlarged to be packed in mm: exact, and the grid is fine then. */
export function scaleOf({ width }: Instance): number {
  return 2 ** Math.floor(Math.log2(60_000 / width));
}

/**
 * An instance as an order for the table: a roll without end, no gap, and no margin unless corners are rounded to the grid,
 * by which they might come to lie outside the strip.
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
    gapMm: 0,
    marginMm: rounded ? GRID : 0,
    way: "table",
    seed,
  };
}
