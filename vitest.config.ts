import { defineConfig } from "vitest/config";

/**
 * `vitest run` takes the tests; `vitest run --mode campaign` (`npm run campaign`) takes tests/campaign instead, the
 * long random runs whose number of seeds RIBBAND_SEEDS sets.
 */
export default defineConfig(({ mode }) => {
  const campaign = mode === "campaign";
  return {
    test: {
      include: campaign ? ["tests/campaign/**/*.campaign.ts"] : ["tests/**/*.test.ts"],
      testTimeout: campaign ? 3_600_000 : 30_000,
      hookTimeout: campaign ? 3_600_000 : 60_000,
    },
  };
});
