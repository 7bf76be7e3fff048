/**
 * The least power of ten by which all of these become whole numbers of `most` at the most, and those numbers: figures of a file have few
 * decimals, and what is exact in decimals is not in halves. Null when no power of ten does that.
 */
export function wholeNumbers(
  values: readonly number[],
  most: number,
): { readonly power: number; readonly whole: readonly number[] } | null {
  const greatest = values.reduce((sofar, value) => Math.max(sofar, Math.abs(value)), 0);
  for (let power = 1; greatest * power <= most; power *= 10) {
    const raised = values.map((value) => value * power);
    const whole = raised.map(Math.round);
    // Read from a file and multiplied, a decimal figure is out by the last place only.
    if (whole.every((number, i) => Math.abs(number - raised[i]) <= 2 * Number.EPSILON * Math.abs(number)))
      return { power, whole };
  }
  return null;
}
