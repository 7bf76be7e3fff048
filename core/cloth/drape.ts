import type { Hanging } from "./foretell.ts";
import type { CutCloth } from "./hang.ts";
import { MET, type Met } from "./join-yarns.ts";
import type { Column } from "./lattice.ts";
import { type Cloth, type ClothPlace, clothOrigin, locate } from "./locate.ts";
import type { Net } from "./net.ts";

/** A zone laid flat, column by column of its lattice. */
export interface Drape {
  readonly columns: readonly Column[];
  /** Of each column the places in flat cloth, x y pairs (mm): x along the warp from the origin, y to the left. */
  readonly flat: readonly Float64Array[];
  readonly shear: Shear;
  /** The most that the surface bends along a yarn from one node of the net to the next, rad a mm. */
  readonly bend: number;
}

/** How far cloth is sheared over a zone. */
export interface Shear {
  /** Largest, rad ≥ 0, and where: station of the strip, and distance to the left of its line, mm. */
  readonly most: number;
  readonly station: number;
  readonly w: number;
  /** Root mean square over the cells of the net that the zone touches, rad. */
  readonly mean: number;
}

/** Where on a zone cloth cannot be had, and why; MET.yes where it could, but is sheared as far as the limit. */
export interface Undraped {
  readonly why: Met;
  readonly station: number;
  readonly w: number;
}

export const isUndraped = (result: Drape | Undraped): result is Undraped => "why" in result;

/**
 * Lays a zone flat: finds in cloth the place of every point of its lattice, walking from the origin of the cloth along the line and from there
 * across. Gives up where the shear reaches `limit`, rad. Gives back the places and the shear of all cells walked through, or where and why there is no cloth.
 */
export function drape(
  cloth: CutCloth,
  origin: Hanging,
  columns: readonly Column[],
  limit = Infinity,
): Drape | Undraped {
  const flat = columns.map((column) => new Float64Array(2 * column.ws.length));
  const cells = new CellFigures();
  const middle = nearest(columns, (column) => column.station, origin.station);
  for (const way of [1, -1] as const) {
    const base = clothOrigin();
    for (let c = middle; c >= 0 && c < columns.length; c += way) {
      const { ws, points, flaps, station } = columns[c];
      const parts: Cloth = { left: cloth.lefts[flaps.left], right: cloth.rights[flaps.right] };
      const first = nearest(ws, (w) => w, origin.w);
      for (const across of [1, -1] as const) {
        const walk = { ...base };
        for (let k = first; k >= 0 && k < ws.length; k += across) {
          const found = locate(parts, points, 3 * k, walk);
          if (found !== MET.yes) return { why: found, station, w: ws[k] };
          if (k === first) Object.assign(base, walk);
          flat[c][2 * k] = walk.u;
          flat[c][2 * k + 1] = walk.v;
          if (cells.most >= limit) return { why: MET.yes, station, w: ws[k] };
          cells.add(walk.side > 0 ? parts.left : parts.right, walk, station, ws[k]);
        }
      }
    }
  }
  return { columns, flat, shear: cells.shear(), bend: cells.bend };
}

/** What a zone's cells are like, each counted once. */
class CellFigures {
  private readonly seen = new Map<Net, Set<number>>();
  /** Largest shear, rad. */
  most = 0;
  bend = 0;
  private station = Number.NaN;
  private w = Number.NaN;
  private squares = 0;
  private count = 0;

  add(net: Net, { i, j }: ClothPlace, station: number, w: number): void {
    const cells = this.seen.get(net) ?? new Set<number>();
    this.seen.set(net, cells);
    const cell = net.index(i, j);
    if (cells.has(cell)) return;
    cells.add(cell);
    this.bend = Math.max(this.bend, net.bend(i, j));
    const shear = Math.abs(net.shear(i, j));
    this.squares += shear * shear;
    this.count++;
    if (shear <= this.most) return;
    this.most = shear;
    this.station = station;
    this.w = w;
  }

  shear(): Shear {
    const { most, station, w, squares, count } = this;
    return { most, station, w, mean: count > 0 ? Math.sqrt(squares / count) : 0 };
  }
}

function nearest<T>(list: readonly T[], value: (item: T) => number, wanted: number): number {
  let best = 0;
  for (let i = 1; i < list.length; i++)
    if (Math.abs(value(list[i]) - wanted) < Math.abs(value(list[best]) - wanted)) best = i;
  return best;
}
