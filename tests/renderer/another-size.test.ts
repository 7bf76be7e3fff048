import { expect, test } from "vitest";
import { anotherSize } from "../../core/shell/another-size.ts";
import { withSettled } from "../../renderer/places/drawing-office/another-size/settling.ts";
import { nameInSize } from "../../renderer/places/drawing-office/another-size/size-name.ts";
import { newDoubts, type Trial } from "../../renderer/places/drawing-office/another-size/size-trial.ts";
import { mendInWords } from "../../renderer/tools/figure-label.ts";
import { mendFor } from "../../renderer/tools/mend.ts";
import { demoProject } from "../project/demo-files.ts";
import { trialsHere } from "./tools/lay.ts";

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
      { id: "ribs", doubts: ["rib 2 is left out: it would stand too near to the end of steps"] },
    ],
  };
  const before = [{ id: "foot", doubts: ["it is cut to 55 mm on one side"] }];
  expect(newDoubts(trial, before)).toEqual([
    { id: "foot", doubts: ["it covers light (220 × 220 mm)"] },
    { id: "ribs", doubts: ["rib 2 is left out: it would stand too near to the end of steps"] },
  ]);
});

test("what goes adrift in another size is mended on that size's shell, or left out of it", async () => {
  // Its lights reach 710 mm down: the cove of 200 mm leaves them just enough wall.
  const sized = anotherSize(demoProject("whimbrel-9"), { length: 7900, width: 3800, depth: 920 }, "small");
  if (!sized.ok) throw new Error(sized.problems.join(" "));
  const { laying } = trialsHere();
  const lay = laying(sized.project);
  const zone = sized.project.layup.find(({ id }) => id === "steps-rise-2")!;
  const [before] = await lay([zone]);
  if (before.ok) throw new Error("It is not adrift.");
  const mend = await mendFor(sized.project, zone, `${before.why} ${before.mend}`, lay);
  expect(mend && mendInWords(mend, zone)).toMatch(/^on: steps, .* to .* instead of steps, .* to /);
  const done = withSettled(sized.project, [
    { id: zone.id, zone: mend!.zone, how: "" },
    { id: "pad-tread-3", zone: null, how: "" },
  ]);
  expect(done.layup.map(({ id }) => id)).toEqual(
    sized.project.layup.map(({ id }) => id).filter((id) => id !== "pad-tread-3"),
  );
  const [after] = await lay(done.layup.filter(({ id }) => id === zone.id));
  expect(after.ok).toBe(true);
});
