/** A figure as the formats of drawings write it: to the thousandth of a mm, no zero too many, and never so small that it gets an exponent. */
export function numberText(value: number): string {
  if (!(Math.abs(value) < 1e12)) throw new RangeError(`${value} cannot stand in a drawing`);
  return String(Math.round(value * 1000) / 1000 + 0);
}
