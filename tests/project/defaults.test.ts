import { describe, expect, it } from "vitest";
import {
  defaultProject,
  startingMaterials,
  startingRules,
  startingShop,
} from "../../core/project/defaults.ts";
import { checkProject } from "../../core/project/parse.ts";
import { buildShell } from "../../core/shell/build-shell.ts";

describe("a new project", () => {
  it("is valid, builds as it is, and has nothing laid on it yet", () => {
    const project = defaultProject();
    expect(checkProject(project)).toEqual({ ok: true, project, migrated: [] });
    const built = buildShell(project.shell);
    expect(built.ok && built.shell.adjustments).toEqual([]);
    expect(project.layup).toEqual([]);
  });

  it("starts from the shop's usual materials, figures and rules, and shares none of them", () => {
    const project = defaultProject();
    expect(project).toMatchObject({ materials: startingMaterials, shop: startingShop, rules: startingRules });
    project.shop.lap = 60;
    project.materials[0].name = "ours";
    expect(defaultProject()).toMatchObject({ materials: startingMaterials, shop: startingShop });
    expect(startingShop.lap).toBe(50);
  });

  it("keeps to the ranges of common practice", () => {
    expect(startingShop.laidThickness).toBeGreaterThanOrEqual(4);
    expect(startingShop.laidThickness).toBeLessThanOrEqual(9);
    expect(startingRules.footBand.reach).toBeGreaterThanOrEqual(150);
    expect(startingRules.stepBand.reach).toBeGreaterThanOrEqual(100);
    expect(startingShop.jointStagger).toBeGreaterThanOrEqual(150);
  });
});
