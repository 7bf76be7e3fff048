/**
 * How many random cases a test takes. Tests and campaigns share their code: a test runs a few seeds on every change,
 * `npm run campaign` many of them, and RIBBAND_SEEDS sets the number for either.
 */

/**
 * @param otherwise the number when RIBBAND_SEEDS is not set
 * @throws RangeError when RIBBAND_SEEDS is not a whole number from 1 to 1,000,000
 */
export function seedCount(otherwise: number): number {
  const text = process.env.RIBBAND_SEEDS;
  if (text === undefined || text === "") return otherwise;
  const count = Number(text);
  if (Number.isInteger(count) && count >= 1 && count <= 1_000_000) return count;
  throw new RangeError(`RIBBAND_SEEDS is "${text}"; it must be a whole number from 1 to 1,000,000`);
}
