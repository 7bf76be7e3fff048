import { expect, test } from "vitest";
import { makeProjectStore } from "../../renderer/document/project-store.ts";
import { duplicates, laying } from "../../renderer/tools/zone-edits.ts";
import { doubles } from "../../renderer/worker/doubles.ts";
import { makeResultsStore, type Results } from "../../renderer/worker/results.ts";
import { doubtsOf, toLookAt, whereToLook } from "../../renderer/worker/to-look-at.ts";
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

test("what there is to look at is counted, told by zone, and found where it is told", () => {
  const none = makeResultsStore().getState();
  const laid = (id: string, doubts: string[]) => ({ id, doubts }) as unknown as Results["zones"][number];
  const kit = { doubts: [{ zone: "b", says: "no piece is long enough" }] } as unknown as Results["kit"];
  const doubtful: Results = { ...none, zones: [laid("a", ["one", "two"]), laid("b", [])], kit };
  expect(doubtsOf(doubtful).map(({ zone, says }) => `${zone}: ${says}`)).toEqual([
    "a: one",
    "a: two",
    "b: no piece is long enough",
  ]);
  // A mend is tried by laying the zone, which tells nothing of its pieces.
  expect(doubtsOf(doubtful).map(({ about }) => about)).toEqual(["zone", "zone", "pieces"]);
  expect([toLookAt(none), toLookAt(doubtful)]).toEqual([0, 3]);
  expect(whereToLook(doubtful)).toBe("lay-up-floor");
  const refusals = [{ path: "shell.draftDeg", value: 1, why: "x", wouldWork: "y" }] as Results["refusals"];
  expect([toLookAt({ ...doubtful, refusals }), whereToLook({ ...doubtful, refusals })]).toEqual([
    4,
    "drawing-office",
  ]);
  const measure = { doubts: ["a kink"] } as unknown as Results["measure"];
  expect([toLookAt({ ...none, measure }), whereToLook({ ...none, measure })]).toEqual([1, "drawing-office"]);
});
