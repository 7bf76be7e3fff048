import { fixed } from "../../core/units/print.ts";

/** 1 US gallon = 231 in³ exactly (NIST Handbook 44, appendix C; from memory). */
const MM3_PER_GALLON = 231 * 25.4 ** 3;

/** A volume given in mm³: `45.23 m³`, or `11,950 US gal` where lengths are in feet and inches. */
export const printVolume = (mm3: number, imperial: boolean): string =>
  imperial
    ? `${Math.round(mm3 / MM3_PER_GALLON).toLocaleString("en-US")} US gal`
    : `${fixed(mm3 / 1e9, 2)} m³`;
