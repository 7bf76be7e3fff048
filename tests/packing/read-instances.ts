import { z } from "zod";
import { convexParts } from "../../core/packing/convex-parts.ts";
import { GRID } from "../../core/packing/grid.ts";
import { boxOf, tidyRing } from "../../core/packing/ring.ts";
import { isObject } from "../../core/project/migrate.ts";
import { type Entry, fitted, OddInstance, readEach } from "../bench/instance-file.ts";
import { wholeNumbers } from "../bench/whole-numbers.ts";
import { type Instance, type Item, WIDEST } from "./instances.ts";

/** More pieces than any shop lays at once: each two of them are kept account of. */
const MOST_PIECES = 5000;
/** No corner is farther out than so many widths of the strip: the grid would not be exact there. */
const FARTHEST = 1000;

const above0 = "a number above 0";
const size = z.number(above0).positive(above0);
const corners = "a list of three corners or more, each a list of x and y,";
const outline = z.array(z.tuple([z.number(corners), z.number(corners)], corners), corners).min(3, corners);
const aDemand = `a whole number from 0 to ${MOST_PIECES}`;
const demand = z.int(aDemand).min(0, aDemand).max(MOST_PIECES, aDemand).default(1);
const angles = "a list of angles in degrees, one or more,";
const turns = z.array(z.number(angles), angles).min(1, angles).nullish();
const oneItem = "a list of one item or more";
const simple = '"simple_polygon", one outline without holes,';

const shape = z.object(
  { type: z.literal("simple_polygon", simple), data: outline },
  "an object with type and data",
);
const irregularItem = z.object(
  { demand, allowed_orientations: turns, shape },
  "an object with demand, allowed_orientations and shape",
);
const jigsawItem = z.object({ demand, allowed: turns, polygon: outline }, "an object with a polygon");
const rectangle = z.object({ demand, w: size, h: size }, "an object with w and h");

/** The ways in which the shared files write an instance, by the key that tells them apart, and what each comes to. */
const formats = {
  /** Outlines, as irregular/*.json; without orientations a piece may lie in any. */
  strip_height: z
    .object({ strip_height: size, items: z.array(irregularItem, oneItem).min(1, oneItem) })
    .transform(({ strip_height, items }) => ({
      width: strip_height,
      items: items.map(({ shape, allowed_orientations, demand }) => {
        return { outline: shape.data.flat(), angles: allowed_orientations ?? quarters, demand };
      }),
    })),
  /** Jigsaws, as irregular/dighe_jigsaw.json: the strip is as wide as the board. */
  board: z
    .object({ board: outline, items: z.array(jigsawItem, oneItem).min(1, oneItem) })
    .transform(({ board, items }) => ({
      width: across(board.flat(), 0),
      items: items.map(({ polygon, allowed, demand }) => {
        return { outline: polygon.flat(), angles: allowed ?? quarters, demand };
      }),
    })),
  /** Rectangles that may be turned, as rect/*.json. */
  strip_width: z
    .object({ strip_width: size, items: z.array(rectangle, oneItem).min(1, oneItem) })
    .transform(({ strip_width, items }) => ({
      width: strip_width,
      items: items.map(({ w, h, demand }) => ({
        outline: [0, 0, h, 0, h, w, 0, w],
        angles: [0, 90],
        demand,
      })),
    })),
};

const quarters: readonly number[] = [0, 90, 180, 270];

/** The instances in a file's text; `name` is for those without a name. */
export function readInstances(text: string, name: string): Entry<Instance>[] {
  return readEach(text, name, readInstance);
}

function readInstance(value: unknown, path: readonly PropertyKey[], name: string): Instance {
  const keys = Object.keys(formats) as (keyof typeof formats)[];
  const key = isObject(value) ? keys.find((each) => each in value) : undefined;
  if (key === undefined) {
    const isBars = isObject(value) && "capacity" in value;
    const fault = isBars ? "is for npm run bench -- bars" : "is no packing instance";
    throw new OddInstance(path, fault, "an object with items, and strip_height, board or strip_width,");
  }
  const { width, items } = fitted(formats[key], value, path);
  const wanted = items.flatMap((item, i) =>
    item.demand > 0 ? [{ ...item, at: [...path, "items", i] }] : [],
  );
  const pieces = wanted.reduce((sum, { demand }) => sum + demand, 0);
  const odd = (fault: string, right: string) => new OddInstance([...path, "items"], fault, right);
  if (pieces === 0) throw odd("asks for nothing, every demand being 0", "a demand of one");
  if (pieces > MOST_PIECES) throw odd(`asks for ${pieces} pieces`, `a sum of ${MOST_PIECES} at the most`);
  const sound = wanted.map(({ at, ...item }) => checkedItem(item, width, at));
  return { name, ...inParts(width, sound) };
}

/** Throws an OddInstance for an item that cannot lie on a strip of this width. */
function checkedItem(
  { outline, angles, demand }: Pick<Item, "outline" | "demand"> & { readonly angles: readonly number[] },
  width: number,
  at: readonly PropertyKey[],
): Item {
  const odd = (fault: string, right: string) => new OddInstance(at, fault, right);
  const turns = ([0, 90, 180, 270] as const).filter((turn) =>
    angles.some((angle) => (angle - turn) % 360 === 0),
  );
  if (turns.length === 0) throw odd(`may be turned by ${angles.join(", ")}° only`, "0, 90, 180 or 270");
  if (outline.some((place) => Math.abs(place) > FARTHEST * width))
    throw odd("has a corner far off", `one within ${FARTHEST} widths of the strip`);
  if (convexParts(tidyRing(outline)) === null)
    throw odd("has an outline that crosses itself or has no area", "one line round the piece");
  const least = Math.min(...turns.map((turn) => across(outline, turn)));
  if (least > width)
    throw odd(
      `is ${least} across in every turn that it may take`,
      `${width} at the most, the strip's width,`,
    );
  return { outline, demand, turns };
}

/** What an outline takes across the strip when it is turned. */
function across(outline: readonly number[], turn: Item["turns"][number]): number {
  const { left, right, low, high } = boxOf(outline);
  return turn % 180 === 0 ? high - low : right - left;
}

/** Strip and items in parts of their unit in which all corners are whole, where the packer's grid is fine enough for those. */
function inParts(width: number, items: readonly Item[]): Omit<Instance, "name"> {
  const most = WIDEST / GRID;
  const corners = wholeNumbers(
    items.flatMap(({ outline }) => outline),
    FARTHEST * most,
  );
  const parts = corners?.power ?? 1;
  const strip = width * parts;
  if (parts === 1 || strip > most) return { width, parts: 1, items };
  return {
    width: wholeNumbers([strip], strip)?.whole[0] ?? strip,
    parts,
    items: items.map((item) => ({
      ...item,
      outline: item.outline.map((place) => Math.round(place * parts)),
    })),
  };
}
