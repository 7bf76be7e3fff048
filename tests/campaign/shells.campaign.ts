import { expect, test } from "vitest";
import { seedsOf } from "../house/seeds.ts";
import { checkRandomShells } from "../shell/check-random.ts";

test("1,000 random shells are whole and smooth; few are refused, each with a reason", {
  timeout: 3_600_000,
}, () => {
  const seeds = seedsOf(1000);
  const count = seeds.length;
  const started = performance.now();
  const { faults, refused } = checkRandomShells(seeds);
  console.info(
    `${count} random shells from seed ${seeds[0]} on: ${faults.length} faults, ${refused.length} refused (${((100 * refused.length) / count).toFixed(1)} %), ` +
      `${((performance.now() - started) / 1000).toFixed(0)} s`,
  );
  for (const line of [...faults, ...refused]) console.info(line);
  expect(faults).toEqual([]);
  expect(refused.length / count).toBeLessThan(0.05);
});
