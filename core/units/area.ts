/**
 * Areas as people write them; square metres at the edges (mm² is for the inside of the kernel).
 * The square foot is 0.3048² m² and the square inch 0.0254² m², exactly.
 */
import { fixed } from "./print.ts";
import { type Reading, readQuantity } from "./quantity.ts";
import type { UnitTable } from "./table.ts";

export const m2PerSquareFoot = 0.09290304;
export const m2PerSquareInch = 0.00064516;

const areas: UnitTable = {
  kind: "an area",
  examples: "4.2 m2, 45 sq ft or 3.1+0.6",
  units: [
    { names: ["m2", "sq m", "sqm"], size: 1 },
    { names: ["cm2", "sq cm"], size: 1e-4 },
    { names: ["mm2", "sq mm"], size: 1e-6 },
    { names: ["ft2", "sq ft", "sqft"], size: m2PerSquareFoot },
    { names: ["in2", "sq in"], size: m2PerSquareInch },
  ],
};

export type AreaUnit = "m2" | "cm2" | "mm2" | "ft2" | "in2";

/** Reads an area and gives it in m². `bare` is the unit of a number that has none. */
export function readArea(text: string, bare: AreaUnit = "m2"): Reading {
  return readQuantity(text, areas, bare);
}

/** Prints an area given in m²: `4.200 m²` or `45.21 ft²`, halves rounded away from zero. */
export function printArea(m2: number, unit: "m2" | "ft2"): string {
  return unit === "m2" ? `${fixed(m2, 3)} m²` : `${fixed(m2 / m2PerSquareFoot, 2)} ft²`;
}
