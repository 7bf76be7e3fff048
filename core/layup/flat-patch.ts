import type { FieldNear } from "../surface/bricks.ts";
import { edgeOfPlain, WHOLE } from "./share-edge.ts";

/** A box in plan, mm. */
export interface PlanBox {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

/** A point lies on the surface if the field there is within this of zero, mm. */
const ON_SURFACE = 1e-4;
/** Outlines stay within this of the true tangent lines, mm; spans shorter than the least are not divided. */
const SAGITTA = 0.02;
const SHORTEST = 1;

/**
 * The flat part of a level face at height z (mm): the closed polygons, x y pairs, that bound where the face's share is whole,
 * inside on the left, so that holes run clockwise. The plan is searched in cells of `cell` mm within `box`; what is narrower may
 * be missed, what is found is traced along its tangent lines and round its corners to within 0.02 mm.
 */
export function flatPatches(
  near: FieldNear,
  face: number,
  z: number,
  box: PlanBox,
  cell: number,
): number[][] {
  /** What the face's share lacks of the whole at a plan point; all of it off the surface. */
  const missing = (x: number, y: number): number => {
    const local = near(x, y, z);
    // The shares first: the value comes with them.
    const share = local.shares(x, y, z)[face];
    return Math.abs(local.evaluate(x, y, z)) > ON_SURFACE ? 1 : 1 - share;
  };
  return new Tracer(missing, box, cell).run();
}

type Point = readonly [number, number];

/** Follows the boundary of the plain part through a grid of cells. */
class Tracer {
  private readonly missing: (x: number, y: number) => number;
  private readonly x0: number;
  private readonly y0: number;
  private readonly dx: number;
  private readonly dy: number;
  private readonly nx: number;
  private readonly ny: number;
  private readonly whole: Uint8Array;

  constructor(missing: (x: number, y: number) => number, box: PlanBox, cell: number) {
    this.missing = missing;
    this.nx = Math.max(2, Math.ceil((box.maxX - box.minX) / cell));
    this.ny = Math.max(2, Math.ceil((box.maxY - box.minY) / cell));
    this.dx = (box.maxX - box.minX) / this.nx;
    this.dy = (box.maxY - box.minY) / this.ny;
    // One row of cells more all round: the outermost nodes are outside.
    this.x0 = box.minX - this.dx;
    this.y0 = box.minY - this.dy;
    this.nx += 2;
    this.ny += 2;
    this.whole = new Uint8Array((this.nx + 1) * (this.ny + 1));
    for (let j = 1; j < this.ny; j++)
      for (let i = 1; i < this.nx; i++)
        if (this.inside(this.x0 + i * this.dx, this.y0 + j * this.dy)) this.whole[this.node(i, j)] = 1;
  }

  run(): number[][] {
    const next = this.links();
    const loops: number[][] = [];
    const done = new Set<number>();
    for (const first of next.keys()) {
      if (done.has(first)) continue;
      const sides: number[] = [];
      for (let side = first; !done.has(side); side = next.get(side) as number) {
        done.add(side);
        sides.push(side);
      }
      loops.push(this.traced(sides));
    }
    return loops;
  }

  private node(i: number, j: number): number {
    return j * (this.nx + 1) + i;
  }

  private inside(x: number, y: number): boolean {
    return this.missing(x, y) <= 1 - WHOLE;
  }

  /**
   * Which crossed cell side follows which, inside on the left. A side is known by twice the index of its lower left node, plus
   * one if it runs along y.
   */
  private links(): Map<number, number> {
    const next = new Map<number, number>();
    for (let j = 0; j < this.ny; j++)
      for (let i = 0; i < this.nx; i++) {
        const at = (di: number, dj: number) => this.whole[this.node(i + di, j + dj)];
        // Counter-clockwise: corners, and the side from each to the next.
        const corners = [at(0, 0), at(1, 0), at(1, 1), at(0, 1)];
        const sides = [
          2 * this.node(i, j),
          2 * this.node(i + 1, j) + 1,
          2 * this.node(i, j + 1),
          2 * this.node(i, j) + 1,
        ];
        // The boundary enters the cell where, going round, the inside ends, and leaves it where the inside begins.
        const enters = [0, 1, 2, 3].filter((k) => corners[k] === 1 && corners[(k + 1) % 4] === 0);
        const leaves = [0, 1, 2, 3].filter((k) => corners[k] === 0 && corners[(k + 1) % 4] === 1);
        if (enters.length === 0) continue;
        if (enters.length === 1) {
          next.set(sides[enters[0]], sides[leaves[0]]);
          continue;
        }
        // Two corners inside, across: round the outside corner if the middle joins them, else round the inside one.
        const joined = this.inside(this.x0 + (i + 0.5) * this.dx, this.y0 + (j + 0.5) * this.dy);
        for (const k of enters) next.set(sides[k], sides[(k + (joined ? 1 : 3)) % 4]);
      }
    return next;
  }

