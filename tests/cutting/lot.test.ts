import { expect, test } from "vitest";
import { cutKit } from "../../core/cutting/cut-kit.ts";
import { kitForLot } from "../../core/cutting/lot.ts";
import { makeKit } from "../../core/cutting/make-kit.ts";
import { demoProject } from "../project/demo-files.ts";

test("a kit for another lot is the kit that is cut for that lot", { timeout: 120_000 }, () => {
  const project = demoProject("dunlin-4");
  const made = makeKit(project, 1);
  if (!made.ok) throw new Error("The demo cannot be built.");
  expect(kitForLot(project, made.kit, 1)).toEqual(made.kit);
  const six = kitForLot(project, made.kit, 6);
  expect(six).toEqual(cutKit(project, made.layup, 6));
  expect(kitForLot(project, six, 1)).toEqual(made.kit);
});

test.each([0, 1.5, -2, Number.NaN])("a lot of %s shells is refused", (shells) => {
  const none = { shells: 1, pieces: [], strips: [], sheets: [], totals: [], doubts: [] };
  expect(() => kitForLot(demoProject("dunlin-4"), none, shells)).toThrow("a whole number of 1 or more");
});
