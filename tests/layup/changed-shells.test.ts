import { expect, it } from "vitest";
import { seedCount } from "../house/seeds.ts";
import { changeAndLay } from "./changed-shells.ts";

const seeds = seedCount(4);
/** The campaign begins at 1. */
const first = 9;
/** Seeds that failed once: 6 gave a band a thousand times the area of its shell, where the edge of a step crossed itself. */
const KEPT = [6];

it(`keeps every zone on ${seeds} changed shells: laid with sound figures, or adrift with a reason`, () => {
  let laid = 0;
  let adrift = 0;
  for (const seed of [...KEPT, ...Array.from({ length: seeds }, (_, i) => first + i)]) {
    const outcome = changeAndLay(seed);
    if (outcome.kind === "refused") continue;
    expect(outcome.faults, `seed ${seed} (${outcome.demo})`).toEqual([]);
    laid += outcome.laid;
    adrift += outcome.adrift;
  }
  // Most of a lay-up survives such changes: names and proportions hold.
  expect(laid).toBeGreaterThan(4 * adrift);
  expect(laid).toBeGreaterThan(0);
}, 120_000);
