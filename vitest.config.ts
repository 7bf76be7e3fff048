import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/**
 * What comes first: each file of the window, which waits for half of its time, with long ones of the other tests that take about as long as
 * it, so that the other worker is seldom in a browser as well. All that is short comes after them, and no worker waits long for the other.
 */
const FIRST = [
  ["e2e/story", "oracle/brep", "shell/random-shells"],
  ["e2e/rooms", "cutting/demos", "cutting/random-bands"],
  ["e2e/access", "published/basins", "renderer/host/browser-host"],
  ["e2e/lay-up", "cli/commands", "cli/bad-input"],
  ["e2e/start", "cli/crew", "packing/pack-marker"],
  ["e2e/window", "renderer/jobs", "house/bench"],
  ["e2e/told", "layup/house-rules", "oracle/lid"],
  ["e2e/tape", "shell/torn-places", "cli/first-ctrl-c"],
  ["e2e/sheets", "mesh/mesh-surface", "cutting/band-pieces"],
  ["e2e/desktop", "electron/kill"],
].flat();

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const placeOf = ({ moduleId }: TestSpecification) => {
      const place = FIRST.findIndex((name) => moduleId.endsWith(`/tests/${name}.test.ts`));
      return place < 0 ? FIRST.length : place;
    };
    return (await super.sort(files)).sort((a, b) => placeOf(a) - placeOf(b));
  }
}

/**
 * `vitest run` takes the tests, two files at a time. Files of one worker share its modules, so that the kernel is read and made quick by
 * the engine once and not for every file: tests must not change what modules keep. `vitest run --mode campaign` (`npm run campaign`) takes tests/campaign
 * instead, the long random runs whose number of seeds RIBBAND_SEEDS sets.
 */
export default defineConfig(({ mode }) => {
  if (mode === "campaign") {
    const long = { testTimeout: 3_600_000, hookTimeout: 3_600_000 };
    return { test: { include: ["tests/campaign/**/*.campaign.ts"], ...long } };
  }
  return {
    test: {
      include: ["tests/**/*.test.ts"],
      maxWorkers: 2,
      isolate: false,
      testTimeout: 60_000,
      hookTimeout: 60_000,
      sequence: { sequencer: LongFirst },
    },
  };
});
