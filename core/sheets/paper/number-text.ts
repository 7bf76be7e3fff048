/** A figure as the formats of drawings write it: to the thousandth of a mm, without an exponent or a zero too many. */
export function numberText(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`${value} cannot stand in a drawing`);
  const text = (Math.round(value * 1000) / 1000 + 0).toFixed(3);
  return text.replace(/\.?0+$/, "");
}
