import { expect, test } from "vitest";
import { inLengths, wordsFor } from "../../../renderer/parts/refusal.ts";

test("lengths in a sentence are told in the style chosen, limits on the safe side", () => {
  // 25.4 mm to the inch: 300 mm is 11.811", which is 11 13/16" to the nearest, 11 3/4" where it is the most.
  expect(inLengths("it is 300 mm; at most 300 mm would work.", "in")).toBe(
    `it is 11 13/16"; at most 11 3/4" would work.`,
  );
  // 100 mm is 3.937": 3 15/16" is too much by no hair, it lies at 100.0125 mm, and so is what at least 100 mm comes to.
  expect(inLengths("at least 100 mm", "in")).toBe(`at least 3 15/16"`);
  expect(inLengths("at least 99 mm", "in")).toBe(`at least 3 15/16"`);
  expect(inLengths("from 3000 mm to 15000 mm", "m")).toBe("from 3.000 m to 15.000 m");
  expect(inLengths("a fall of 30 mm/m and 5 mm² stay", "m")).toBe("a fall of 30 mm/m and 5 mm² stay");
  expect(inLengths("it is 300 mm", "mm")).toBe("it is 300 mm");
  expect(wordsFor({ why: "It is 50 mm.", wouldWork: "at least 100 mm" }, "m")).toBe(
    "It is 0.050 m; at least 0.100 m would work.",
  );
});
