import { expect } from "vitest";
import type { Piece } from "../../core/cutting/kit.ts";

/** An outline is a simple polygon, counter-clockwise, its box at 0, 0, as large as the piece says, and longer than its two edges together. */
export function checkOutline(piece: Piece): void {
  const { name, outline, lengthMm, widthMm, flatAreaMm2 } = piece;
  const [xs, ys] = [0, 1].map((axis) => outline.filter((_, i) => i % 2 === axis));
  expect([Math.min(...xs), Math.min(...ys)], name).toEqual([0, 0]);
  expect(Math.max(...xs), name).toBeCloseTo(lengthMm, 9);
  expect(Math.max(...ys), name).toBeCloseTo(widthMm, 9);
  let [twice, round] = [0, 0];
  for (let i = 0; i < xs.length; i++) {
    const j = (i + 1) % xs.length;
    twice += xs[i] * ys[j] - xs[j] * ys[i];
    round += Math.hypot(xs[j] - xs[i], ys[j] - ys[i]);
  }
  expect(flatAreaMm2, name).toBeGreaterThan(0);
  expect(twice / 2 / flatAreaMm2, name).toBeCloseTo(1, 9);
  expect(piece.leftEdgeMm + piece.rightEdgeMm, name).toBeLessThan(round);
  expect(crossings(xs, ys), name).toEqual([]);
}

/** Pairs of sides, not neighbours, that meet: every one with every other. */
function crossings(xs: ArrayLike<number>, ys: ArrayLike<number>): string[] {
  const n = xs.length;
  const found: string[] = [];
  const turn = (a: number, b: number, c: number) =>
    Math.sign((xs[b] - xs[a]) * (ys[c] - ys[a]) - (ys[b] - ys[a]) * (xs[c] - xs[a]));
  const overlap = (v: ArrayLike<number>, a: number, b: number, c: number, d: number) =>
    Math.max(v[a], v[b]) >= Math.min(v[c], v[d]) && Math.max(v[c], v[d]) >= Math.min(v[a], v[b]);
  for (let a = 0; a < n; a++)
    for (let c = a + 2; c < n - (a === 0 ? 1 : 0); c++) {
      const [b, d] = [a + 1, (c + 1) % n];
      if (!overlap(xs, a, b, c, d) || !overlap(ys, a, b, c, d)) continue;
      if (turn(a, b, c) * turn(a, b, d) <= 0 && turn(c, d, a) * turn(c, d, b) <= 0)
        found.push(`${a} and ${c}`);
    }
  return found;
}
