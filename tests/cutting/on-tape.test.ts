import { expect, test } from "vitest";
import { bandPieces } from "../../core/cutting/band-pieces.ts";
import { onTape } from "../../core/cutting/on-tape.ts";
import { bandOn, flatCurve, roundedRectangle, usualShop, woven } from "./laid-by-hand.ts";

const start = { what: "start", from: "deep-right", alongMm: -120, downMm: 1500 };
const ring = flatCurve(roundedRectangle(8000, 4000, 400), true);

test("round a closed band no station passes its length, and every piece is as long as before", () => {
  const zone = { ...bandOn("foot", ring, [120, 300], 3), tape: [start] };
  const { pieces } = bandPieces(zone, woven, usualShop);
  const past = pieces.filter(({ toMm }) => toMm > zone.lengthMm + 1);
  expect(past.length).toBeGreaterThan(0);
  for (const piece of pieces) {
    const found = onTape(zone, piece);
    for (const { fromMm, toMm } of [found, ...found.places]) {
      for (const at of [fromMm, toMm]) {
        expect(at).toBeGreaterThanOrEqual(0);
        expect(at).toBeLessThanOrEqual(zone.lengthMm + 1e-6);
      }
      expect((toMm - fromMm + zone.lengthMm) % zone.lengthMm).toBeCloseTo(piece.toMm - piece.fromMm, 6);
    }
    expect(found.begins).toEqual({ from: "deep-right", alongMm: -120, downMm: 1500 });
  }
});

test("an open band keeps its stations", () => {
  const zone = bandOn("rise", flatCurve([{ length: 4000, turn: 0 }], false), [120, 300]);
  const { pieces } = bandPieces(zone, woven, usualShop);
  for (const piece of pieces) expect(onTape(zone, piece)).toEqual(piece);
});
