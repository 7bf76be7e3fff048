import { test } from "vitest";
import { checkLimitedStock, checkStopped, checkTwoLengths } from "../bars/small-cases.ts";
import { seedCount } from "../house/seeds.ts";

/** The small cases of cutting bars against the exhaustive search, many more of them; fast-check prints what fails. */
const runs = seedCount(5000);

test("two lengths of bar with kerf and end trim", () => checkTwoLengths(105, runs));
test("limited stock, prices and remnants", () => checkLimitedStock(106, runs));
test("stopped before the end", () => checkStopped(107, runs));
