import { expect, test } from "vitest";
import { makeProjectStore } from "../../../renderer/document/project-store.ts";
import { planLayUp, taking } from "../../../renderer/tools/lay-up-all.ts";
import { demoProject } from "../../project/demo-files.ts";
import { trialsHere } from "./lay.ts";

const demo = demoProject("dunlin-4");
const wanted = trialsHere().automatic(demo);

test("on a bare shell all comes, and taken it is the automatic lay-up of core; taken once more nothing changes", () => {
  const bare = { ...demo, layup: [] };
  const store = makeProjectStore(bare);
  for (const way of ["missing", "anew"] as const) expect(planLayUp([], wanted, way).goes).toEqual([]);
  expect(store.edit("Lay up", taking(planLayUp([], wanted, "anew"))).ok).toBe(true);
  const { layup } = store.state.getState().project;
  const figures = ({ id: _, ...rest }: (typeof layup)[number]) => rest;
  expect(layup.map(figures)).toEqual(wanted.map(figures));
  for (const way of ["missing", "anew"] as const) {
    const again = planLayUp(layup, wanted, way);
    expect([again.comes, again.goes]).toEqual([[], []]);
  }
});

test("where something lies already it stays when only what is missing is laid", () => {
  const [, ...others] = demo.layup;
  const plan = planLayUp(others, wanted, "missing");
  expect(plan.goes).toEqual([]);
  expect(plan.stays).toBe(others);
  for (const zone of plan.comes) {
    if (zone.kind !== "band") continue;
    expect(others.some((each) => each.kind === "band" && each.on === zone.on)).toBe(false);
  }
});

test("anew, what comes, goes and stays add up, and one step back brings all of it back", () => {
  const plan = planLayUp(demo.layup, wanted, "anew");
  expect(plan.goes.length + plan.stays.length).toBe(demo.layup.length);
  expect(plan.comes.length + plan.stays.length).toBeGreaterThanOrEqual(wanted.length);
  const store = makeProjectStore(demo);
  expect(store.edit("Lay up", taking(plan)).ok).toBe(true);
  const ids = store.state.getState().project.layup.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  store.undo();
  expect(store.state.getState().project).toEqual(demo);
});
