/**
 * One-dimensional cutting against instances with known optima: Falkenauer's u250 (E. Falkenauer, "A hybrid grouping genetic
 * algorithm for bin packing", J. of Heuristics 2 (1996) 5-30) and Scholl's set 1 (A. Scholl, R. Klein, C. Jürgens, "BISON",
 * Computers & Operations Research 24 (1997) 627-645), from the ESICUP data sets (CC0). The optima in the files were proved
 * there by an exact arc-flow model; the number of bars must be that, and the bound must prove it.
 */
import { describe, expect, test } from "vitest";
import { cutBars } from "../../core/cutting/bars/cut-bars.ts";
import { checkPlan } from "../bars/check-plan.ts";
import { readBarInstances } from "../bars/instances.ts";
import { allSound } from "../bench/instance-file.ts";
import { dataFolder, readData, whyNoData } from "../packing/shared-data.ts";

const bare = { kerfMm: 0, endTrimMm: 0, keepFromMm: 0 };

describe.each(["falkenauer_u250", "scholl1_subset", "cutting_stock_5600"])("%s", (name) => {
  if (dataFolder === null) {
    test(`not run: ${whyNoData}`, () => {});
    return;
  }
  const instances = allSound(readBarInstances(readData(`1d/${name}.json`), name));
  test.each(instances)("$name", ({ capacity, demands, optimum }) => {
    const stock = [{ id: "bar", lengthMm: capacity }];
    const plan = cutBars(demands, stock, bare);
    checkPlan(plan, demands, stock, bare);
    expect(optimum).toBeGreaterThan(0);
    expect([plan.cost, plan.bound]).toEqual([optimum, optimum]);
  });
});
