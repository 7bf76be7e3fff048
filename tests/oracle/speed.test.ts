import { beforeAll, describe, expect, it } from "vitest";
import { printLine } from "../published/figures.ts";
import { loadBrep } from "./brep.ts";
import { withFeatures } from "./layouts.ts";
import { stagesOf, type TimedStage } from "./timed.ts";

const SLOW = 120_000;
beforeAll(loadBrep, SLOW);

/** Least processor time of a stage over some runs, ms: what else the machine does is left out. */
function least({ run }: TimedStage, runs: number): number {
  let best = Infinity;
  for (let i = 0; i < runs; i++) {
    const before = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(before);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

describe("each stage takes at most a third of the time of building and meshing the solid", () => {
  it(
    "on a kidney with three steps and a ledge",
    () => {
      const { ours, solid } = stagesOf(withFeatures[1][1]);
      const here = ours.map((stage) => ({ name: stage.name, ms: least(stage, 4) }));
      const there = solid.reduce((sum, stage) => sum + least(stage, 2), 0);
      for (const { name, ms } of here) {
        const times = there / ms;
        printLine(
          `${name}: ${ms.toFixed(0)} ms, the solid ${there.toFixed(0)} ms: ${times.toFixed(1)} times`,
        );
        expect(times).toBeGreaterThan(3);
      }
    },
    SLOW,
  );
});
