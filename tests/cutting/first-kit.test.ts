import { describe, expect, test } from "vitest";
import { firstKit } from "../../core/cutting/first-kit.ts";
import { openGround } from "../../core/cutting/make-kit.ts";
import { type RoughBand, roughPieces } from "../../core/cutting/rough-pieces.ts";
import { demoKit } from "./demo-kits.ts";
import { flatCurve, type Run, roundedRectangle, usualShop, woven } from "./laid-by-hand.ts";

const shop = { ...usualShop, handlingLength: 2500, lap: 50 };
const sum = (figures: readonly number[]) => figures.reduce((total, figure) => total + figure, 0);

function bandOf(runs: readonly Run[], closed: boolean, [left, right]: readonly [number, number]): RoughBand {
  const curve = flatCurve(runs, closed);
  return { id: "foot", curve, from: 0, to: curve.length, closed, plyWidths: [[left, right]] };
}

describe("rough pieces", () => {
  test("of a straight band are as few as the handling length allows, each lapping the next", () => {
    const pieces = roughPieces(bandOf([{ length: 6000, turn: 0 }], false, [100, 150]), woven, shop);
    expect(pieces).toHaveLength(3);
    expect(sum(pieces.map(({ lengthMm }) => lengthMm))).toBeCloseTo(6000 + 2 * 50, 6);
    for (const { lengthMm, widthMm, areaMm2, glassKg } of pieces) {
      expect(lengthMm).toBeLessThanOrEqual(2500);
      expect(widthMm).toBeCloseTo(250, 6);
      expect(areaMm2).toBeCloseTo(250 * lengthMm, 3);
      expect(glassKg).toBeCloseTo((woven.gramsPerM2 / 1000) * (areaMm2 / 1e6), 9);
    }
    // One mm more than two pieces cover.
    const just = (length: number) =>
      roughPieces(bandOf([{ length, turn: 0 }], false, [100, 150]), woven, shop).length;
    expect([just(2 * 2500 - 50), just(2 * 2500 - 49)]).toEqual([2, 3]);
  });

  test("round an arc take the box of the arc, to either side", () => {
    // 600 mm round one radian: radii of the line and the edges 600, 500 and 750 mm.
    for (const turn of [1, -1]) {
      const widths = turn > 0 ? ([100, 150] as const) : ([150, 100] as const);
      const [piece] = roughPieces(bandOf([{ length: 600, turn }], false, widths), woven, shop);
      expect(Math.abs(piece.lengthMm - 2 * 750 * Math.sin(0.5))).toBeLessThan(2);
      expect(Math.abs(piece.widthMm - (750 - 500 * Math.cos(0.5)))).toBeLessThan(2);
    }
  });

  test("of a ring lap all round, are counted by its longer edge, and are as wide as the band where the box fits no roll", () => {
    const ring = roundedRectangle(6000, 3000, 400);
    const length = sum(ring.map((run) => run.length));
    const pieces = roughPieces(bandOf(ring, true, [200, 200]), woven, shop);
    // The outer edge gains a whole turn: 2π · 200 mm.
    expect(pieces).toHaveLength(Math.ceil((length + 2 * Math.PI * 200) / 2450));
    expect(sum(pieces.map(({ midMm }) => midMm))).toBeCloseTo(length + pieces.length * 50, 6);
    expect(Math.max(...pieces.map(({ widthMm }) => widthMm))).toBeGreaterThan(450);
    const narrow = roughPieces(bandOf(ring, true, [200, 200]), { ...woven, rollWidth: 420 }, shop);
    expect(Math.max(...narrow.map(({ widthMm }) => widthMm))).toBeLessThan(420);
    expect(Math.min(...narrow.map(({ widthMm }) => widthMm))).toBeCloseTo(400, 6);
  });

  test("of a ply that has stepped back to nothing there are none", () => {
    const band = {
      ...bandOf([{ length: 900, turn: 0 }], false, [50, 0]),
      plyWidths: [[50, 0] as const, [0, 0] as const],
    };
    expect(roughPieces(band, woven, shop).map(({ ply }) => ply)).toEqual([1]);
  });
});

test("a first kit has the strips and sheets of the kit itself, and about its cloth", {
  timeout: 120_000,
}, () => {
  const { project, kit } = demoKit("dunlin-4");
  const ground = openGround(project);
  if (!ground.ok) throw new Error("The shell was built once, and not again.");
  const first = firstKit(ground);
  expect(first.strips).toEqual(kit.strips);
  const counts = ({ sheets }: typeof kit) => sheets.map(({ name, quantity }) => [name, quantity]);
  expect(counts(first)).toEqual(counts(kit));
  for (const { outline } of first.sheets) expect(outline).toHaveLength(8);
  const zones = (of: typeof kit) => [...new Set(of.pieces.map(({ zone }) => zone))];
  expect(zones(first)).toEqual(zones(kit));
  const area = (of: typeof kit) => sum(of.pieces.map(({ quantity, areaMm2 }) => quantity * areaMm2));
  expect(area(first) / area(kit)).toBeGreaterThan(0.9);
  expect(area(first) / area(kit)).toBeLessThan(1.1);
  const box = (of: typeof kit) =>
    sum(of.pieces.map(({ quantity, lengthMm, widthMm }) => quantity * lengthMm * widthMm));
  expect(box(first) / box(kit)).toBeGreaterThan(0.8);
  expect(box(first) / box(kit)).toBeLessThan(1.2);
});
