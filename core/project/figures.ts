import { z } from "zod";

/**
 * The figures of a project file: every number carries its range and, in this registry, what it measures, so that a
 * message about a wrong one can say "a length in mm from 600 to 2800" without a second list of limits.
 */
export const measures = z.registry<{ readonly measure: string }>();

function figure(measure: string, min: number, max: number) {
  return z.number().min(min).max(max).register(measures, { measure });
}

export const lengthMeasure = "a length in mm";

/** A length, a distance, a depth or a coordinate in millimetres. */
export const mm = (min: number, max: number) => figure(lengthMeasure, min, max);

/** An angle in degrees; keys that hold one end in `Deg`. */
export const degrees = (min: number, max: number) => figure("an angle in degrees", min, max);

/** A part of a whole: 0 at its start, 1 at its end. */
export const part = () => figure("a proportion", 0, 1);

/** Areal weight of a fabric, g/m². */
export const gramsPerM2 = (min: number, max: number) => figure("a weight in g/m²", min, max);

/** Density, kg/m³. */
export const kgPerM3 = (min: number, max: number) => figure("a density in kg/m³", min, max);

/** Fall of a surface, mm in each metre. */
export const fall = (min: number, max: number) => figure("a fall in mm a metre", min, max);

/** A price in the shop's own currency. */
export const price = (min: number, max: number) => figure("a price", min, max);

/** A number without a unit. */
export const plainNumber = (min: number, max: number) => figure("a number", min, max);

/** A count of plies and the like. */
export const count = (min: number, max: number) =>
  z.number().int().min(min).max(max).register(measures, { measure: "a whole number" });
