import { describe, expect, test } from "vitest";
import { allSound } from "../bench/instance-file.ts";
import { race } from "../packing/race.ts";
import { readInstances } from "../packing/read-instances.ts";
import { dataFolder, irregular, readData, whyNoData } from "../packing/shared-data.ts";

/** The gates at full length; about eight minutes on two cores. Every layout is proved free of overlap before it counts. */
describe.skipIf(dataFolder === null)(`packing${dataFolder ? "" : ` (skipped: ${whyNoData})`}`, () => {
  // Best known lengths: the records of Gardeyn, Vanden Berghe, Wauters, arXiv:2509.13329, in the shared data.
  test.each(irregular)(
    "%s: nine tenths of the best known density within 60 s on two threads",
    async (name) => {
      const [instance] = allSound(readInstances(readData(`irregular/${name}.json`), name));
      const { instances } = JSON.parse(readData("best_known.json"));
      const best = instances.find((each: { name: string }) => each.name === name);
      const found = await race(instance, 60);
      const part = (100 * found.density) / (best.density_pct / 100);
      console.log(
        `${name}: length ${found.length.toFixed(4)}, density ${(100 * found.density).toFixed(2)} %, ${part.toFixed(2)} % of ` +
          `the best known, after ${found.bestAfter.toFixed(1)} s`,
      );
      expect(part).toBeGreaterThanOrEqual(90);
    },
  );

  const jigsaws =
    dataFolder === null ? [] : allSound(readInstances(readData("irregular/dighe_jigsaw.json"), "jigsaw"));
  test.each(jigsaws)("$name: a jigsaw without waste; how near we come is reported", async (instance) => {
    const found = await race(instance, 60);
    console.log(
      `${instance.name}: length ${found.length.toFixed(4)}, density ${(100 * found.density).toFixed(2)} %`,
    );
    expect(found.density).toBeLessThanOrEqual(1);
  });

  const file = dataFolder === null ? null : readData("rect/hopper_turton_c1_c5.json");
  const optima =
    file === null ? [] : (JSON.parse(file).instances as { name: string; optimal_height: number }[]);
  // Optima by construction: Hopper and Turton, EJOR 128 (2001), Table 1 of the data's own paper.
  test.each(optima)(
    "$name: within a twentieth of the optimum within 10 s",
    async ({ name, optimal_height }) => {
      const instance = allSound(readInstances(file ?? "", name)).find((each) => each.name === name);
      if (!instance) throw new Error(`${name} is not in its file`);
      const found = await race(instance, 10);
      console.log(
        `${name}: length ${found.length}, optimum ${optimal_height}, after ${found.bestAfter.toFixed(1)} s`,
      );
      expect(found.length).toBeLessThanOrEqual(1.05 * optimal_height);
    },
  );
});
