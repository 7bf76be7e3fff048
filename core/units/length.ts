/**
 * Lengths as people write them; millimetres inside.
 * 1 in = 25.4 mm and 1 ft = 304.8 mm exactly (international yard and pound agreement, 1959).
 */
import { fixed, roundHalfAway } from "./print.ts";
import { type Reading, readQuantity } from "./quantity.ts";
import type { UnitTable } from "./table.ts";

export const mmPerInch = 25.4;
export const mmPerFoot = 304.8;

const lengths: UnitTable = {
  kind: "a length",
  examples: `7.48m, 24' 6 1/2" or 3800-150`,
  units: [
    { names: ["mm", "millimetre", "millimetres", "millimeter", "millimeters"], size: 1 },
    { names: ["cm", "centimetre", "centimetres", "centimeter", "centimeters"], size: 10 },
    { names: ["m", "metre", "metres", "meter", "meters"], size: 1000 },
    { names: ["in", "inch", "inches", '"'], size: mmPerInch },
    { names: ["ft", "foot", "feet", "'"], size: mmPerFoot, smaller: "in", dashed: true },
  ],
};

export type LengthUnit = "mm" | "cm" | "m" | "in" | "ft";

/**
 * Reads a length and gives it in mm. `bare` is the unit of a number that has none: `3800-150` in a field in mm.
 * The sign is kept, and no limit is set: what a field allows is the field's business.
 */
export function readLength(text: string, bare: LengthUnit = "mm"): Reading {
  return readQuantity(text, lengths, bare);
}

/** How a length is printed: `7480 mm`, `7.480 m`, `294 1/2"`, `24' 6 1/2"`. */
export type LengthStyle = "mm" | "m" | "in" | "ft-in";

/**
 * Prints a length given in mm. Millimetres come whole, metres with three decimals, inches to the nearest 1/16 with
 * the fraction reduced; halves round away from zero. `readLength` reads every result.
 */
export function printLength(mm: number, style: LengthStyle): string {
  switch (style) {
    case "mm":
      return `${fixed(mm, 0)} mm`;
    case "m":
      return `${fixed(mm / 1000, 3)} m`;
    case "in":
    case "ft-in":
      return printInches(mm, style === "ft-in");
  }
}

/** Works on whole sixteenths, so that 11 31/32" carries to 12" and then to 1'. */
function printInches(mm: number, withFeet: boolean): string {
  const sixteenths = roundHalfAway((Math.abs(mm) * 16) / mmPerInch);
  const sign = mm < 0 && sixteenths > 0 ? "-" : "";
  const feet = withFeet ? Math.floor(sixteenths / (16 * 12)) : 0;
  const inches = Math.floor(sixteenths / 16) - feet * 12;
  let top = sixteenths % 16;
  let bottom = 16;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  const fraction = top > 0 ? `${top}/${bottom}` : "";
  // A fraction alone behind feet is read past: 7' 0 3/16", as drawings write it.
  const whole = inches > 0 || (feet > 0 ? top > 0 : top === 0);
  const small = [whole ? `${inches}` : "", fraction].filter(Boolean).join(" ");
  return sign + [feet > 0 ? `${feet}'` : "", small ? `${small}"` : ""].filter(Boolean).join(" ");
}
