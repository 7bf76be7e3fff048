import { expect, test } from "vitest";
import { seedCount } from "../house/seeds.ts";
import { killWhileSaving } from "./kill-while-saving.ts";

/** `npm run campaign` kills a hundred times. */
test("a kill while saving leaves the old file or the new one, and the work is offered again", async () => {
  const { faults } = await killWhileSaving(seedCount(12));
  expect(faults).toEqual([]);
});
