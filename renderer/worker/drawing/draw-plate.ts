import { triangulateD } from "clipper2-ts";
import type { FlatShape } from "../../../core/layup/laid.ts";
import type { Draughtsman } from "./drawing.ts";

type Vector = readonly [number, number, number];

/** Where a flat shape stands in space: its origin and the directions of its x and y. */
export interface Stand {
  readonly origin: Vector;
  readonly x: Vector;
  readonly y: Vector;
}

/** Decimals of a millimetre that the triangulation keeps. */
const DECIMALS = 3;

/** Draws a plate of core: a flat shape thickened from `from` to `to` mm along x × y. */
export function drawPlate(pen: Draughtsman, shape: FlatShape, stand: Stand, from: number, to: number): void {
  const { x, y, origin } = stand;
  const up: Vector = [x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0]];
  const place = (u: number, v: number, w: number): Vector => {
    const at = (k: 0 | 1 | 2) => origin[k] + u * x[k] + v * y[k] + w * up[k];
    return [at(0), at(1), at(2)];
  };
  const down = up.map((c) => -c);
  const outline = Array.from({ length: shape.points.length / 2 }, (_, i) => ({
    x: shape.points[2 * i],
    y: shape.points[2 * i + 1],
  }));
  for (const triangle of triangulateD([outline], DECIMALS).solution) {
    for (const [w, n, order] of [
      [to, up, [0, 1, 2]],
      [from, down, [0, 2, 1]],
    ] as const) {
      const [a, b, c] = order.map((k) =>
        pen.vertex(place(triangle[k].x, triangle[k].y, w), n, triangle[k].x, triangle[k].y),
      );
      pen.triangle(a, b, c);
    }
  }
  outline.forEach((p, i) => {
    const q = outline[(i + 1) % outline.length];
    const length = Math.hypot(q.x - p.x, q.y - p.y) || 1;
    const [ox, oy] = [(q.y - p.y) / length, (p.x - q.x) / length];
    const n = [0, 1, 2].map((k) => ox * x[k] + oy * y[k]);
    const a = pen.vertex(place(p.x, p.y, from), n, 0, 0);
    const b = pen.vertex(place(q.x, q.y, from), n, length, 0);
    const c = pen.vertex(place(q.x, q.y, to), n, length, to - from);
    const d = pen.vertex(place(p.x, p.y, to), n, 0, to - from);
    pen.quad(a, b, c, d);
    pen.ink(place(p.x, p.y, from), place(q.x, q.y, from));
    pen.ink(place(p.x, p.y, to), place(q.x, q.y, to));
    const before = outline[(i + outline.length - 1) % outline.length];
    if (turns(before, p, q)) pen.ink(place(p.x, p.y, from), place(p.x, p.y, to));
  });
}

type Point = { readonly x: number; readonly y: number };

/** Whether an outline turns by more than 20° at a point. */
function turns(before: Point, at: Point, after: Point): boolean {
  const a = Math.atan2(at.y - before.y, at.x - before.x);
  const b = Math.atan2(after.y - at.y, after.x - at.x);
  return Math.cos(b - a) < Math.cos(Math.PI / 9);
}
