import { fc, test as propertyTest } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { bandPieces } from "../../core/cutting/band-pieces.ts";
import type { Piece } from "../../core/cutting/kit.ts";
import { checkPieces, lapsOf, plyOf } from "./check-pieces.ts";
import { bandOn, flatCurve, type Run, roundedRectangle, usualShop, woven } from "./laid-by-hand.ts";

describe("a straight band", () => {
  const straight = (length: number) => flatCurve([{ length, turn: 0 }], false);

  test.each([
    [2000, 1],
    [2500, 1],
    [2501, 2],
    [4950, 2],
    [4951, 3],
    [10000, 5],
  ])("of %d mm is cut in %d equal pieces", (length, count) => {
    const zone = bandOn("straight", straight(length), [200, 150]);
    const { pieces, doubts } = bandPieces(zone, woven, usualShop);
    expect(pieces.map((piece) => piece.name)).toEqual(
      Array.from({ length: count }, (_, i) => `straight/1${"abcdefgh"[i]}`),
    );
    expect(doubts).toEqual([]);
    // The pieces at the ends have one lap, those between two: joints at equal parts of the length.
    const half = usualShop.lap / 2;
    for (const [i, piece] of pieces.entries()) {
      const laps = (i > 0 ? half : 0) + (i + 1 < count ? half : 0);
      expect(Math.abs(piece.lengthMm - length / count - laps)).toBeLessThan(count > 2 ? 60 : 1e-6);
      expect(piece.widthMm).toBeCloseTo(350, 9);
      expect(piece.leftEdgeMm).toBeCloseTo(piece.rightEdgeMm, 6);
      expect(piece.areaMm2).toBeCloseTo(350 * piece.lengthMm, 3);
      expect(piece.flatAreaMm2).toBeCloseTo(350 * piece.lengthMm, 3);
      expect(piece.outline).toHaveLength(8);
      expect(piece.corner).toBe(false);
    }
    checkPieces(zone, usualShop);
  });

  test("plies that have stepped back to nothing are not cut", () => {
    const zone = bandOn("straight", straight(2000), [50, 50], 8);
    const widths = zone.plyWidths.map(([left, right]) => left + right);
    expect(widths.at(-1)).toBeLessThanOrEqual(0);
    const { pieces } = bandPieces(zone, woven, usualShop);
    const wide = widths.filter((width) => width > 0);
    expect(pieces).toHaveLength(wide.length);
    pieces.forEach((piece, i) => void expect(piece.widthMm).toBeCloseTo(wide[i], 6));
  });

  test("tapers and staggers its plies", () => {
    const zone = bandOn("straight", straight(9000), [200, 200], 4);
    const { pieces } = bandPieces(zone, woven, usualShop);
    const widths = [1, 2, 3, 4].map((ply) => plyOf(pieces, ply)[0].widthMm);
    widths.forEach((width, i) => void expect(width).toBeCloseTo(400 - 50 * i, 6));
    checkPieces(zone, usualShop);
  });

  test("says when the cloth is not wide enough", () => {
    const { doubts } = bandPieces(bandOn("wide", straight(3000), [800, 700]), woven, usualShop);
    expect(doubts).toHaveLength(1);
    expect(doubts[0].says).toMatch(
      /^1500 mm wide, and .* comes 1270 mm wide: cut it in 2 widths with a side lap/,
    );
    // Three widths of 1270 mm with two laps of 50 mm are 3710 mm, two are 2490 mm.
    const wide = (half: number, rollWidth = 1270) =>
      bandPieces(bandOn("wide", straight(3000), [half, half]), { ...woven, rollWidth }, usualShop).doubts[0]
        .says;
    expect(wide(1245)).toContain("in 2 widths with a side lap of 50 mm, or lay 2 narrower bands");
    expect(wide(1250)).toContain("in 3 widths with side laps of 50 mm, or lay 3 narrower bands");
    expect(wide(400, 50)).toContain("no wider than the lap of 50 mm: a wider roll is wanted");
  });
});

