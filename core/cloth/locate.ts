import { enterCell, stepInCell } from "./cell.ts";
import { MET, type Met } from "./join-yarns.ts";
import type { Net } from "./net.ts";

/** Cloth on both sides of a warp yarn: two nets on the same warp, and wefts that begin at the same point of it. */
export interface Cloth {
  readonly left: Net;
  readonly right: Net;
}

/** A place in cloth: yarn lengths from its origin along the warp (`u`) and to the left along the weft (`v`), mm; and the cell that holds it. */
export interface ClothPlace {
  u: number;
  v: number;
  /** Cell between nodes (i, j) and (i + 1, j + 1) of the net on `side`. */
  i: number;
  j: number;
  side: 1 | -1;
}

export const clothOrigin = (): ClothPlace => ({ u: 0, v: 0, i: 0, j: 0, side: 1 });

const MOST_MOVES = 100;
const MOST_ROUNDS = 12;
/** The last step to a place is no longer than this, in parts of a cell: the next would be a small part of it. */
const LAST_STEP = 2e-3;
/** A point so little outside a cell, in parts of it, is taken as in it: neighbours agree on their common yarn. */
const EDGE = 0.02;
/** A cell tells of what lies so many cells beside it, and no more. */
const REACH = 1.5;

const inCell = { s: 0, t: 0 };

/**
 * Finds the place in cloth of a point of the surface (p[at…at + 2], mm): its pre-image. `place` holds where to begin,
 * a place not far off, and is left at what was found. Walks from cell to cell; gives back why a cell on the way is missing.
 */
export function locate(cloth: Cloth, p: Float64Array, at: number, place: ClothPlace): Met {
  const h = cloth.left.spacing;
  inCell.s = place.u / h - place.i;
  inCell.t = (place.side * place.v) / h - place.j;
  for (let move = 0; move < MOST_MOVES; move++) {
    const { i, j } = place;
    const met = enterCell(place.side > 0 ? cloth.left : cloth.right, i, j);
    if (met !== MET.yes) return met;
    const isFound = findInCell(p, at);
    const { s, t } = inCell;
    if (!(Math.abs(s) < Infinity && Math.abs(t) < Infinity)) return MET.lost;
    const ds = cellsAway(s);
    const dt = cellsAway(t);
    if (ds === 0 && dt === 0) {
      if (!isFound) return MET.lost;
      place.u = (i + s) * h;
      place.v = place.side * (j + t) * h;
      return MET.yes;
    }
    place.i += ds;
    place.j += dt;
    inCell.s -= ds;
    inCell.t -= dt;
    if (place.j < 0) {
      place.j = -1 - place.j;
      place.side = place.side > 0 ? -1 : 1;
      inCell.t = 1 - inCell.t;
    }
  }
  return MET.lost;
}

/** Moves to the place in the cell that is nearest to the point, or out of the cell towards it; whether it was found. */
function findInCell(p: Float64Array, at: number): boolean {
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const step = stepInCell(inCell, p, at);
    if (step < LAST_STEP) return true;
    inCell.s = held(inCell.s);
    inCell.t = held(inCell.t);
    if (Math.abs(inCell.s - 0.5) > 1 || Math.abs(inCell.t - 0.5) > 1) return false;
  }
  return false;
}

/** How many cells further a part of a cell lies. */
const cellsAway = (part: number) => (part < -EDGE || part > 1 + EDGE ? Math.floor(part) : 0);

const held = (part: number) => Math.max(-REACH, Math.min(1 + REACH, part));
