import { expect, test } from "vitest";
import { seedsOf } from "../house/seeds.ts";
import { checkRandomShells, poorFullMeshes } from "../shell/check-random.ts";

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

test("full meshes of 300 random shells have no needle and keep their gap", { timeout: 3_600_000 }, () => {
  const seeds = seedsOf(300);
  const poor = poorFullMeshes(seeds);
  console.info(`${seeds.length} full meshes from seed ${seeds[0]} on: ${poor.length} poor`);
  for (const line of poor) console.info(line);
  expect(poor).toEqual([]);
});
