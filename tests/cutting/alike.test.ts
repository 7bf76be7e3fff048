import { expect, test } from "vitest";
import { alikePieces } from "../../core/cutting/alike.ts";
import { bandPieces } from "../../core/cutting/band-pieces.ts";
import type { Piece } from "../../core/cutting/kit.ts";
import { bandOn, flatCurve, roundedRectangle, usualShop, woven } from "./laid-by-hand.ts";

const [piece] = bandPieces(
  bandOn("one", flatCurve([{ length: 900, turn: 0 }], false), [100, 100]),
  woven,
  usualShop,
).pieces;

/** A piece by its outline: 400 × 200 with one corner cut off, so that each way of laying it shows. */
function cornered(name: string, points: readonly number[], ply = 1): Piece {
  return {
    ...piece,
    name,
    ply,
    lengthMm: 400,
    widthMm: 200,
    outline: Float64Array.from(points),
    places: [{ fromMm: 0, toMm: 1, hand: "as drawn" }],
  };
}
const asDrawn = [0, 0, 300, 0, 400, 80, 400, 200, 0, 200];
const turnedOver = [0, 0, 400, 0, 400, 120, 300, 200, 0, 200];
const endForEnd = [0, 0, 400, 0, 400, 200, 100, 200, 0, 120];
const both = [100, 0, 400, 0, 400, 200, 0, 200, 0, 80];

test("the four ways of laying one piece are one name with its hands", () => {
  const pieces = [asDrawn, turnedOver, endForEnd, both].map((points, i) => cornered(`p/${i}`, points));
  const [one, ...others] = alikePieces(pieces, 3);
  expect(others).toEqual([]);
  expect(one.name).toBe("p/0");
  expect(one.quantity).toBe(4);
  expect(one.places.map(({ hand }) => hand)).toEqual(["as drawn", "turned over", "as drawn", "turned over"]);
});

test("what differs by more than the shop's figure, or lies in another ply, stays apart", () => {
  const nearly = asDrawn.map((value, i) => (i === 2 ? value + 5 : value));
  expect(alikePieces([cornered("a", asDrawn), cornered("b", nearly)], 3)).toHaveLength(2);
  expect(alikePieces([cornered("a", asDrawn), cornered("b", nearly)], 6)).toHaveLength(1);
  expect(alikePieces([cornered("a", asDrawn), cornered("b", asDrawn, 2)], 3)).toHaveLength(2);
});

test("nothing is lost: the pieces of a ring with two axes of symmetry", () => {
  const zone = bandOn("ring", flatCurve(roundedRectangle(6000, 3000, 400), true), [100, 250], 2);
  const { pieces } = bandPieces(zone, woven, usualShop);
  const alike = alikePieces(pieces, usualShop.alike);
  expect(alike.length).toBeLessThan(pieces.length);
  const area = (list: readonly Piece[]) =>
    list.reduce((sum, { quantity, flatAreaMm2 }) => sum + quantity * flatAreaMm2, 0);
  expect(Math.abs(area(alike) / area(pieces) - 1)).toBeLessThan(2e-3);
  const places = alike.flatMap((each) => each.places.map(({ fromMm }) => fromMm)).sort((a, b) => a - b);
  expect(places).toEqual(pieces.map(({ fromMm }) => fromMm).sort((a, b) => a - b));
  for (const { quantity, places: own } of alike) expect(own).toHaveLength(quantity);
});
