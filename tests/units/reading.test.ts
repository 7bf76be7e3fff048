import { describe, expect, test } from "vitest";
import { readArea } from "../../core/units/area.ts";
import { type LengthUnit, readLength } from "../../core/units/length.ts";
import { readMass } from "../../core/units/mass.ts";
import type { Reading } from "../../core/units/quantity.ts";

function value(reading: Reading): number {
  if (!reading.ok) throw new Error(reading.problem);
  return reading.value;
}

function problem(reading: Reading): string {
  if (reading.ok) throw new Error(`was read as ${reading.value}`);
  return reading.problem;
}

const feet = (ft: number, inches: number) => ft * 304.8 + inches * 25.4;

describe("lengths that are read", () => {
  test.each<[string, number]>([
    ["3800", 3800],
    ["3800 mm", 3800],
    ["7.48m", 7480],
    ["7.48 M", 7480],
    ["38cm", 380],
    [".5m", 500],
    ["5.", 5],
    [`24' 6 1/2"`, feet(24, 6.5)],
    [`24'6½"`, feet(24, 6.5)],
    ["24ft 6.5in", feet(24, 6.5)],
    ["24 feet 6 1/2 inches", feet(24, 6.5)],
    ["24′ 6½″", feet(24, 6.5)],
    ["24’ 6”", feet(24, 6)],
    ["24' 6''", feet(24, 6)],
    ["24' 6", feet(24, 6)],
    ["24 ft", feet(24, 0)],
    [`24'-6"`, feet(24, 6)],
    [`24'-6 1/2"`, feet(24, 6.5)],
    ["24'-6", feet(24, 6)],
    [`24'-6" - 2'`, feet(22, 6)],
    ["24'-6'", feet(18, 0)],
    ["24' - 150", feet(24, 0) - 150],
    ["24'-150", feet(24, 0) - 150],
    ["24ft - 30in", feet(21, 6)],
    [`24' 6" - 2"`, feet(24, 4)],
    [`24' - 0' 6"`, feet(23, 6)],
    ["1/2 in", 12.7],
    ['38"', 965.2],
    ["3800-150", 3650],
    ["3800 − 150 – 50", 3600],
    ["3.8m - 150", 3650],
    [`2m + 6in - 1' 1/4"`, 2000 + 6 * 25.4 - feet(1, 0.25)],
    [`-24' 6 1/2"`, -feet(24, 6.5)],
    ["+150", 150],
    ["150 - 150", 0],
    [" 24 ' 6 \" ", feet(24, 6)],
  ])("%s", (text, mm) => {
    expect(value(readLength(text))).toBeCloseTo(mm, 9);
  });

  test.each<[string, LengthUnit, number]>([
    ["7.48", "m", 7480],
    ["38", "in", 965.2],
    ["24 1/2", "ft", 7467.6],
    ["38", "cm", 380],
    ["24' 6", "m", feet(24, 6)],
  ])("%s in a field in %s", (text, unit, mm) => {
    expect(value(readLength(text, unit))).toBeCloseTo(mm, 9);
  });

  test("nothing left over is a plain zero", () => {
    expect(Object.is(value(readLength("-0")), 0)).toBe(true);
  });
});

describe("lengths that are refused, with the reason", () => {
  test.each<[string, string]>([
    ["", "it is empty"],
    ["   ", "it is empty"],
    ["wide", '"wide" is not a unit of length (known: mm, cm, m, in, ft)'],
    ["3 miles", '"miles" is not a unit of length'],
    ["3 kg", '"kg" is not a unit of length'],
    ["1e3", '"e" is not a unit of length'],
    ["NaN", '"nan" is not a unit of length'],
    ["3 m2", '"2" follows "3m" without a sign'],
    ["7,48 m", "a comma may mean a decimal or thousands"],
    ["3,800", "a comma may mean a decimal or thousands"],
    ["6-1/2", '"6-1/2" may mean 6 1/2 or 6 minus 1/2'],
    [`24'-6-1/2"`, '"6-1/2" may mean'],
    [`24' - 6"`, "may mean feet and inches or a subtraction"],
    ["24' - 6", "may mean feet and inches or a subtraction"],
    ["24ft-6in", 'write "24ft 6 in" or "24ft - 0 ft 6 in"'],
    [`24'-13"`, '"13"" after "24\'" is not less than 1 ft'],
    ["1/0 in", 'the fraction "1/0" divides by zero'],
    ["6 3/2 in", 'in "6 3/2" the fraction is not smaller than one'],
    [`24' 13"`, '"13"" after "24\'" is not less than 1 ft'],
    [`24' 6" 2`, '"2" follows "6"" without a sign'],
    [`6" 2'`, '"2\'" follows "6"" without a sign'],
    ["3800 150", '"150" follows "3800" without a sign'],
    ["24' 6mm", '"6mm" follows "24\'" without a sign'],
    ["3800-", "it ends where a number should stand"],
    ["3800--150", 'a number should stand before "-"'],
    ["m", 'a number should stand before "m"'],
    ["3*450", '"*" is not a unit of length'],
    ["1.2.3", '".3" follows "1.2" without a sign'],
    ["9".repeat(400), "the number is too large"],
  ])("%j", (text, reason) => {
    const said = problem(readLength(text));
    expect(said).toContain(reason);
    expect(said).toContain(`Cannot read "${text}" as a length`);
  });
});

describe("areas and masses", () => {
  test.each<[string, number]>([
    ["4.2", 4.2],
    ["4.2 m²", 4.2],
    ["4.2m2", 4.2],
    ["100 sq ft", 9.290304],
    ["100 sqft + 1 m2", 10.290304],
    ["240 in²", 240 * 0.0254 ** 2],
    ["5000 cm2", 0.5],
    ["250000 mm²", 0.25],
  ])("%s", (text, m2) => {
    expect(value(readArea(text))).toBeCloseTo(m2, 12);
  });

  test.each<[string, number]>([
    ["12.5", 12.5],
    ["800 g", 0.8],
    ["0.6t", 600],
    ["27 lb 9 oz", 27.5625 * 0.45359237],
    ["27lbs - 9oz", 26.4375 * 0.45359237],
    ["1/2 lb", 0.226796185],
  ])("%s", (text, kg) => {
    expect(value(readMass(text))).toBeCloseTo(kg, 12);
  });

  test("the kind and its units are named when they cannot be read", () => {
    expect(problem(readArea("4 m"))).toContain(
      'Cannot read "4 m" as an area: "m" is not a unit of area (known: m2, cm2, mm2, ft2, in2)',
    );
    expect(problem(readMass("4 st"))).toContain('Cannot read "4 st" as a mass: "st" is not a unit of mass');
  });
});
