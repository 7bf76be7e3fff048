import type { FieldNear } from "../surface/bricks.ts";
import { arcBetween } from "./arc.ts";
import { joinYarns, MET, type Met } from "./join-yarns.ts";
import { offShell } from "./shell-end.ts";
import type { Yarn } from "./yarn.ts";

/** How many nodes a net may grow from its origin: along the warp ahead and back, and how many warp yarns beside the first. */
export interface NetReach {
  readonly ahead: number;
  readonly back: number;
  readonly rows: number;
}

/**
 * Woven cloth to one side of a warp yarn, as a pin-jointed net: yarns that do not stretch, pinned where they cross, every `spacing` mm
 * of yarn (P. L. Chebyshev, lecture of 28 August 1878; C. Mack & H. M. Taylor, J. Textile Inst. Trans. 47 (1956) T477–T488). Node
 * (i, j) is where weft yarn i crosses warp yarn j ≥ 0. Warp yarn 0 and weft yarn 0 are given; every other node then has but one
 * place: on the surface, one spacing along the warp from one neighbour and one along the weft from another. The spacing is a length
 * of arc along the surface (`arcExcess`), so that the net is the exact unrolling where the surface unrolls, and of second order in the
 * spacing elsewhere. Between its nodes a yarn is taken as the shortest way, or, in a net that is `bowed`, as the arc that turns as much
 * within the surface as it has just done: that leaves a fraction of the error.
 *
 * Nodes are worked out when they are first asked for, from the given yarns outwards. A flap (`flap`) is the same net up to a
 * warp yarn, and beyond it hangs on a weft yarn of its own: cloth that a cut has parted from its neighbour.
 */
export class Net {
  readonly spacing: number;
  readonly side: 1 | -1;
  readonly bowed: boolean;
  /** Points (mm) and unit normals (into the ground) of the nodes, three numbers each; see `index`. */
  readonly points: Float64Array;
  readonly normals: Float64Array;
  /** How the yarns run in the nodes, as cells ask for it: a spacing of warp and of weft, mm, six numbers each at twice `index`; zero where not yet asked. */
  readonly courses: Float64Array;
  private readonly near: FieldNear;
  private readonly isOff: (points: Float64Array, at: number) => boolean;
  private readonly warp: Yarn;
  private readonly reach: NetReach;
  private readonly columns: number;
  private readonly known: Uint8Array;
  /** Of each row the given weft yarn, its column, and the row in which it begins. */
  private readonly wefts: { yarn: Yarn; column: number; base: number }[];
  /** First and last column of each row that is worked out; the first is above the last while none is. */
  private readonly first: Int32Array;
  private readonly last: Int32Array;

  /** A net on two yarns that begin at one point; the weft runs to the left (`side` 1: normal × warp) or right (−1) of the warp. */
  constructor(
    near: FieldNear,
    warp: Yarn,
    weft: Yarn,
    side: 1 | -1,
    spacing: number,
    reach: NetReach,
    bowed = false,
  ) {
    this.near = near;
    this.isOff = offShell(near);
    this.bowed = bowed;
    this.side = side;
    this.warp = warp;
    this.spacing = spacing;
    this.reach = reach;
    this.columns = reach.back + 1 + reach.ahead;
    const rows = reach.rows + 1;
    this.points = new Float64Array(3 * this.columns * rows);
    this.normals = new Float64Array(3 * this.columns * rows);
    this.courses = new Float64Array(6 * this.columns * rows);
    this.known = new Uint8Array(this.columns * rows);
    this.wefts = Array.from({ length: rows }, () => ({ yarn: weft, column: 0, base: 0 }));
    this.first = new Int32Array(rows).fill(1);
    this.last = new Int32Array(rows);
  }

  /** Offset of node (i, j) in `points` and `normals`. */
  index(i: number, j: number): number {
    return 3 * (j * this.columns + i + this.reach.back);
  }

  /** Works node (i, j ≥ 0) out if need be, and tells what became of it. */
  ask(i: number, j: number): Met {
    const { ahead, back, rows } = this.reach;
    if (i > ahead || i < -back || j > rows) return MET.beyond;
    this.grow(i, j);
    return this.known[this.index(i, j) / 3] as Met;
  }

  /**
   * The same net up to warp yarn `row`, and beyond it hung on `weft`, which begins at node (column, row). What is known up to that row
   * is kept.
   */
  flap(row: number, column: number, weft: Yarn): Net {
    const flap = new Net(this.near, this.warp, weft, this.side, this.spacing, this.reach, this.bowed);
    const kept = (row + 1) * this.columns;
    for (let j = 0; j < this.wefts.length; j++)
      flap.wefts[j] = j <= row ? this.wefts[j] : { yarn: weft, column, base: row };
    flap.first.set(this.first.subarray(0, row + 1));
    flap.last.set(this.last.subarray(0, row + 1));
    flap.known.set(this.known.subarray(0, kept));
    flap.points.set(this.points.subarray(0, 3 * kept));
    flap.normals.set(this.normals.subarray(0, 3 * kept));
    return flap;
  }

  /**
   * Shear of the cell between nodes (i, j) and (i + 1, j + 1), rad: 90° less the angle between weft and warp in its corner (i, j).
   * From its diagonals, whose squares differ by 4·spacing²·sin γ in a rhomb: of second order at
   * the cell's middle. NaN where a corner is missing.
   */
  shear(i: number, j: number): number {
    for (let corner = 0; corner < 4; corner++)
      if (this.ask(i + (corner & 1), j + (corner >> 1)) !== MET.yes) return Number.NaN;
    const across = arcBetween(this.points, this.normals, this.index(i + 1, j), this.index(i, j + 1));
    const through = arcBetween(this.points, this.normals, this.index(i, j), this.index(i + 1, j + 1));
    const sine = (through * through - across * across) / (4 * this.spacing * this.spacing);
    return Math.asin(Math.max(-1, Math.min(1, sine)));
  }

