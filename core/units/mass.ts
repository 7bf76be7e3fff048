/**
 * Masses as people write them; kilograms inside.
 * The pound is 0.45359237 kg exactly (international yard and pound agreement, 1959), the ounce a sixteenth of it.
 */
import { fixed } from "./print.ts";
import { type Reading, readQuantity } from "./quantity.ts";
import type { UnitTable } from "./table.ts";

export const kgPerPound = 0.45359237;
export const kgPerOunce = kgPerPound / 16;

const masses: UnitTable = {
  kind: "a mass",
  examples: "12.5 kg, 800 g or 27 lb 9 oz",
  units: [
    { names: ["kg", "kilogram", "kilograms"], size: 1 },
    { names: ["g", "gram", "grams"], size: 1e-3 },
    { names: ["t", "tonne", "tonnes"], size: 1000 },
    { names: ["lb", "lbs", "pound", "pounds"], size: kgPerPound, smaller: "oz" },
    { names: ["oz", "ounce", "ounces"], size: kgPerOunce },
  ],
};

export type MassUnit = "kg" | "g" | "t" | "lb" | "oz";

/** Reads a mass and gives it in kg. `bare` is the unit of a number that has none. */
export function readMass(text: string, bare: MassUnit = "kg"): Reading {
  return readQuantity(text, masses, bare);
}

/** Prints a mass given in kg: `12.50 kg` or `27.56 lb`, halves rounded away from zero. */
export function printMass(kg: number, unit: "kg" | "lb"): string {
  return unit === "kg" ? `${fixed(kg, 2)} kg` : `${fixed(kg / kgPerPound, 2)} lb`;
}
