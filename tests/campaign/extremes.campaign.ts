import { expect, test } from "vitest";
import { shell as schema } from "../../core/project/shell-schema.ts";
import { seedsOf } from "../house/seeds.ts";
import kept from "../regressions/extreme-seeds.json" with { type: "json" };
import { checkRandomShells } from "../shell/check-random.ts";
import { extremeShell } from "../shell/extreme-shell.ts";
import { wrongOffers } from "../shell/offered-figures.ts";

/** A designer waits no longer than this for a shell to be built, meshed and checked, s of one core; told, since it hangs on the machine. */
const SLOW = 10;

test("shells at the ends of what the project takes are whole and smooth, or refused with a reason", {
  timeout: 7_200_000,
}, () => {
  const seeds = seedsOf(300);
  const open = new Set<number>(kept.open);
  const faults: string[] = [];
  let refused = 0;
  let invalid = 0;
  for (const seed of seeds) {
    // A cut that leaves no leg of an L, say: told by the project file's own check.
    if (!schema.safeParse(extremeShell(seed)).success) {
      invalid++;
      continue;
    }
    const began = process.cpuUsage();
    const verdict = checkRandomShells([seed], extremeShell);
    const seconds = process.cpuUsage(began).user / 1e6;
    if (seconds > SLOW) console.info(`seed ${seed} took ${seconds.toFixed(0)} s`);
    refused += verdict.refused.length;
    for (const fault of verdict.faults) console.info(open.has(seed) ? `open: ${fault}` : fault);
    if (open.has(seed)) {
      if (seconds <= SLOW)
        expect(
          verdict.faults,
          `seed ${seed} is sound now: move it to "sound" in extreme-seeds.json`,
        ).not.toEqual([]);
    } else faults.push(...verdict.faults);
  }
  console.info(
    `${seeds.length} extreme shells: ${faults.length} faults, ${refused} refused, ${invalid} no valid project, ${open.size} known to fail`,
  );
  expect(faults).toEqual([]);
});

test("what refusals of such shells offer is not refused again", { timeout: 3_600_000 }, () => {
  const shells = seedsOf(300)
    .map(extremeShell)
    .filter((spec) => schema.safeParse(spec).success);
  expect(shells.flatMap((spec) => wrongOffers(spec).wrong)).toEqual([]);
});
