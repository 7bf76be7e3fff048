import { expect, it } from "vitest";
import { seedsOf } from "../house/seeds.ts";
import { changeAndLay, type Outcome } from "../layup/changed-shells.ts";

const seeds = seedsOf(300);

it(`keeps every zone on ${seeds.length} changed shells`, () => {
  const refused: string[] = [];
  const failed: string[] = [];
  let laid = 0;
  let adrift = 0;
  for (const seed of seeds) {
    let outcome: Outcome;
    try {
      outcome = changeAndLay(seed);
    } catch (error) {
      failed.push(`seed ${seed}: ${error instanceof Error ? error.stack : error}`);
      continue;
    }
    if (outcome.kind === "refused") {
      refused.push(`seed ${seed} (${outcome.demo}) refused: ${outcome.why}`);
      continue;
    }
    laid += outcome.laid;
    adrift += outcome.adrift;
    if (outcome.faults.length > 0) {
      failed.push(`seed ${seed} (${outcome.demo}): ${outcome.faults.join("; ")}`);
      console.log(failed[failed.length - 1]);
    }
    if (seed % 20 === 0)
      console.log(`${seed} of ${seeds[0]} to ${seeds.at(-1)}: ${laid} zones laid, ${adrift} adrift`);
  }
  console.log(
    `${refused.length} of ${seeds.length} changed shells refused; ${laid} zones laid, ${adrift} adrift`,
  );
  for (const line of refused) console.log(line);
  expect(failed).toEqual([]);
  expect(refused.length).toBeLessThan(0.5 * seeds.length);
  expect(laid).toBeGreaterThan(4 * adrift);
});
