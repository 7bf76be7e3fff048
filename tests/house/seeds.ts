/**
 * How many random cases a test takes. Tests and campaigns share their code: a test runs a few seeds on every change,
 * `npm run campaign` many of them, and RIBBAND_SEEDS sets the number for either. A campaign takes a part of its seeds, too, so that several
 * machines or cores share it: RIBBAND_SEEDS=501-1000.
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

/**
 * The seeds of a campaign: from 1 on, or the part that RIBBAND_SEEDS names as `first-last`.
 *
 * @param otherwise how many when RIBBAND_SEEDS is not set
 * @throws RangeError when RIBBAND_SEEDS is neither a number that seedCount takes nor two of them, the lower first
 */
export function seedsOf(otherwise: number): number[] {
  const part = /^(\d+)-(\d+)$/.exec(process.env.RIBBAND_SEEDS ?? "");
  const [first, last] = part ? [Number(part[1]), Number(part[2])] : [1, seedCount(otherwise)];
  if (first < 1 || last < first || last > 1_000_000)
    throw new RangeError(
      `RIBBAND_SEEDS is "${process.env.RIBBAND_SEEDS}"; its seeds must run from 1 or more upwards to 1,000,000 at most`,
    );
  return Array.from({ length: last - first + 1 }, (_, i) => first + i);
}
