import { expect, test } from "vitest";
import { nameInSize } from "../../renderer/places/drawing-office/another-size/size-name.ts";
import { newDoubts, type Trial } from "../../renderer/places/drawing-office/another-size/size-trial.ts";

test.each([
  ["Whimbrel 9", 7900, "Whimbrel 7.9"],
  ["Whimbrel 9.1 m", 8000, "Whimbrel 8"],
  ["New shell", 6550, "New shell 6.6"],
  ["9", 8000, "9 8"],
])("%s in %d mm is called %s", (name, length, wanted) => {
  expect(nameInSize(name, length)).toBe(wanted);
});

test("only what a zone was not doubted for before is new to look at, whatever its figures", () => {
  const trial: Trial = {
    refusals: [],
    adrift: [],
    adjustments: [],
    laid: [
      { id: "foot", doubts: ["it is cut to 40 mm on one side", "it covers light (220 × 220 mm)"] },
      { id: "ribs", doubts: ["rib 2 is left out: the end of steps"] },
    ],
  };
  const before = [{ id: "foot", doubts: ["it is cut to 55 mm on one side"] }];
  expect(newDoubts(trial, before)).toEqual([
    { id: "foot", doubts: ["it covers light (220 × 220 mm)"] },
    { id: "ribs", doubts: ["rib 2 is left out: the end of steps"] },
  ]);
});