describe("a band round a rectangle of 8 × 4 m with 150 mm corners", () => {
  const curve = flatCurve(roundedRectangle(8000, 4000, 150), true);
  const zone = bandOn("foot", curve, [120, 300], 3);
  const { pieces, doubts } = bandPieces(zone, woven, usualShop);
  const quarter = (Math.PI / 2) * 150;
  const long = 7700;
  const short = 3700;

  test("keeps all rules without a doubt", () => {
    expect(doubts).toEqual([]);
    checkPieces(zone, usualShop);
  });

  test("has no joint in a corner", () => {
    const corners = [
      long / 2,
      long / 2 + quarter + short,
      1.5 * long + 2 * quarter + short,
      1.5 * long + 3 * quarter + 2 * short,
    ];
    for (const ply of [1, 2, 3]) {
      for (const { from, to } of lapsOf(zone, plyOf(pieces, ply))) {
        for (const corner of corners) {
          expect(to % zone.lengthMm <= corner || from % zone.lengthMm >= corner + quarter).toBe(true);
        }
      }
    }
  });

  test("the first piece of each ply covers the beginning of the line", () => {
    for (const ply of [1, 2, 3]) {
      const [first, ...others] = plyOf(pieces, ply);
      expect(first.name).toBe(`foot/${ply}a`);
      expect(first.fromMm === 0 || first.toMm > zone.lengthMm).toBe(true);
      expect(others.every((piece, i) => i === 0 || piece.fromMm > others[i - 1].fromMm)).toBe(true);
    }
  });

  test("how much a corner piece turns at the least is the shop's own figure", () => {
    const count = (cornerTurnDeg: number) =>
      bandPieces(zone, woven, { ...usualShop, cornerTurnDeg }).pieces.filter((piece) => piece.corner).length;
    // Corners of a quarter turn; straight pieces turn by nothing.
    expect(count(45)).toBeGreaterThanOrEqual(4);
    expect(count(91)).toBe(0);
  });

  test("corner pieces show both edges: the difference is turn × width", () => {
    const corners = plyOf(pieces, 1).filter((piece) => piece.corner);
    expect(corners.length).toBeGreaterThanOrEqual(4);
    const turned = plyOf(pieces, 1).reduce((sum, piece) => sum + piece.rightEdgeMm - piece.leftEdgeMm, 0);
    // Each corner turns a quarter: the outer edge gains π/2 × 300, the inner loses π/2 × 120.
    expect(turned).toBeCloseTo(4 * (Math.PI / 2) * 420, 1);
  });
});

test("a small ring that would lie over itself laid flat is two pieces", () => {
  const zone = bandOn("ring", flatCurve([{ length: 2 * Math.PI * 300, turn: 2 * Math.PI }], true), [50, 50]);
  const { pieces } = bandPieces(zone, woven, { ...usualShop, handlingLength: 4000 });
  expect(pieces).toHaveLength(2);
  expect(pieces[0].midMm + pieces[1].midMm).toBeGreaterThan(2 * Math.PI * 300 + 100);
  expect(pieces.every((piece) => piece.corner)).toBe(true);
  checkPieces(zone, { ...usualShop, handlingLength: 4000 });
});

test("rules that contradict each other give pieces all the same, and say so", () => {
  const zone = bandOn("tight", flatCurve([{ length: 4000, turn: 0 }], false), [200, 200], 2);
  const laps = bandPieces(zone, woven, { ...usualShop, handlingLength: 300, lap: 300 });
  expect(laps.doubts[0].says).toMatch(
    /pieces are longer than the handling length of 300 mm, .* take laps of 300 mm there/,
  );
  checkPieces(zone, { ...usualShop, handlingLength: 300, lap: 300 });
  const stagger = bandPieces(zone, woven, { ...usualShop, handlingLength: 1500, jointStagger: 1000 });
  expect(stagger.doubts.map(({ says }) => says).join()).toMatch(
    /could be kept only \d+ mm from those of the ply below, not 1000 mm/,
  );
  checkPieces(zone, { ...usualShop, handlingLength: 1500, jointStagger: 1000 });
});

