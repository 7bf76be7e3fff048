import { expect, test } from "vitest";
import { alikePieces } from "../../core/cutting/alike.ts";
import { bandPieces } from "../../core/cutting/band-pieces.ts";
import type { Piece } from "../../core/cutting/kit.ts";
import { bandOn, flatCurve, roundedRectangle, usualShop, woven } from "./laid-by-hand.ts";

const labelsOf = ({ notches }: Piece, kind: string) =>
  notches.flatMap(({ what, label }) => (what === kind ? [label] : []));

const ring = bandOn("ring", flatCurve(roundedRectangle(6000, 3000, 400), true), [100, 250], 2);

test("a mark at a lap bears the name of the piece that ends there", () => {
  const { pieces } = bandPieces(ring, woven, usualShop);
  const turn = ring.lengthMm;
  for (const piece of pieces) {
    const labels = labelsOf(piece, "lap");
    expect(labels).toHaveLength(4);
    for (const label of labels) {
      const other = pieces.find(({ name }) => name === `ring/${label}`);
      if (!other) throw new Error(`${label} is no piece`);
      expect(other.ply).toBe(piece.ply);
      // One of its ends lies within this piece, a lap from one of its own.
      const within = [other.fromMm, other.toMm]
        .flatMap((end) => [end - turn, end, end + turn])
        .filter((end) => end > piece.fromMm && end < piece.toMm);
      expect(within).toHaveLength(1);
      const away = Math.min(within[0] - piece.fromMm, piece.toMm - within[0]);
      expect(away).toBeCloseTo(usualShop.lap, 0);
    }
  }
});

test("of pieces that are one name, neighbours are called by the names that the list has", () => {
  const runs = [
    { length: 12_000, turn: 0 },
    { length: 628, turn: Math.PI / 2 },
    { length: 2000, turn: 0 },
  ];
  const zone = bandOn("ring", flatCurve(runs, false), [100, 250], 2);
  const alike = alikePieces(bandPieces(zone, woven, usualShop).pieces, usualShop.alike);
  const names = alike.map(({ name }) => name);
  expect(alike.some(({ quantity }) => quantity > 1)).toBe(true);
  expect(alike.some((piece) => piece.quantity === 1)).toBe(true);
  for (const piece of alike)
    for (const label of labelsOf(piece, "lap"))
      if (piece.quantity > 1) expect(label).toBeUndefined();
      else expect(names).toContain(`ring/${label}`);
});

test("corners are numbered along a piece, alike on both edges; a long one where it begins and ends, a short one once", () => {
  const corner = (length: number, turn: number) => ({ length, turn });
  const straight = corner(300, 0);
  const bends = [corner(60, 0.5), straight, corner(60, -0.5), straight, corner(240, 0.5), straight];
  const zone = bandOn("steps", flatCurve([straight, ...bends], false), [60, 60]);
  const [piece, ...others] = bandPieces(zone, woven, usualShop).pieces;
  expect(others).toEqual([]);
  expect(labelsOf(piece, "corner")).toEqual(["1", "1", "2", "2", "3", "3", "3", "3"]);
  const along = piece.notches.filter(({ what }) => what === "corner").map(({ x }) => x);
  // Left and right of a station come in turn; numbers grow with the way along the piece.
  for (let i = 2; i < along.length; i += 2)
    expect(along[i] + along[i + 1]).toBeGreaterThan(along[i - 2] + along[i - 1]);
});
