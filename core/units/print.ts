/** Rounding for print: halves go away from zero, as a person rounds, and zero has no sign. */

/**
 * A figure that misses a half by the dust of binary arithmetic counts as that half: 1000.5 mm is stored as
 * 1.00049999… m, and must still print as 1.001 m.
 */
const dust = 1e-9;

/** The nearest whole number to a figure that is not negative; one that is not finite is a mistake of the caller. */
export function roundHalfAway(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`${value} cannot be printed as a measure`);
  return Math.floor(value + 0.5 + dust);
}

/** A figure with a set number of decimals (0 to 6). */
export function fixed(value: number, decimals: number): string {
  const scale = 10 ** decimals;
  const steps = roundHalfAway(Math.abs(value) * scale);
  return `${value < 0 && steps > 0 ? "-" : ""}${(steps / scale).toFixed(decimals)}`;
}
