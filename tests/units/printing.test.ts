import { describe, expect, test } from "vitest";
import { printArea } from "../../core/units/area.ts";
import { type LengthStyle, printLength } from "../../core/units/length.ts";
import { printMass } from "../../core/units/mass.ts";

const inch = 25.4;

describe("lengths in print", () => {
  test.each<[string, number, LengthStyle, string]>([
    ["millimetres come whole", 7480.4, "mm", "7480 mm"],
    ["a half rounds away from zero", 7480.5, "mm", "7481 mm"],
    ["below zero too", -7480.5, "mm", "-7481 mm"],
    ["a zero has no sign", -0.4, "mm", "0 mm"],
    ["metres have three decimals", 7480, "m", "7.480 m"],
    ["a half of a millimetre in metres", 1000.5, "m", "1.001 m"],
    ["metres carry", 9999.6, "m", "10.000 m"],
    ["feet, inches and a fraction", 24 * 12 * inch + 6.5 * inch, "ft-in", `24' 6 1/2"`],
    ["whole feet", 24 * 12 * inch, "ft-in", "24'"],
    ["feet and a fraction", 24 * 12 * inch + inch / 4, "ft-in", `24' 0 1/4"`],
    ["inches under a foot", 6.5 * inch, "ft-in", `6 1/2"`],
    ["a lone fraction", inch / 16, "ft-in", `1/16"`],
    ["nothing", 0, "ft-in", `0"`],
    ["less than a 32nd is nothing", -0.79, "ft-in", `0"`],
    ["fractions are reduced", (12 / 16) * inch, "ft-in", `3/4"`],
    ["11 15/16 stays", (11 + 15 / 16) * inch, "ft-in", `11 15/16"`],
    ["11 31/32 carries to a foot", (11 + 31 / 32) * inch, "ft-in", "1'"],
    ["just under 11 31/32 does not", (11 + 31 / 32) * inch - 0.001, "ft-in", `11 15/16"`],
    ["23 ft 11 31/32 in carries through the inches", (23 * 12 + 11 + 31 / 32) * inch, "ft-in", "24'"],
    ["a 32nd rounds up", inch / 32, "ft-in", `1/16"`],
    ["below zero", -(24 * 12 + 6.5) * inch, "ft-in", `-24' 6 1/2"`],
    ["inches alone", 24 * 12 * inch + 6.5 * inch, "in", `294 1/2"`],
    ["inches alone carry", (11 + 31 / 32) * inch, "in", `12"`],
  ])("%s: %d mm in %s is %s", (_, mm, style, printed) => {
    expect(printLength(mm, style)).toBe(printed);
  });

  test("a figure that is none is refused, not printed", () => {
    for (const style of ["mm", "m", "in", "ft-in"] as const) {
      expect(() => printLength(Number.NaN, style)).toThrow("NaN cannot be printed as a measure");
      expect(() => printLength(Number.POSITIVE_INFINITY, style)).toThrow("Infinity cannot be printed");
    }
  });
});

test("areas and masses in print", () => {
  expect(printArea(4.2, "m2")).toBe("4.200 m²");
  expect(printArea(4.2, "ft2")).toBe("45.21 ft²");
  expect(printArea(0.0005, "m2")).toBe("0.001 m²");
  expect(printMass(12.5, "kg")).toBe("12.50 kg");
  expect(printMass(12.5, "lb")).toBe("27.56 lb");
  expect(printMass(-0.001, "kg")).toBe("0.00 kg");
});
