import { z } from "zod";
import type { BarDemand } from "../../core/cutting/bars/bar-plan.ts";
import { type Entry, fitted, OddInstance, readEach } from "../bench/instance-file.ts";
import { wholeNumbers } from "../bench/whole-numbers.ts";

/** A one-dimensional instance of the shared format. Lengths are a power of ten times those of the file, for the saw's thousandths of a mm. */
export interface BarInstance {
  readonly name: string;
  readonly capacity: number;
  readonly demands: readonly BarDemand[];
  /** The least number of bars, where the file tells it. */
  readonly optimum: number | undefined;
}

/** The saw's plan counts thousandths of a mm, and so many of them. */
const PER_MM = 1000;
const MOST_PARTS = 1e9;
const MOST_PIECES = 1e6;
const aLength = "a number above 0";
const aDemand = `a whole number from 0 to ${MOST_PIECES}`;
const someItems = "a list of lengths, or of objects with length and demand, one or more,";
const length = z.number(aLength).positive(aLength);
const demand = z.int(aDemand).min(0, aDemand).max(MOST_PIECES, aDemand);
const oneInstance = z.object(
  {
    capacity: length,
    items: z
      .array(
        z.union(
          [length, z.object({ length, demand: demand.default(1) })],
          "a length above 0, by itself or in an object with length and demand,",
        ),
        someItems,
      )
      .min(1, someItems),
    optimum: z.int("a whole number").optional(),
  },
  "an object with capacity and items",
);

/**
 * Reads a file of the shared format: one instance, or a list of them; items are lengths, or lengths with a demand. `name` is for those
 * without a name.
 */
export function readBarInstances(text: string, name: string): Entry<BarInstance>[] {
  return readEach(text, name, (value, path, name) => {
    const { capacity, items, optimum } = fitted(oneInstance, value, path);
    const wanted = items.map((item) => (typeof item === "number" ? { length: item, demand: 1 } : item));
    const odd = (fault: string, right: string, ...at: PropertyKey[]) =>
      new OddInstance([...path, ...at], fault, right);
    const tooLong = wanted.findIndex((item) => item.demand > 0 && item.length > capacity);
    if (tooLong >= 0)
      throw odd(
        `is ${wanted[tooLong].length} long, longer than the bar`,
        `${capacity} at the most`,
        "items",
        tooLong,
      );
    if (wanted.every((item) => item.demand === 0))
      throw odd("asks for nothing, every demand being 0", "a demand of one", "items");
    const whole = wholeNumbers([capacity, ...wanted.map((item) => item.length)], MOST_PARTS)?.whole;
    if (!whole)
      throw odd(
        "has lengths of too many digits",
        "nine digits from the bar's first to the last decimal",
        "items",
      );
    const [bar, ...lengths] = whole.map((parts) => parts / PER_MM);
    const demands = lengths.map(
      (lengthMm, i): BarDemand => ({ id: `item-${i}`, lengthMm, quantity: wanted[i].demand }),
    );
    return { name, capacity: bar, demands, optimum };
  });
}
