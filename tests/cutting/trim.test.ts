import { fc, test as propertyTest } from "@fast-check/vitest";
import { expect, test } from "vitest";
import { isSimple } from "../../core/cloth/simple.ts";
import { bandPieces } from "../../core/cutting/band-pieces.ts";
import { trimmed } from "../../core/cutting/trim.ts";
import { signedArea } from "../../core/layup/flat-shape.ts";
import { boxOf } from "../../core/packing/ring.ts";
import { bentStrips } from "../cloth/bent-strips.ts";
import { bandOn, flatCurve, usualShop, woven } from "./laid-by-hand.ts";

test("a straight piece is wider and longer by the trim on every side, and heavier", () => {
  const zone = bandOn("straight", flatCurve([{ length: 1000, turn: 0 }], false), [150, 100]);
  const [bare] = bandPieces(zone, woven, usualShop).pieces;
  const [piece] = bandPieces(zone, woven, { ...usualShop, trim: 12 }).pieces;
  expect(piece.lengthMm).toBeCloseTo(1024, 3);
  expect(piece.widthMm).toBeCloseTo(274, 3);
  expect(piece.flatAreaMm2).toBeCloseTo(1024 * 274, 0);
  expect(piece.glassKg / bare.glassKg).toBeCloseTo((1024 * 274) / (1000 * 250), 6);
  // What it covers, and how long its lines are, does not change.
  expect(piece.areaMm2).toBe(bare.areaMm2);
  expect(piece.midMm).toBe(bare.midMm);
  expect(trimmed(bare.outline, [], 0)).toBe(bare.outline);
});

test("a dart's sides stay where they are", () => {
  // 200 × 100 with a dart of 40 mm mouth and 60 mm depth in its upper edge.
  const outline = Float64Array.of(0, 0, 200, 0, 200, 100, 120, 100, 100, 40, 80, 100, 0, 100);
  const dart = Float64Array.of(80, 100, 100, 40, 120, 100);
  const wide = trimmed(outline, [dart], 10);
  // Carried on by 10 mm the mouth is 40 · 70/60 wide.
  const mouth = (40 * 70) / 60;
  const area = 220 * 120 - 0.5 * mouth * 70;
  expect(signedArea(wide)).toBeCloseTo(area, 1);
  const corners = Array.from({ length: wide.length / 2 }, (_, i) => [wide[2 * i], wide[2 * i + 1]]);
  const near = (x: number, y: number) => corners.some(([a, b]) => Math.hypot(a - x, b - y) < 1e-2);
  expect(near(100, 40)).toBe(true);
  expect(near(100 - mouth / 2, 110)).toBe(true);
  expect(near(100 + mouth / 2, 110)).toBe(true);
});

propertyTest.prop([bentStrips.filter(({ outline }) => isSimple(outline)), fc.integer({ min: 1, max: 40 })], {
  seed: 6,
  numRuns: 300,
})("however a strip curls up, made wider it meets itself nowhere and is no smaller", ({ outline }, trim) => {
  const wide = trimmed(outline, [], trim);
  expect(isSimple(wide)).toBe(true);
  expect(signedArea(wide)).toBeGreaterThan(signedArea(outline));
  const [bare, grown] = [boxOf(outline), boxOf(wide)];
  expect(grown.width - bare.width).toBeCloseTo(2 * trim, 3);
  expect(grown.height - bare.height).toBeCloseTo(2 * trim, 3);
});
