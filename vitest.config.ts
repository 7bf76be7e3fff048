import { defineConfig } from "vitest/config";

/**
 * `vitest run` takes the tests, those of the window in a browser last and one file at a time, since a browser that draws
 * without a graphics card fills both cores. Files of one worker share its modules, so that the kernel is read and made quick by
 * the engine once and not for every file: tests must not change what modules keep. `vitest run --mode campaign` (`npm run campaign`) takes tests/campaign
 * instead, the long random runs whose number of seeds RIBBAND_SEEDS sets.
 */
export default defineConfig(({ mode }) => {
  if (mode === "campaign") {
    const long = { testTimeout: 3_600_000, hookTimeout: 3_600_000 };
    return { test: { include: ["tests/campaign/**/*.campaign.ts"], ...long } };
  }
  const ways = { testTimeout: 30_000, hookTimeout: 60_000, isolate: false };
  return {
    test: {
      projects: [
        {
          test: {
            name: "parts",
            include: ["tests/**/*.test.ts"],
            exclude: ["tests/e2e/**"],
            maxWorkers: 2,
            sequence: { groupOrder: 0 },
            ...ways,
          },
        },
        {
          test: {
            name: "window",
            include: ["tests/e2e/**/*.test.ts"],
            maxWorkers: 1,
            sequence: { groupOrder: 1 },
            ...ways,
          },
        },
      ],
    },
  };
});
