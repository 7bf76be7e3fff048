import { describe, expect, test } from "vitest";
import { stripPieces } from "../../core/cutting/strip-pieces.ts";
import { flatCurve, ribsOf, stiffenerOf, stripStock, usualShop } from "./laid-by-hand.ts";

describe("ribs", () => {
  test("each is one strip with two bevels, under its own name", () => {
    const { strips, doubts } = stripPieces(ribsOf("ribs-left", [1450, 1520.5, 2400]), stripStock, usualShop);
    expect(doubts).toEqual([]);
    expect(strips.map(({ name, lengthMm, ends }) => [name, lengthMm, ...ends])).toEqual([
      ["ribs-left/1", 1450, "bevel", "bevel"],
      ["ribs-left/2", 1520.5, "bevel", "bevel"],
      ["ribs-left/3", 2400, "bevel", "bevel"],
    ]);
    expect(strips.every(({ bevelDeg, quantity }) => bevelDeg === usualShop.bevelDeg && quantity === 1)).toBe(
      true,
    );
  });

  test("each says where its ends lie, as a tape reads it", () => {
    const { strips } = stripPieces(ribsOf("ribs-left", [1450, 1520]), stripStock, usualShop);
    expect(strips.map(({ tape }) => tape)).toEqual([
      [
        { from: "deep-left", alongMm: 0, downMm: 60 },
        { from: "deep-left", alongMm: 0, downMm: 1510 },
      ],
      [
        { from: "deep-left", alongMm: 600, downMm: 60 },
        { from: "deep-left", alongMm: 600, downMm: 1580 },
      ],
    ]);
  });

  test("the bevels' wedges are off the mass", () => {
    const { strips } = stripPieces(ribsOf("r", [1000]), stripStock, { ...usualShop, bevelDeg: 45 });
    // 100 × 20 mm of 80 kg/m³; two triangles of 20 × 20 / 2 off the side.
    expect(strips[0].massKg).toBeCloseTo(80e-9 * 100 * (20 * 1000 - 2 * 200), 12);
    const square = stripPieces(ribsOf("r", [1000]), stripStock, { ...usualShop, bevelDeg: 90 });
    expect(square.strips[0].massKg).toBeCloseTo(80e-9 * 100 * 20 * 1000, 12);
  });

  test("longer than the stock, it butts on its straight part, not in the bend", () => {
    // Down a wall, round a cove of 200 mm radius whose bend lies at the middle, and on.
    const cove = { length: (Math.PI / 2) * 200, turn: Math.PI / 2 };
    const curve = flatCurve([{ length: 1400, turn: 0 }, cove, { length: 1400, turn: 0 }], false);
    const { strips, doubts } = stripPieces(ribsOf("rib", [curve.length], curve), stripStock, usualShop);
    expect(strips.map(({ name, ends }) => [name, ...ends])).toEqual([
      ["rib/1a", "bevel", "butt"],
      ["rib/1b", "butt", "bevel"],
    ]);
    expect(strips[0].lengthMm + strips[1].lengthMm).toBeCloseTo(curve.length, 9);
    expect(Math.max(...strips.map((strip) => strip.lengthMm))).toBeLessThanOrEqual(2400);
    const butt = strips[0].lengthMm;
    // The butt lies down the rib by as much as the upper piece is long.
    for (const mark of [strips[0].tape[1], strips[1].tape[0]]) {
      expect(mark).toMatchObject({ from: "deep-left", alongMm: 0 });
      expect(mark.downMm).toBeCloseTo(60 + butt, 6);
    }
    expect(butt < 1400 - 70 || butt > 1400 + cove.length + 70).toBe(true);
    expect(doubts[0].says).toMatch(
      /^rib 1: it is 3114 mm long, and the stock is 2400 mm: a butt joint at \d+ mm$/,
    );
  });
});

test("a long stiffener is joined of equal pieces, and says so", () => {
  const { strips, doubts } = stripPieces(stiffenerOf("stiffener-left", 7000), stripStock, usualShop);
  expect(strips.map(({ name }) => name)).toEqual([
    "stiffener-left/a",
    "stiffener-left/b",
    "stiffener-left/c",
  ]);
  const along = (i: number) => ({
    from: "deep-left",
    alongMm: expect.closeTo(250 + (i * 7000) / 3, 6),
    downMm: null,
  });
  const end = { from: "shallow-left", alongMm: -250, downMm: null };
  expect(strips.map(({ tape }) => tape)).toEqual([
    [along(0), along(1)],
    [along(1), along(2)],
    [along(2), end],
  ]);
  for (const strip of strips) expect(strip.lengthMm).toBeCloseTo(7000 / 3, 6);
  expect(doubts).toEqual([
    { says: "it is 7000 mm long, and the stock is 2400 mm: butt joints at 2333 and 4667 mm" },
  ]);
  expect(stripPieces(stiffenerOf("s", 2000), stripStock, usualShop).strips[0].name).toBe("s");
});
