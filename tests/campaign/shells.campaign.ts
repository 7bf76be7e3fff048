import { expect, test } from "vitest";
import { seedCount } from "../house/seeds.ts";
import { checkRandomShells } from "../shell/check-random.ts";

test("1,000 random shells are whole and smooth; few are refused, each with a reason", {
  timeout: 3_600_000,
}, () => {
  const count = seedCount(1000);
  const started = performance.now();
  const { faults, refused } = checkRandomShells(Array.from({ length: count }, (_, i) => i + 1));
  console.info(
    `${count} random shells: ${faults.length} faults, ${refused.length} refused (${((100 * refused.length) / count).toFixed(1)} %), ` +
      `${((performance.now() - started) / 1000).toFixed(0)} s`,
  );
  for (const line of [...faults, ...refused]) console.info(line);
  expect(faults).toEqual([]);
  expect(refused.length / count).toBeLessThan(0.05);
});
