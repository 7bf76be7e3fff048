import { expect, test } from "vitest";
import { killWhileSaving } from "../electron/kill-while-saving.ts";
import { seedCount } from "../house/seeds.ts";

test("100 kills while saving and autosaving: nothing is torn, nothing is lost", async () => {
  const times = seedCount(100);
  const { faults, midSave, midAutosave, offered } = await killWhileSaving(times);
  console.info(
    `${times} kills: ${faults.length} faults; ${midSave} in the middle of a save, ${midAutosave} of an autosave; ` +
      `work was offered ${offered} times, and was in the file already otherwise`,
  );
  for (const fault of faults) console.info(fault);
  expect(faults).toEqual([]);
  // Otherwise the kills missed what they were aimed at.
  expect(midSave + midAutosave).toBeGreaterThan(0);
});