  /** Where the boundary crosses a cell side. */
  private crossing(side: number): [number, number] {
    const node = side >> 1;
    const i = node % (this.nx + 1);
    const j = (node - i) / (this.nx + 1);
    const ax = this.x0 + i * this.dx;
    const ay = this.y0 + j * this.dy;
    const along = side % 2 === 0 ? this.dx : 0;
    const up = side % 2 === 0 ? 0 : this.dy;
    const first = this.whole[node] === 1;
    return first ? this.between(ax, ay, ax + along, ay + up) : this.between(ax + along, ay + up, ax, ay);
  }

  /** The boundary between a point inside and one outside. */
  private between(ax: number, ay: number, bx: number, by: number): [number, number] {
    const length = Math.hypot(bx - ax, by - ay);
    const ux = (bx - ax) / length;
    const uy = (by - ay) / length;
    const s = edgeOfPlain((t) => Math.max(0, this.missing(ax + t * ux, ay + t * uy)), 0, length);
    return [ax + s * ux, ay + s * uy];
  }

  /**
   * The points of a loop that crosses the given sides: of a straight stretch only its ends, in a bend as many as keep the
   * chords by the boundary. Looks at every eighth side first, and between those only where the way is not straight.
   */
  private traced(sides: readonly number[]): number[] {
    const out: number[] = [];
    const stride = Math.max(1, Math.min(8, sides.length >> 2));
    const start = this.crossing(sides[0]);
    let at = start;
    for (let i = 0; i < sides.length; i += stride) {
      const to = Math.min(i + stride, sides.length);
      const then = to === sides.length ? start : this.crossing(sides[to]);
      out.push(...at);
      this.fill(sides, i, to, at, then, out);
      at = then;
    }
    return out;
  }

  /** Emits the points strictly between two crossings of the loop. */
  private fill(sides: readonly number[], i: number, j: number, a: Point, b: Point, out: number[]): void {
    if (j - i === 1) this.divide(a[0], a[1], b[0], b[1], out);
    else if (!this.isStraight(a, b)) {
      const middle = (i + j) >> 1;
      const m = this.crossing(sides[middle]);
      this.fill(sides, i, middle, a, m, out);
      out.push(...m);
      this.fill(sides, middle, j, m, b, out);
    }
  }

  /** Whether the boundary lies on the chord at its quarters and its middle. */
  private isStraight([ax, ay]: Point, [bx, by]: Point): boolean {
    const length = Math.hypot(bx - ax, by - ay);
    if (!(length > 0)) return false;
    const nx = (SAGITTA * (by - ay)) / length;
    const ny = (SAGITTA * (ax - bx)) / length;
    return [0.5, 0.25, 0.75].every((u) => {
      const x = ax + u * (bx - ax);
      const y = ay + u * (by - ay);
      return this.inside(x - nx, y - ny) && !this.inside(x + nx, y + ny);
    });
  }

  private divide(ax: number, ay: number, bx: number, by: number, out: number[]): void {
    const length = Math.hypot(bx - ax, by - ay);
    if (length < SHORTEST) return;
    // Outwards: to the right of the way.
    const nx = (by - ay) / length;
    const ny = (ax - bx) / length;
    const mx = (ax + bx) / 2;
    const my = (ay + by) / 2;
    const isIn = (off: number) => this.inside(mx + off * nx, my + off * ny);
    const inner = isIn(-SAGITTA);
    if (inner && !isIn(SAGITTA)) return;
    const way = inner ? 1 : -1;
    let reach = 2 * SAGITTA;
    // Half a chord is as far as a square corner strays from it; what lies further off is another part of the boundary.
    while (reach < 0.8 * length && isIn(way * reach) === inner) reach *= 2;
    if (reach >= 0.8 * length) return;
    const [from, to] = inner ? [reach / 2, reach] : [-reach, -reach / 2];
    const [px, py] = this.between(mx + from * nx, my + from * ny, mx + to * nx, my + to * ny);
    this.divide(ax, ay, px, py, out);
    out.push(px, py);
    this.divide(px, py, bx, by, out);
  }
}
