import { expect, test } from "vitest";
import { makeProjectStore } from "../../renderer/document/project-store.ts";
import { duplicates, laying } from "../../renderer/tools/zone-edits.ts";
import { doubles } from "../../renderer/worker/doubles.ts";
import { makeResultsStore, type Results } from "../../renderer/worker/results.ts";
import { doubtsOf, faultsOf, notesOf } from "../../renderer/worker/to-look-at.ts";
import { demoProject } from "../project/demo-files.ts";

test("a copy that lies where it came up is told, by the name of the one it lies on, until it is moved", () => {
  const store = makeProjectStore(demoProject("whimbrel-9"));
  const said = () => doubles(store.state.getState().project.layup.map((spec) => ({ id: spec.id, spec })));
  expect(said().size).toBe(0);
  const [copy] = duplicates(store.state.getState().project, ["ribs-right"]);
  store.edit("Duplicate", laying([copy]));
  expect([...said().keys()]).toEqual([copy.id]);
  expect(said().get(copy.id)).toContain("it lies on ribs right");
  store.edit("Slide", ({ layup }) => {
    const moved = layup.find(({ id }) => id === copy.id);
    if (moved?.kind === "rib-row") moved.pitch += 50;
  });
  expect(said().size).toBe(0);
});

test("faults and notes are counted apart, told by zone, and found where they are told", () => {
  const none = makeResultsStore().getState();
  const laid = (id: string, doubts: string[]) => ({ id, doubts }) as unknown as Results["zones"][number];
  const kit = {
    doubts: [
      { zone: "b", says: "the lap lies in a tight corner", atMm: 1234.5 },
      { zone: "b", says: "its cloth folds", fault: "cannot be cut" },
    ],
  } as unknown as Results["kit"];
  const doubtful: Results = { ...none, zones: [laid("a", ["one", "two"]), laid("b", [])], kit };
  expect(doubtsOf(doubtful).map(({ zone, says }) => `${zone}: ${says}`)).toEqual([
    "a: one",
    "a: two",
    "b: the lap lies in a tight corner",
    "b: its cloth folds",
  ]);
  expect(doubtsOf(doubtful).map(({ at }) => at)).toEqual([null, null, 1234.5, null]);
  // A mend is tried by laying the zone, which tells nothing of its pieces.
  expect(doubtsOf(doubtful).map(({ about }) => about)).toEqual(["zone", "zone", "pieces", "pieces"]);
  expect([faultsOf(none).count, notesOf(none).count]).toEqual([0, 0]);
  expect(faultsOf(doubtful)).toEqual({ count: 1, where: "lay-up-floor" });
  expect(notesOf(doubtful)).toEqual({ count: 3, where: "lay-up-floor" });
  const adrift = [{ id: "c" }] as unknown as Results["adrift"];
  expect(faultsOf({ ...doubtful, adrift })).toEqual({ count: 2, where: "lay-up-floor" });
  const refusals = [{ path: "shell.draftDeg", value: 1, why: "x", wouldWork: "y" }] as Results["refusals"];
  expect(faultsOf({ ...doubtful, refusals })).toEqual({ count: 2, where: "drawing-office" });
  const measure = { flaws: ["a kink"], doubts: ["a sliver", "another"] } as unknown as Results["measure"];
  expect(faultsOf({ ...none, measure })).toEqual({ count: 1, where: "drawing-office" });
  expect(notesOf({ ...none, measure })).toEqual({ count: 2, where: "drawing-office" });
});
