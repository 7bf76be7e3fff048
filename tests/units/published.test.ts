/**
 * Conversion factors from outside the project.
 * [A] International yard and pound agreement, 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg, exactly.
 * [B] NIST Special Publication 811 (2008), appendix B.8, factors to seven figures. Written down from memory; each also
 *     follows from [A], and is checked against it here.
 */
import { describe, expect, test } from "vitest";
import { m2PerSquareFoot, m2PerSquareInch, printArea, readArea } from "../../core/units/area.ts";
import { mmPerFoot, mmPerInch, readLength } from "../../core/units/length.ts";
import { kgPerOunce, kgPerPound, readMass } from "../../core/units/mass.ts";

describe("published factors", () => {
  test("inch and foot [A]", () => {
    expect(mmPerInch * 36).toBeCloseTo(914.4, 10);
    expect(mmPerFoot * 3).toBeCloseTo(914.4, 10);
    expect(mmPerInch).toBe(25.4);
    expect(mmPerFoot).toBe(304.8);
  });

  test("square foot and square inch [A], [B]", () => {
    expect(m2PerSquareFoot).toBeCloseTo(0.3048 ** 2, 15);
    expect(m2PerSquareInch).toBeCloseTo(0.0254 ** 2, 15);
    expect(m2PerSquareFoot).toBeCloseTo(9.290304e-2, 9);
    expect(1 / m2PerSquareFoot).toBeCloseTo(10.7639104, 7);
  });

  test("pound and ounce [A], [B]", () => {
    expect(kgPerPound).toBe(0.45359237);
    expect(kgPerOunce * 1000).toBeCloseTo(28.349523125, 9);
    expect(1 / kgPerPound).toBeCloseTo(2.20462262, 8);
  });

  test("the same values through what a person types", () => {
    expect(readLength("1 in")).toEqual({ ok: true, value: 25.4 });
    expect(readLength("1 ft")).toEqual({ ok: true, value: 304.8 });
    expect(readArea("1 sq ft")).toEqual({ ok: true, value: 0.09290304 });
    expect(readMass("16 oz")).toEqual({ ok: true, value: 0.45359237 });
    expect(printArea(1, "ft2")).toBe("10.76 ft²");
  });

  test("roll widths of the trade: 38, 50 and 60 in are 965, 1270 and 1524 mm (common practice)", () => {
    for (const [inches, mm] of [
      [38, 965],
      [50, 1270],
      [60, 1524],
    ]) {
      const read = readLength(`${inches}"`);
      expect(read.ok && Math.round(read.value)).toBe(mm);
    }
  });
});
