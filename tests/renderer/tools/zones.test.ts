import { expect, test } from "vitest";
import { checkProject } from "../../../core/project/parse.ts";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { makeProjectStore } from "../../../renderer/document/project-store.ts";
import { mendFor } from "../../../renderer/tools/mend.ts";
import { duplicates, laying, named, removing, settingOf } from "../../../renderer/tools/zone-edits.ts";
import { figuresOf } from "../../../renderer/tools/zone-figures.ts";
import { demoProject } from "../../project/demo-files.ts";
import { trialsHere } from "./lay.ts";

const demo = demoProject("dunlin-4");
const ids = demo.layup.map(({ id }) => id);
const here = trialsHere();

test("the same zones once more have names of their own, and taking them out gives the project back", () => {
  const store = makeProjectStore(demo);
  const copies = duplicates(demo, ids);
  expect(new Set([...ids, ...copies.map(({ id }) => id)]).size).toBe(2 * ids.length);
  expect(store.edit("Duplicate", laying(copies)).ok).toBe(true);
  expect(store.edit("Delete", removing(copies.map(({ id }) => id))).ok).toBe(true);
  expect(store.state.getState().project).toEqual(demo);
});

test("a new zone is named for what it is and where it lies, and its keys stand as in the file", () => {
  const [first, second] = named(demo, [
    { kind: "pad", on: "steps/tread-1", margin: 40, material: "core-sheet" },
    { kind: "pad", on: "steps/tread-1", margin: 60, material: "core-sheet" },
  ]);
  expect(first.id).toMatch(/^pad-steps-tread-1/);
  expect(second.id).not.toBe(first.id);
  expect(Object.keys(first)).toEqual(["kind", "id", "on", "margin", "material"]);
});

test("one figure of many zones changes at once, and only where there is such a figure", () => {
  const store = makeProjectStore(demo);
  const bands = demo.layup.filter(({ kind }) => kind === "band").map(({ id }) => id);
  expect(bands.length).toBeGreaterThan(1);
  expect(store.edit("Change plies", settingOf(ids, ["plies"], 3)).ok).toBe(true);
  for (const [i, zone] of store.state.getState().project.layup.entries()) {
    if ("plies" in zone) expect(zone.plies).toBe(3);
    else expect(zone).toEqual(demo.layup[i]);
  }
  store.undo();
  expect(store.state.getState().project).toEqual(demo);
});

test("a figure out of its limits changes nothing and says why", () => {
  const store = makeProjectStore(demo);
  const edited = store.edit("Change plies", settingOf(ids, ["plies"], 99));
  expect(edited.ok).toBe(false);
  expect(store.state.getState().project).toBe(demo);
});

test("the figures of several zones are those that all have, with whether they agree", () => {
  const a: ZoneSpec = { kind: "pad", id: "a", on: "x/top", margin: 40, material: "core-sheet" };
  const b: ZoneSpec = { kind: "stiffener", id: "b", run: "left", margin: 50, material: "rib-strip" };
  expect(figuresOf([a]).map(({ path, value }) => [path.join("."), value])).toEqual([["margin", 40]]);
  expect(figuresOf([a, b]).map(({ agreed }) => agreed)).toEqual([false]);
  const rib: ZoneSpec = {
    kind: "rib",
    id: "r",
    at: { run: "left", part: 0.5 },
    top: 60,
    foot: { kind: "over", onto: 150 },
    material: "rib-strip",
  };
  expect(figuresOf([rib]).map(({ path }) => path.join("."))).toEqual(["at.part", "top", "foot.onto"]);
  expect(figuresOf([rib, a])).toEqual([]);
});

// What core itself says of the mended zone is the judge.
test.each<[string, ZoneSpec]>([
  ["a margin too wide", { kind: "pad", id: "z", on: "steps/tread-1", margin: 900, material: "core-sheet" }],
  [
    "a face that is spelt wrong",
    { kind: "pad", id: "z", on: "steps/tread-11", margin: 40, material: "core-sheet" },
  ],
  [
    "a material of the wrong kind",
    { kind: "pad", id: "z", on: "steps/tread-1", margin: 40, material: "rib-strip" },
  ],
  [
    "a stiffener whose margins use up its run",
    { kind: "stiffener", id: "z", run: "left", margin: 2500, material: "rib-strip" },
  ],
])("%s is mended by one change, with which the zone is laid", async (_, zone) => {
  const [before] = here.lay(demo, [zone]);
  if (before.ok) throw new Error("It was to be adrift.");
  const mend = await mendFor(demo, zone, `${before.why} ${before.mend}`, here.laying(demo));
  expect(mend).not.toBeNull();
  if (!mend) return;
  expect(here.lay(demo, [mend.zone])[0].ok).toBe(true);
  expect(checkProject({ ...demo, layup: [mend.zone] }).ok).toBe(true);
  expect(mend.zone).not.toEqual(zone);
});

test("a doubt is mended by the figure it names", async () => {
  const zone: ZoneSpec = {
    kind: "rib",
    id: "z",
    at: { run: "left", part: 0.5 },
    top: 0,
    foot: { kind: "over", onto: 150 },
    material: "rib-strip",
  };
  const [before] = here.lay(demo, [zone]);
  if (!before.ok) throw new Error(before.why);
  const [doubt] = before.zone.doubts;
  expect(doubt).toMatch(/top of \d+ mm/);
  const mend = await mendFor(demo, zone, doubt, here.laying(demo));
  expect(mend?.path).toEqual(["top"]);
  const [after] = mend ? here.lay(demo, [mend.zone]) : [];
  expect(after?.ok && after.zone.doubts).not.toContain(doubt);
});

test("what no single change mends is left to the person", async () => {
  const zone: ZoneSpec = { kind: "pad", id: "z", on: "grotto/top", margin: 40, material: "rib-strip" };
  const [before] = here.lay(demo, [zone]);
  if (before.ok) throw new Error("It was to be adrift.");
  expect(await mendFor(demo, zone, `${before.why} ${before.mend}`, here.laying(demo))).toBeNull();
});
