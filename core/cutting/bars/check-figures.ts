import type { BarDemand, BarOptions, BarStock } from "./bar-plan.ts";

/** Throws a RangeError that names the first figure which is no length, count or price, and says what would be right. */
export function checkFigures(
  demands: readonly BarDemand[],
  stock: readonly BarStock[],
  { kerfMm, endTrimMm, keepFromMm }: BarOptions,
): void {
  length("The kerf", kerfMm);
  length("The end trim", endTrimMm);
  length("The shortest rest to keep", keepFromMm);
  for (const { id, lengthMm, quantity } of demands) {
    lengthAboveZero(`The length of piece ${id}`, lengthMm);
    count(`The quantity of piece ${id}`, quantity);
  }
  for (const { id, lengthMm, quantity, price, remnant } of stock) {
    lengthAboveZero(`The length of bar ${id}`, lengthMm);
    if (quantity !== undefined) count(`The quantity of bar ${id}`, quantity);
    else if (remnant) throw new RangeError(`Remnant ${id} has no quantity; a whole number is wanted.`);
    if (price !== undefined && !(Number.isFinite(price) && price >= (remnant ? 0 : 1e-4) && price <= 1e9)) {
      throw new RangeError(`The price of bar ${id} is ${price}; an amount above 0 is wanted.`);
    }
  }
  const twice = stock.find(({ id }, k) => stock.findIndex((other) => other.id === id) < k);
  if (twice) throw new RangeError(`Two bars are called ${twice.id}; each wants a name of its own.`);
  const fresh = stock.filter(({ remnant }) => !remnant);
  const bare = fresh.find(({ price }) => price === undefined);
  if (bare && fresh.some(({ price }) => price !== undefined)) {
    throw new RangeError(
      `Bar ${bare.id} has no price, others have one; all new bars have a price or none has.`,
    );
  }
}

/** No bar is as long as this, mm. */
const LONGEST = 1e6;

function length(name: string, mm: number): void {
  if (Number.isFinite(mm) && mm >= 0 && mm <= LONGEST) return;
  throw new RangeError(`${name} is ${mm}; a length of 0 mm or more is wanted, ${LONGEST} at the most.`);
}

function lengthAboveZero(name: string, mm: number): void {
  if (Number.isFinite(mm) && mm >= 1e-3 && mm <= LONGEST) return;
  throw new RangeError(`${name} is ${mm}; a length above 0 mm is wanted, ${LONGEST} at the most.`);
}

function count(name: string, number: number): void {
  if (Number.isInteger(number) && number >= 0 && number <= 1e6) return;
  throw new RangeError(`${name} is ${number}; a whole number from 0 to 1000000 is wanted.`);
}
