/**
 * Our stages beside the other kernel's on the same shells, in one run: building, a full mesh and measuring here; building as
 * a solid and meshing to the same gap between chord and surface there. Loading the other kernel is not counted. When
 * all are timed, the ratios are told on the terminal's error stream, so that `--json` stays clean.
 */
import type { ShellSpec } from "../../core/project/schema.ts";
import { loadBrep } from "../oracle/brep.ts";
import { plain, withFeatures } from "../oracle/layouts.ts";
import { stagesOf, type TimedStage } from "../oracle/timed.ts";
import type { Row, Stage } from "./stage.ts";

const shells: readonly (readonly [string, ShellSpec])[] = [
  ["sloped rectangle", plain[0][1]],
  ["rectangle, steps", withFeatures[0][1]],
  ["kidney, steps", withFeatures[1][1]],
];

const medians = new Map<string, number>();
const ratios: (() => string)[] = [];

const medianOf = (name: string): number => medians.get(name) ?? Number.NaN;

function stagesFor(label: string, spec: ShellSpec): Stage[] {
  const { ours, solid } = stagesOf(spec);
  const named = (who: string, stages: readonly TimedStage[]) =>
    stages.map(({ name, run }) => ({
      name: `oracle: ${label}: ${who} ${name}`,
      prepare: loadBrep,
      run,
      timed: (row: Row) => void medians.set(row.name, row.medianMs),
    }));
  const here = named("our", ours);
  const there = named("solid", solid);
  ratios.push(() => {
    const whole = there.reduce((sum, { name }) => sum + medianOf(name), 0);
    const each = here.map(({ name }, i) => `${ours[i].name} ${(whole / medianOf(name)).toFixed(1)}`);
    return `${label}: the solid's build and mesh take ${each.join(", ")} times as long (wanted: 3)`;
  });
  return [...here, ...there];
}

export const stages: Stage[] = shells.flatMap(([label, spec]) => stagesFor(label, spec));

process.once("beforeExit", () => {
  if (medians.size > 0) for (const ratio of ratios) console.error(ratio());
});
