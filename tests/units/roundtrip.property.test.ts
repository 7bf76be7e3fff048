import { fc, test } from "@fast-check/vitest";
import { describe, expect } from "vitest";
import { printArea, readArea } from "../../core/units/area.ts";
import { type LengthStyle, printLength, readLength } from "../../core/units/length.ts";
import { printMass, readMass } from "../../core/units/mass.ts";
import type { Reading } from "../../core/units/quantity.ts";

function value(reading: Reading): number {
  if (!reading.ok) throw new Error(reading.problem);
  return reading.value;
}

/** Half a printed step, in mm, and a little for binary arithmetic. */
const halfStep: Record<LengthStyle, number> = { mm: 0.5, m: 0.5, in: 25.4 / 32, "ft-in": 25.4 / 32 };
const styles = fc.constantFrom<LengthStyle>("mm", "m", "in", "ft-in");
const lengths = fc.double({ min: -50_000, max: 50_000, noNaN: true });

describe("print and read", () => {
  test.prop([lengths, styles])("a printed length reads back within half a step", (mm, style) => {
    expect(Math.abs(value(readLength(printLength(mm, style))) - mm)).toBeLessThanOrEqual(
      halfStep[style] + 1e-6,
    );
  });

  test.prop([lengths, styles])("printing what was read changes nothing more", (mm, style) => {
    const once = printLength(mm, style);
    expect(printLength(value(readLength(once)), style)).toBe(once);
  });

  test.prop([lengths])("no length is printed with 12 inches over feet, nor with sixteen sixteenths", (mm) => {
    expect(printLength(mm, "ft-in")).toMatch(
      /^-?(\d+'|(\d+' )?((\d|1[01])( \d+\/(2|4|8|16))?|\d+\/(2|4|8|16))")$/,
    );
  });

  test.prop([fc.integer({ min: 0, max: 200 }), fc.integer({ min: 0, max: 191 })])(
    "whole sixteenths come back exactly as written",
    (feet, sixteenths) => {
      const mm = (feet * 12 + sixteenths / 16) * 25.4;
      expect(value(readLength(printLength(mm, "ft-in")))).toBeCloseTo(mm, 8);
    },
  );

  test.prop([fc.double({ min: 0, max: 500, noNaN: true })])("areas and masses read back", (figure) => {
    expect(Math.abs(value(readArea(printArea(figure, "m2"))) - figure)).toBeLessThanOrEqual(0.0005 + 1e-9);
    expect(Math.abs(value(readArea(printArea(figure, "ft2"))) - figure)).toBeLessThanOrEqual(0.005 * 0.093);
    expect(Math.abs(value(readMass(printMass(figure, "kg"))) - figure)).toBeLessThanOrEqual(0.005 + 1e-9);
    expect(Math.abs(value(readMass(printMass(figure, "lb"))) - figure)).toBeLessThanOrEqual(0.005 * 0.4536);
  });
});

describe("reading", () => {
  const units = fc.constantFrom(
    ["mm", 1],
    ["cm", 10],
    ["m", 1000],
    ["in", 25.4],
    ["ft", 304.8],
    ["", 1],
  ) as fc.Arbitrary<[string, number]>;
  const terms = fc.array(fc.tuple(fc.boolean(), fc.integer({ min: 100, max: 9999 }), units), {
    minLength: 1,
    maxLength: 5,
  });

  test.prop([terms])("a sum of mixed units is the sum of its terms", (list) => {
    const text = list.map(([minus, figure, [unit]]) => `${minus ? "-" : "+"} ${figure}${unit}`).join(" ");
    const sum = list.reduce(
      (total, [minus, figure, [, size]]) => total + (minus ? -1 : 1) * figure * size,
      0,
    );
    expect(value(readLength(text))).toBeCloseTo(sum, 5);
  });

  test.prop([fc.string({ maxLength: 30, unit: fc.constantFrom(..."0123456789.,/+- '\"mcinft½²x") })])(
    "any text is read as a finite figure or refused in one sentence that names it",
    (text) => {
      const reading = readLength(text);
      if (reading.ok) expect(Number.isFinite(reading.value)).toBe(true);
      else expect(reading.problem).toContain(`Cannot read "${text}" as a length: `);
    },
  );
});
