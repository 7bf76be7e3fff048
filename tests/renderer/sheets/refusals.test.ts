import { expect, test } from "vitest";
import { asRead, wordsFor } from "../../../renderer/parts/refusal.ts";

test("lengths in a sentence are told in the style chosen, limits on the safe side", () => {
  // 25.4 mm to the inch: 300 mm is 11.811", which is 11 13/16" to the nearest, 11 3/4" where it is the most.
  expect(asRead("it is 300 mm; at most 300 mm would work.", "in")).toBe(
    `it is 11 13/16"; at most 11 3/4" would work.`,
  );
  // 100 mm is 3.937": 3 15/16" is too much by no hair, it lies at 100.0125 mm, and so is what at least 100 mm comes to.
  expect(asRead("It is 508 × 1016 mm, larger than a sheet of 2540 × 1270 mm", "in")).toBe(
    `It is 20" × 40", larger than a sheet of 100" × 50"`,
  );
  expect(asRead("butt joints at 254, 508 and 762 mm on ply 2", "in")).toBe(
    `butt joints at 10", 20" and 30" on ply 2`,
  );
  expect(asRead("at least 100 mm", "in")).toBe(`at least 3 15/16"`);
  expect(asRead("at least 99 mm", "in")).toBe(`at least 3 15/16"`);
  expect(asRead("from 3000 mm to 15000 mm", "m")).toBe("from 3.000 m to 15.000 m");
  expect(asRead("a fall of 30 mm/m and 5 mm² stay", "m")).toBe("a fall of 30 mm/m and 5 mm² stay");
  expect(asRead("it is 300 mm", "mm")).toBe("it is 300 mm");
  expect(wordsFor({ why: "It is 50 mm.", wouldWork: "at least 100 mm" }, "m")).toBe(
    "It is 0.050 m; at least 0.100 m would work.",
  );
});

test("a part of a run is told as its field shows it", () => {
  expect(asRead("a part of at least 0.93 would work", "mm")).toBe("a part of at least 93 % would work");
  expect(asRead("a start at a part of at most 0.125", "in")).toBe("a start at a part of at most 12.5 %");
});

test.each([
  [
    "This shell has no transition floor|steps/riser-3. Did you mean floor|steps/riser-2?",
    "This shell has no transition “floor to steps, riser 3”. Did you mean “floor to steps, riser 2”?",
  ],
  ["There are wall|steps/riser-2#2, foot.", "There are “wall to steps, riser 2, place 2”, foot."],
  [
    "rib 4 is left out: it would stand too near to light-1 (220 × 220 mm)",
    "rib 4 is left out: it would stand too near to light 1 (220 × 220 mm)",
  ],
  ["steps/tread-3 is not to be seen on this shell.", "steps, tread 3 is not to be seen on this shell."],
  [
    "Woven roving 600 g/m², a well-known and/or old hand, 12-50 mm",
    "Woven roving 600 g/m², a well-known and/or old hand, 12-50 mm",
  ],
])("ids are told as people say them: %s", (sentence, said) => {
  expect(asRead(sentence, "mm")).toBe(said);
});