test("a corner that takes no short pieces lengthens its own only", () => {
  // Round the corners the outer edge is many times the inner one, on which the laps must be true.
  const shop = { ...usualShop, handlingLength: 600 };
  const zone = bandOn("foot", flatCurve(roundedRectangle(8000, 4000, 130), true), [128, 500]);
  const { pieces, doubts } = bandPieces(zone, woven, shop);
  const longest = ({ midMm, leftEdgeMm, rightEdgeMm }: Piece) => Math.max(midMm, leftEdgeMm, rightEdgeMm);
  const long = pieces.filter((piece) => longest(piece) > 600 + 1e-6);
  expect(long.length).toBeGreaterThan(0);
  expect(long.length).toBeLessThanOrEqual(12);
  expect(long.every((piece) => piece.corner)).toBe(true);
  expect(doubts[0].says).toContain(
    `${long.length} of its ${pieces.length} pieces are longer than the handling length of 600 mm`,
  );
  checkPieces(zone, shop);
});

test("more than 26 pieces go on with two letters", () => {
  const zone = bandOn("long", flatCurve([{ length: 16000, turn: 0 }], false), [100, 100]);
  const { pieces } = bandPieces(zone, woven, { ...usualShop, handlingLength: 600 });
  expect(pieces.slice(25, 28).map((piece) => piece.name)).toEqual(["long/1z", "long/1aa", "long/1ab"]);
});

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** Figures that a shop works by. */
const usualShops = fc.record({
  handlingLength: real(1500, 4000),
  lap: real(0, 100),
  jointStagger: real(0, 250),
});
/** Any figures that the project file allows, however little sense they make together. */
const anyShops = fc.record({
  handlingLength: real(300, 12000),
  lap: real(0, 300),
  jointStagger: real(0, 1000),
});
const plyCounts = fc.integer({ min: 1, max: 4 });

const ring = fc
  .tuple(real(2500, 9000), real(1800, 4000), real(130, 600))
  .map(([length, width, radius]) => flatCurve(roundedRectangle(length, width, radius), true));

propertyTest.prop([ring, usualShops, plyCounts], { numRuns: 8 })(
  "any ring, by a usual shop's figures: no gap, true laps, staggered joints, no piece too long, no doubt",
  (curve, figures, plies) => {
    const zone = bandOn("ring", curve, [100, 250], plies, 10);
    const shop = { ...usualShop, ...figures };
    expect(bandPieces(zone, woven, shop).doubts).toEqual([]);
    checkPieces(zone, shop);
  },
);

propertyTest.prop([ring, anyShops, plyCounts, real(20, 400)], { numRuns: 5 })(
  "any ring, whatever the shop's figures: no gap, and a doubt wherever a rule is not kept",
  (curve, figures, plies, half) => {
    checkPieces(bandOn("ring", curve, [0.3 * half, half], plies, 4), { ...usualShop, ...figures });
  },
);

const run: fc.Arbitrary<Run> = fc.record({ length: real(30, 3000), turn: real(-1.5, 1.5) });

propertyTest.prop([fc.array(run, { minLength: 1, maxLength: 6 }), anyShops, plyCounts, real(20, 400)], {
  numRuns: 60,
})("any open line: no gap, and a doubt wherever a rule is not kept", (runs, figures, plies, half) => {
  const zone = bandOn("any", flatCurve(runs, false), [half, 0.8 * half], plies, 4);
  checkPieces(zone, { ...usualShop, ...figures });
});

test("parts of a band add up where its rays end near a column of its strip, past the middle of a bend", () => {
  const bend = flatCurve(
    [
      { length: 30, turn: 0 },
      { length: 30, turn: 1.2569200093081716 },
    ],
    false,
  );
  const half = 322.3749999999995;
  const zone = bandOn("bend", bend, [half, 0.8 * half], 1, 4);
  checkPieces(zone, { ...usualShop, handlingLength: 300, lap: 0, jointStagger: 0 });
});

test("a lap all but as long as the handling length does not ask for a million pieces", () => {
  const zone = bandOn("tight", flatCurve([{ length: 9000, turn: 0 }], false), [200, 200]);
  const shop = { ...usualShop, handlingLength: 300.001, lap: 300 };
  expect(bandPieces(zone, woven, shop).pieces.length).toBeLessThan(100);
  checkPieces(zone, shop);
});
