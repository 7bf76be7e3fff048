import { expect, test } from "vitest";
import { bandPieces } from "../../core/cutting/band-pieces.ts";
import { bandOn, flatCurve, usualShop, woven } from "./laid-by-hand.ts";

const round = (radius: number, turn: number) => ({ length: Math.abs(turn) * radius, turn });
const quarter = Math.PI / 2;
/** One piece, whatever its length. */
const oneOf = (runs: Parameters<typeof flatCurve>[0], widths: readonly [number, number]) => {
  const shop = { ...usualShop, handlingLength: 5000 };
  const { pieces } = bandPieces(bandOn("band", flatCurve(runs, false), widths), woven, shop);
  expect(pieces).toHaveLength(1);
  return pieces[0];
};

test("round a corner of the line each edge is as long as its own arc", () => {
  const piece = oneOf([{ length: 600, turn: 0 }, round(300, quarter), { length: 500, turn: 0 }], [100, 150]);
  expect(piece.leftEdgeMm).toBeCloseTo(1100 + quarter * 200, 0);
  expect(piece.rightEdgeMm).toBeCloseTo(1100 + quarter * 450, 0);
});

test.each([1, -1])(
  "within a corner tighter than the band an edge ends where its two sides meet (turn %d)",
  (turn) => {
    const runs = [{ length: 600, turn: 0 }, round(40, turn * quarter), { length: 500, turn: 0 }];
    const widths = turn > 0 ? ([240, 150] as const) : ([150, 240] as const);
    const { leftEdgeMm, rightEdgeMm } = oneOf(runs, widths);
    const [inner, outer] = turn > 0 ? [leftEdgeMm, rightEdgeMm] : [rightEdgeMm, leftEdgeMm];
    // Both legs lose what the band is wider than the corner's radius.
    expect(Math.abs(inner - (1100 - 2 * (240 - 40)))).toBeLessThan(3);
    expect(outer).toBeCloseTo(1100 + quarter * 190, 0);
  },
);

test("past a step to and fro no edge counts a stretch twice", () => {
  // Down a riser and on: a left and a right turn, each tighter than the band is wide.
  const runs = [
    { length: 600, turn: 0 },
    round(40, quarter),
    { length: 200, turn: 0 },
    round(40, -quarter),
    { length: 600, turn: 0 },
  ];
  const piece = oneOf(runs, [220, 220]);
  const outline = piece.outline;
  let length = 0;
  for (let i = 0; i < outline.length; i += 2) {
    const j = (i + 2) % outline.length;
    length += Math.hypot(outline[j] - outline[i], outline[j + 1] - outline[i + 1]);
  }
  // It lies flat, so that outline and edges are of one length; its ends are 440 mm wide.
  expect(Math.abs(piece.leftEdgeMm + piece.rightEdgeMm + 2 * 440 - length)).toBeLessThan(2);
});
