import { arcBetween } from "./arc.ts";
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

const MOST_MOVES = 200;
/** A point so little outside a cell, in parts of it, is taken as in it: neighbours agree on their common yarn. */
const EDGE = 0.02;
/** Cells passed in one move. */
const STRIDE = 3;

/** The wanted point and its normal, then the four corners that it is measured from. */
const points = new Float64Array(15);
const normals = new Float64Array(15);

/**
 * Finds the place in cloth of a point of the surface (point and unit normal, six numbers at p[at…]): its pre-image. `place` holds where to begin,
 * a place not far off, and is left at what was found. Walks from cell to cell; gives back why a cell on the way is missing.
 *
 * Within a cell the surface is taken as unrolled, a rhomb with sides of one spacing: how far the point lies along a side
 * follows from its distances to the side's two ends (law of cosines), and in between from both opposite sides in proportion, which
 * in a rhomb is exact at any shear. Cells agree on the yarns between them.
 */
export function locate(cloth: Cloth, p: Float64Array, at: number, place: ClothPlace): Met {
  for (let k = 0; k < 3; k++) {
    points[k] = p[at + k];
    normals[k] = p[at + 3 + k];
  }
  for (let move = 0; move < MOST_MOVES; move++) {
    const net = place.side > 0 ? cloth.left : cloth.right;
    const { i, j } = place;
    const h = net.spacing;
    const met = cellCorners(net, i, j);
    if (met !== MET.yes) return met;
    const c = arcBetween(points, normals, 0, 3);
    const a = arcBetween(points, normals, 0, 6);
    const b = arcBetween(points, normals, 0, 9);
    const q = arcBetween(points, normals, 0, 12);
    // Parts of a side, from C towards A, B towards Q, C towards B, A towards Q.
    const lower = 0.5 + (c * c - a * a) / (2 * h * h);
    const upper = 0.5 + (b * b - q * q) / (2 * h * h);
    const near = 0.5 + (c * c - b * b) / (2 * h * h);
    const far = 0.5 + (a * a - q * q) / (2 * h * h);
    let s = 0.5 * (lower + upper);
    let t = 0.5 * (near + far);
    for (let round = 0; round < 4; round++) {
      s = lower + held(t) * (upper - lower);
      t = near + held(s) * (far - near);
    }
    if (!(Math.abs(s) < Infinity && Math.abs(t) < Infinity)) return MET.lost;
    if (s >= -EDGE && s <= 1 + EDGE && t >= -EDGE && t <= 1 + EDGE) {
      place.u = (i + s) * h;
      place.v = place.side * (j + t) * h;
      return MET.yes;
    }
    place.i += stride(s);
    place.j += stride(t);
    if (place.j < 0) {
      place.j = -1 - place.j;
      place.side = place.side > 0 ? -1 : 1;
    }
  }
  return MET.lost;
}

function stride(part: number): number {
  if (part < -EDGE) return Math.max(-STRIDE, Math.floor(part));
  return part > 1 + EDGE ? Math.min(STRIDE, Math.floor(part)) : 0;
}

const held = (part: number) => Math.max(-0.5, Math.min(1.5, part));

function cellCorners(net: Net, i: number, j: number): Met {
  for (let corner = 0; corner < 4; corner++) {
    const x = i + (corner & 1);
    const y = j + (corner >> 1);
    const met = net.ask(x, y);
    if (met !== MET.yes) return met;
    const from = net.index(x, y);
    const to = 3 + 3 * corner;
    for (let k = 0; k < 3; k++) {
      points[to + k] = net.points[from + k];
      normals[to + k] = net.normals[from + k];
    }
  }
  return MET.yes;
}
