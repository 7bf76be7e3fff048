import { expect, test } from "vitest";
import { cutKit } from "../../core/cutting/cut-kit.ts";
import { kitForLot } from "../../core/cutting/lot.ts";
import { demoProject } from "../project/demo-files.ts";
import { demoKit } from "./demo-kits.ts";

test("a kit for another lot is the kit that is cut for that lot", { timeout: 120_000 }, () => {
  const { project, layup, kit } = demoKit("dunlin-4");
  expect(kitForLot(project, kit, 1)).toEqual(kit);
  const six = kitForLot(project, kit, 6);
  expect(six).toEqual(cutKit(project, layup, 6));
  expect(kitForLot(project, six, 1)).toEqual(kit);
});

test.each([0, 1.5, -2, Number.NaN])("a lot of %s shells is refused", (shells) => {
  const none = { shells: 1, pieces: [], strips: [], sheets: [], totals: [], doubts: [] };
  expect(() => kitForLot(demoProject("dunlin-4"), none, shells)).toThrow("a whole number of 1 or more");
});
