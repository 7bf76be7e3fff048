import { expect, test } from "vitest";
import { seedCount } from "../house/seeds.ts";
import keptExtremes from "../regressions/extreme-seeds.json" with { type: "json" };
import kept from "../regressions/shell-seeds.json" with { type: "json" };
import { checkRandomShells, poorFullMeshes } from "./check-random.ts";
import { extremeShell } from "./extreme-shell.ts";

/** Shells that are known to fail still: told at every run, and looked at again here, not left out. */
const open = new Set<number>(kept.open);

const count = seedCount(12);

test("random shells have no tear, no kink, no hole, and throw nothing", { timeout: 120_000 }, () => {
  const seeds = Array.from({ length: count }, (_, i) => i + 1).filter((seed) => !open.has(seed));
  expect(checkRandomShells(seeds).faults).toEqual([]);
});

test("shells that once failed stay sound, those beyond the first ones", { timeout: 120_000 }, () => {
  expect(checkRandomShells(kept.sound.filter((seed) => seed > count)).faults).toEqual([]);
});

/** Their copings turn a plan corner where a cell's edge runs through from wall to lip: taken for a ridge, they were full of needles. */
const TURNING_COPINGS = [12, 61, 95];

/** Between the ends of an edge, where many faces meet, the surface goes out and in again: by 1.7 mm, that no normal told. */
const HIDDEN_BUMPS = [174, 256];
/** Vertices wrongly taken for flat are seated last of all: what was split round them was left as it came. */
const SEATED_LAST = [306];

test("full meshes of random shells have no needle and keep their gap", { timeout: 120_000 }, () => {
  // The first ones are the campaign's.
  expect(poorFullMeshes([...TURNING_COPINGS, ...HIDDEN_BUMPS, ...SEATED_LAST])).toEqual([]);
});

test("extreme shells that once failed stay sound, or refused", { timeout: 120_000 }, () => {
  expect(checkRandomShells(keptExtremes.sound, extremeShell).faults).toEqual([]);
});

test.each<number>(kept.open)(
  "shell %s still fails, and is told; once mended it moves to the sound ones",
  { timeout: 120_000 },
  (seed) => {
    const { faults } = checkRandomShells([seed]);
    // biome-ignore lint/suspicious/noConsole: what is still wrong is part of the run's account
    console.info(`open: ${faults.join("; ")}`);
    expect(faults, `seed ${seed} is sound now: move it to "sound" in shell-seeds.json`).not.toEqual([]);
  },
);
