/** Whether two values of plain data say the same. What they share is not looked into, so states of one project compare fast. */
export function sameValue(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  return keys.every(
    (key) => key in b && sameValue((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  );
}
