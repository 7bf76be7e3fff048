import { convexParts } from "./convex-parts.ts";
import { type Ring, tidyRing } from "./ring.ts";

/** A piece to be cut, and how it may lie. */
export interface MarkerPiece {
  readonly id: string;
  /** Closed outline without holes, x y pairs, mm; x along the warp of the cloth, or along the core's direction. */
  readonly outline: ArrayLike<number>;
  readonly quantity: number;
  /** By how much it may be turned, degrees counter-clockwise: 0 and 180 hold the warp. */
  readonly turns: readonly (0 | 90 | 180 | 270)[];
  /** Whether it may be turned over as well. */
  readonly mirror: boolean;
}

/** Rolls or sheets of one size, or one remnant. */
export interface Stock {
  readonly id: string;
  readonly widthMm: number;
  /** Infinity for a roll that never ends. */
  readonly lengthMm: number;
  /** How many there are; Infinity when there are always enough. */
  readonly count: number;
}

/** What is to be cut out of what. */
export interface MarkerOrder {
  readonly pieces: readonly MarkerPiece[];
  /** Used in this order: remnants stand before whole rolls. */
  readonly stock: readonly Stock[];
  /** Kept free between pieces, mm. */
  readonly gapMm: number;
  /** Kept free along all four edges of the stock, mm. */
  readonly marginMm: number;
  /**
   * `table`: pieces lie anywhere, by their true outlines. `hand`: straight cuts only, across the roll, then along, and so
   * on, by the rectangles round the pieces.
   */
  readonly way: "hand" | "table";
  /** A whole number; the same seed and the same number of steps give the same plan. */
  readonly seed: number;
  /**
   * The order in parts that could be cut one after the other, such as its projects, those again shell by shell: together they are the whole. Within
   * the usual steps a plan takes no more than those of its sets one behind the other, on a table of very many pieces of its innermost sets. None: only
   * all of it is planned.
   */
  readonly sets?: readonly PieceSet[] | undefined;
}

/** Pieces that are cut together, so many times over. */
export interface PieceSet {
  readonly times: number;
  /** For each piece of the order, how many there are in one. */
  readonly quantities: readonly number[];
  /** What a set is made of in its turn. */
  readonly sets?: readonly PieceSet[] | undefined;
}

/** A piece on a marker. */
export interface Placement {
  readonly piece: string;
  readonly turnDeg: 0 | 90 | 180 | 270;
  /** Turned over (x to −x) before it was turned. */
  readonly mirrored: boolean;
  /** Where the origin of the piece's outline lies, mm from the corner of the stock: x along it, y across. */
  readonly xMm: number;
  readonly yMm: number;
  /** The outline where it lies, counter-clockwise, its corners to the nearest 1/1024 mm. */
  readonly outline: Ring;
}

/** A straight cut from edge to edge of what is left of the stock when its turn comes. */
export interface Cut {
  /**
   * 1: across the whole width, into sections; 2: along a section, into lanes; 3: across a lane, into rectangles; 4: along
   * a rectangle, where a piece is narrower than its lane.
   */
  readonly stage: 1 | 2 | 3 | 4;
  readonly fromMm: readonly [number, number];
  readonly toMm: readonly [number, number];
}

/** Pieces on one roll, sheet or remnant. */
export interface Marker {
  readonly stock: string;
  /** Size of the stock, down to the next 1/1024 mm. */
  readonly widthMm: number;
  readonly lengthMm: number;
  /** From the beginning of the stock to the last piece's end and half a gap more, where the rest begins, mm. */
  readonly usedMm: number;
  /** Area of the pieces, mm². */
  readonly areaMm2: number;
  readonly placements: readonly Placement[];
  /** Hand cut only, in the order in which they are made. */
  readonly cuts: readonly Cut[];
}

/** A piece for which there was no room. */
export interface Missing {
  readonly piece: string;
  readonly quantity: number;
  /** Whether it fits none of the stock even by itself, or the stock ran out. */
  readonly reason: "too big" | "no stock left";
}

export interface MarkerPlan {
  readonly markers: readonly Marker[];
  readonly missing: readonly Missing[];
}

/**
 * What is wrong with an order, in a sentence, or null. Pieces that are too big are not wrong: they are listed as missing.
 */
export function faultOf(order: MarkerOrder): string | null {
  const { pieces, stock, gapMm, marginMm, seed } = order;
  if (!(gapMm >= 0 && Number.isFinite(gapMm))) return `The gap is ${gapMm} mm: 0 or more is wanted.`;
  if (!(marginMm >= 0 && Number.isFinite(marginMm)))
    return `The margin is ${marginMm} mm: 0 or more is wanted.`;
  if (!Number.isInteger(seed)) return `The seed is ${seed}: a whole number is wanted.`;
  const ids = new Set<string>();
  for (const { id, widthMm, lengthMm, count } of stock) {
    if (ids.has(id)) return `Stock ${id} is listed twice: each needs an id of its own.`;
    ids.add(id);
    if (!(widthMm > 0 && Number.isFinite(widthMm)))
      return `Stock ${id} is ${widthMm} mm wide: more than 0 is wanted.`;
    if (!(lengthMm > 0)) return `Stock ${id} is ${lengthMm} mm long: more than 0 is wanted.`;
    if (!(count === Infinity || (Number.isInteger(count) && count >= 0)))
      return `Stock ${id} counts ${count}: a whole number is wanted.`;
    if (2 * marginMm >= Math.min(widthMm, lengthMm))
      return `The margin of ${marginMm} mm leaves nothing of stock ${id}, ${widthMm} × ${lengthMm} mm.`;
  }
  ids.clear();
  for (const { id, outline, quantity, turns } of pieces) {
    if (ids.has(id)) return `Piece ${id} is listed twice: give it a quantity instead.`;
    ids.add(id);
    if (!(Number.isInteger(quantity) && quantity >= 0))
      return `Piece ${id} is wanted ${quantity} times: a whole number is wanted.`;
    if (turns.length === 0) return `Piece ${id} may not be laid in any direction: give it a turn of 0.`;
    if (outline.length < 6 || outline.length % 2 === 1)
      return `Piece ${id} has an outline of ${outline.length} numbers: x and y of three corners or more are wanted.`;
    for (let i = 0; i < outline.length; i++)
      if (!Number.isFinite(outline[i]))
        return `Piece ${id} has a corner at ${outline[i]}: a number is wanted.`;
    if (!isOneLine(outline))
      return `Piece ${id} has an outline that crosses itself or has no area: one line round the piece is wanted.`;
  }
  return null;
}

/** Outlines looked at so far: the same piece may be asked about by itself and in its order, and the look is not quick. */
const looked = new WeakMap<MarkerPiece["outline"], boolean>();

/** Whether an outline is one line round an area. */
function isOneLine(outline: MarkerPiece["outline"]): boolean {
  const known = looked.get(outline);
  if (known !== undefined) return known;
  const found = convexParts(tidyRing(outline)) !== null;
  looked.set(outline, found);
  return found;
}
