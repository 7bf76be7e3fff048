import { fc, test as propertyTest } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { cutAcross } from "../../core/cutting/cut-across.ts";
import { gussetPieces, padPieces } from "../../core/cutting/sheet-pieces.ts";
import { gussetsOf, padOf, shapeOf, sheetStock } from "./laid-by-hand.ts";

const web = [0, 0, 200, 0, 200, 60, 60, 250, 0, 250];
const moved = (outline: readonly number[], dx: number, dy: number) =>
  outline.map((value, i) => value + (i % 2 === 0 ? dx : dy));

describe("gussets", () => {
  test("equal webs are one entry with their number, under the name of the first", () => {
    const other = [0, 0, 201, 0, 201, 60, 60, 250, 0, 250];
    const sameButFor = web.map((value, i) => (i === 2 ? value + 0.4 : value));
    // The same web with a corner more on one side, and begun at another corner.
    const redrawn = [200, 60, 60, 250, 0, 250, 0, 100, 0, 0, 200, 0];
    const zone = gussetsOf("gussets-seat", [web, other, moved(web, 30, -500), redrawn, sameButFor]);
    const { sheets, doubts } = gussetPieces(zone, sheetStock);
    expect(sheets.map(({ name, quantity }) => [name, quantity])).toEqual([
      ["gussets-seat/1", 4],
      ["gussets-seat/2", 1],
    ]);
    expect(doubts).toEqual([]);
    const { areaMm2, massKg, lengthMm, widthMm } = sheets[0];
    // 200 × 60 and a trapezium of 190 between 200 and 60.
    expect(areaMm2).toBeCloseTo(200 * 60 + (190 * (200 + 60)) / 2, 6);
    expect(massKg).toBeCloseTo(areaMm2 * 20 * 80e-9, 12);
    expect([lengthMm, widthMm]).toEqual([250, 200]);
  });

  test("a mirrored web is another web", () => {
    const mirrored = [0, 0, 200, 0, 200, 250, 140, 250, 0, 60];
    expect(gussetPieces(gussetsOf("g", [web, mirrored]), sheetStock).sheets).toHaveLength(2);
  });

  test("one that no sheet holds is told", () => {
    const { doubts } = gussetPieces(gussetsOf("g", [[0, 0, 1300, 0, 1300, 1300, 0, 1300]]), sheetStock);
    expect(doubts).toEqual([{ says: "g/1: it is 1300 × 1300 mm, larger than a sheet of 2440 × 1220 mm" }]);
  });
});

describe("pads", () => {
  test("a pad that fits a sheet is one piece, wherever it lies in the plan", () => {
    const { sheets, doubts } = padPieces(
      padOf("pad", [moved([0, 0, 300, 0, 300, 2440, 0, 2440], 8000, -1220)]),
      sheetStock,
    );
    expect(doubts).toEqual([]);
    expect(sheets).toHaveLength(1);
    expect(sheets[0]).toMatchObject({
      name: "pad/1",
      quantity: 1,
      lengthMm: 2440,
      widthMm: 300,
      areaMm2: 732000,
    });
    expect([...sheets[0].outline]).toEqual([0, 0, 300, 0, 300, 2440, 0, 2440]);
  });

  test("a larger one is cut in the fewest equal parts that butt", () => {
    const { sheets, doubts } = padPieces(
      padOf("pad-ledge", [[0, 0, 1600, 0, 1600, 3600, 0, 3600]]),
      sheetStock,
    );
    // 2440 along x: 1 × 3 parts of 1600 × 1200; along y it would be 2 × 2.
    expect(sheets).toHaveLength(1);
    expect(sheets[0]).toMatchObject({ name: "pad-ledge/1a", quantity: 3 });
    expect(sheets[0].lengthMm).toBeCloseTo(1600, 9);
    expect(sheets[0].widthMm).toBeCloseTo(1200, 9);
    expect(doubts).toEqual([
      { says: "it is 1600 × 3600 mm, larger than a sheet of 2440 × 1220 mm: cut in 3 parts that butt" },
    ]);
  });

  test("of an L, parts follow the outline", () => {
    const ell = [0, 0, 3000, 0, 3000, 400, 400, 400, 400, 2600, 0, 2600];
    const { sheets } = padPieces(padOf("bench", [ell, [0, 0, 300, 0, 0, 300]]), sheetStock);
    const area = sheets.reduce((sum, sheet) => sum + sheet.quantity * sheet.areaMm2, 0);
    expect(area).toBeCloseTo(3000 * 400 + 2200 * 400 + 300 * 150, 6);
    for (const { lengthMm, widthMm } of sheets) {
      expect(Math.max(lengthMm, widthMm)).toBeLessThanOrEqual(2440);
      expect(Math.min(lengthMm, widthMm)).toBeLessThanOrEqual(1220);
    }
    expect(sheets[sheets.length - 1].name).toBe("bench/2");
  });
});

/** A star-shaped polygon, hollow as often as not: corners at even angles, distances given. */
const star = fc
  .array(fc.double({ min: 50, max: 1000, noNaN: true }), { minLength: 3, maxLength: 24 })
  .map((radii) =>
    shapeOf(
      radii.flatMap((radius, i) => {
        const angle = (2 * Math.PI * i) / radii.length;
        return [radius * Math.cos(angle), radius * Math.sin(angle)];
      }),
    ),
  );

propertyTest.prop([
  star,
  fc.constantFrom(0 as const, 1 as const),
  fc.double({ min: -900, max: 900, noNaN: true }),
])("cut across, any shape keeps its area and every part its side of the line", (shape, axis, at) => {
  const [below, above] = cutAcross(shape, axis, at);
  const area = [...below, ...above].reduce((sum, part) => sum + part.areaMm2, 0);
  // Less the dust that is left out: at most 0.01 mm² a part.
  expect(Math.abs(area - shape.areaMm2)).toBeLessThan(0.2);
  const coordinates = (points: Float64Array) => points.filter((_, i) => i % 2 === axis);
  for (const part of below) expect(Math.max(...coordinates(part.points))).toBeLessThanOrEqual(at + 1e-9);
  for (const part of above) expect(Math.min(...coordinates(part.points))).toBeGreaterThanOrEqual(at - 1e-9);
  for (const part of [...below, ...above]) expect(part.areaMm2).toBeGreaterThan(0);
});

test("a comb falls into its teeth", () => {
  const comb = [
    0, 0, 700, 0, 700, 500, 600, 500, 600, 100, 400, 100, 400, 500, 300, 500, 300, 100, 100, 100, 100, 500, 0,
    500,
  ];
  const [below, above] = cutAcross(shapeOf(comb), 1, 300);
  expect(below).toHaveLength(1);
  expect(above.map((tooth) => tooth.areaMm2).sort()).toEqual([20000, 20000, 20000]);
});

test("a corner on the line gives no sliver", () => {
  const [below, above] = cutAcross(shapeOf([0, 0, 100, 0, 100, 100, 0, 100]), 0, 100);
  expect([below.length, above.length]).toEqual([1, 0]);
});
