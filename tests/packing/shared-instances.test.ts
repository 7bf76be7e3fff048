import { describe, expect, test } from "vitest";
import { packMarker } from "../../core/packing/pack-marker.ts";
import { allSound } from "../bench/instance-file.ts";
import { type Instance, orderOf, totalArea } from "./instances.ts";
import { provedLength } from "./prove.ts";
import { race } from "./race.ts";
import { readInstances } from "./read-instances.ts";
import { dataFolder, readData, whyNoData } from "./shared-data.ts";

/** Packs with so many steps, by work and not by the clock, and gives the length of strip, proved. */
function lengthAfter(instance: Instance, steps: number): number {
  const packed = packMarker(orderOf(instance, 1), { until: (count) => count >= steps });
  if (!packed.ok) throw new Error(packed.why);
  return provedLength(instance, packed.plan);
}

function named(file: string, name: string): Instance {
  const found = allSound(readInstances(readData(file), name)).find((each) => each.name === name);
  if (!found) throw new Error(`${name} is not in ${file}`);
  return found;
}

/** Short runs with lower gates; `npm run campaign` runs all of them at full length. Each layout is proved free of overlap. */
describe.skipIf(dataFolder === null)(
  `shared instances${dataFolder ? "" : ` (skipped: ${whyNoData})`}`,
  () => {
    // Best known: the records of Gardeyn, Vanden Berghe, Wauters, arXiv:2509.13329. Full gate: 90 % after 60 s.
    test.each([
      ["fu", 1500, 90],
      ["dagli", 500, 85],
    ])("%s: after %i steps %i hundredths of the best known density", (name, steps, least) => {
      const instance = named(`irregular/${name}.json`, name);
      const { instances } = JSON.parse(readData("best_known.json"));
      const best = instances.find((each: { name: string }) => each.name === name);
      expect(totalArea(instance)).toBeCloseTo(best.total_area, 6);
      expect((100 * best.best_length) / lengthAfter(instance, steps)).toBeGreaterThanOrEqual(least);
    });

    // Optima by construction: Hopper and Turton, EJOR 128 (2001). Full gate: 5 % after 10 s.
    test.each([
      ["C1P1", 20],
      ["C2P2", 15],
      ["C4P2", 60],
    ])("%s: after 300 steps within a twentieth of the optimum", (name, optimum) => {
      const length = lengthAfter(named("rect/hopper_turton_c1_c5.json", name), 300);
      expect(length).toBeGreaterThanOrEqual(optimum);
      expect(length).toBeLessThanOrEqual(1.05 * optimum);
    });

    test("a race of two threads ends as soon as no waste is left", async () => {
      const found = await race(named("rect/hopper_turton_c1_c5.json", "C1P1"), 20);
      expect([found.length, found.density]).toEqual([20, 1]);
      expect(found.seconds).toBeLessThan(20);
    });
  },
);