  /** How much the surface bends along the sides of the cell between nodes (i, j) and (i + 1, j + 1), which must be there, at the most, rad a mm. */
  bend(i: number, j: number): number {
    const at = this.index(i, j);
    const across = this.index(i, j + 1);
    return (
      Math.max(
        this.turn(at, at + 3),
        this.turn(at, across),
        this.turn(across, across + 3),
        this.turn(at + 3, across + 3),
      ) / this.spacing
    );
  }

  /** About how much the normal turns from one node to another, rad; offsets. */
  private turn(a: number, b: number): number {
    const { normals: n } = this;
    return Math.sqrt((n[b] - n[a]) ** 2 + (n[b + 1] - n[a + 1]) ** 2 + (n[b + 2] - n[a + 2]) ** 2);
  }

  private grow(i: number, j: number): void {
    if (this.first[j] <= i && i <= this.last[j]) return;
    const { column } = this.wefts[j];
    if (j > 0) {
      this.grow(i, j - 1);
      this.grow(column, j - 1);
    }
    if (this.first[j] > this.last[j]) {
      this.hang(j, column);
      this.first[j] = column;
      this.last[j] = column;
    }
    while (this.last[j] < i) this.place(++this.last[j], j, 1);
    while (this.first[j] > i) this.place(--this.first[j], j, -1);
  }

  /** Puts the node at which row j crosses its given weft. */
  private hang(j: number, column: number): void {
    const at = this.index(column, j);
    const { yarn, base } = this.wefts[j];
    this.keep(at, yarn.node(j - base, this.points, this.normals, at) ? MET.yes : MET.lost);
  }

  /** Keeps what became of a node. */
  private keep(at: number, met: Met): void {
    this.known[at / 3] = met === MET.yes && this.isOff(this.points, at) ? MET.lost : met;
  }

  /** Puts node (i, j) from its neighbours in the row, on side −way of it, and in the row below. */
  private place(i: number, j: number, way: 1 | -1): void {
    const { points, normals, known } = this;
    const q = this.index(i, j);
    if (j === 0) {
      this.keep(q, this.warp.node(i, points, normals, q) ? MET.yes : MET.lost);
      return;
    }
    const a = this.index(i - way, j);
    const b = this.index(i, j - 1);
    const c = this.index(i - way, j - 1);
    const worst = Math.max(known[a / 3], known[b / 3], known[c / 3]);
    if (worst !== MET.yes) {
      known[q / 3] = worst;
      return;
    }
    this.guess(q, a, b, c, i, j, way);
    // Only yarns of the same side are asked, so that the order in which nodes are worked out does not matter.
    const p = way * (i - 2 * way - this.wefts[j].column) >= 0 ? this.index(i - 2 * way, j) : -1;
    const r = j > 1 ? this.index(i, j - 2) : -1;
    const hand = way * this.side;
    const fromA = this.chord(p, a, q);
    const fromB = this.chord(r, b, q);
    this.keep(q, joinYarns(this.near, points, normals, q, a, b, hand, fromA, fromB));
  }

  /**
   * How long the shortest way is between the ends of a spacing of yarn from node a to q: the chord of the arc that turns as much as the yarn does in a
   * where it comes from p, s·(1 − θ²/24) to fourth order. Offsets; p below zero where there is none.
   */
  private chord(p: number, a: number, q: number): number {
    const { points, normals, known, spacing } = this;
    if (!this.bowed || p < 0 || known[p / 3] !== MET.yes) return spacing;
    const turn = turnAt(points, normals, p, a, q);
    return spacing * (1 - (turn * turn) / 24);
  }

  /** Completes the cell as the one before it was: a parallelogram, bent by as much as that one. */
  private guess(q: number, a: number, b: number, c: number, i: number, j: number, way: 1 | -1): void {
    const { points, known } = this;
    let p = this.index(i - 2 * way, j);
    let r = this.index(i - 2 * way, j - 1);
    let s = a;
    const inRow = i - 2 * way >= this.first[j] && i - 2 * way <= this.last[j];
    if (!inRow || known[p / 3] !== MET.yes || known[r / 3] !== MET.yes) {
      // First of its row: as the cell below.
      p = j > 1 ? this.index(i, j - 2) : -1;
      r = j > 1 ? this.index(i - way, j - 2) : -1;
      s = b;
      if (j < 2 || known[p / 3] !== MET.yes || known[r / 3] !== MET.yes) p = -1;
    }
    for (let k = 0; k < 3; k++) {
      points[q + k] = points[a + k] + points[b + k] - points[c + k];
      if (p >= 0) points[q + k] += points[s + k] - points[p + k] - points[c + k] + points[r + k];
    }
  }
}

/** How much a line from p over a to q turns within the surface in a, rad; offsets into points and normals. */
function turnAt(points: Float64Array, normals: Float64Array, p: number, a: number, q: number): number {
  const x = normals[a];
  const y = normals[a + 1];
  const z = normals[a + 2];
  const dx = points[a] - points[p];
  const dy = points[a + 1] - points[p + 1];
  const dz = points[a + 2] - points[p + 2];
  const ex = points[q] - points[a];
  const ey = points[q + 1] - points[a + 1];
  const ez = points[q + 2] - points[a + 2];
  const across = x * (dy * ez - dz * ey) + y * (dz * ex - dx * ez) + z * (dx * ey - dy * ex);
  const out = (dx * x + dy * y + dz * z) * (ex * x + ey * y + ez * z);
  return Math.atan2(across, dx * ex + dy * ey + dz * ez - out);
}
