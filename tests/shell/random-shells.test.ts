import { expect, test } from "vitest";
import { seedCount } from "../house/seeds.ts";
import kept from "../regressions/shell-seeds.json" with { type: "json" };
import { checkRandomShells } from "./check-random.ts";

test("random shells have no tear, no kink, no hole, and throw nothing", { timeout: 120_000 }, () => {
  const { faults } = checkRandomShells(Array.from({ length: seedCount(12) }, (_, i) => i + 1));
  expect(faults).toEqual([]);
});

test("shells that once failed stay sound", { timeout: 120_000 }, () => {
  expect(checkRandomShells(kept).faults).toEqual([]);
});
