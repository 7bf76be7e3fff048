import { beforeAll, describe, expect, test } from "vitest";
import { cutKit } from "../../core/cutting/cut-kit.ts";
import type { Kit } from "../../core/cutting/kit.ts";
import type { Layup } from "../../core/layup/laid.ts";
import { layUp } from "../../core/layup/lay-up.ts";
import type { Project } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { makeBreath } from "../../renderer/worker/breath.ts";
import { cutThere } from "../../renderer/worker/cutter.ts";
import { type CutOrder, type Cutting, makeCutting } from "../../renderer/worker/cutting.ts";
import type { Job } from "../../renderer/worker/messages.ts";
import { demoProject } from "../project/demo-files.ts";

const goOn = () => false;
const jobOf = (project: Project): Job => ({ project, quality: "full", shells: 1 });

/** A cutting at the other end of messages: what goes there and back is copied as a worker's is. */
function faraway() {
  const orders: CutOrder[] = [];
  const cutting = makeCutting(makeBreath(() => Promise.resolve()));
  const cut: Cutting["cut"] = async (order) => {
    orders.push(structuredClone(order));
    return structuredClone(await cutting.cut(structuredClone(order)));
  };
  return { orders, cutting, cutter: cutThere({ cut }) };
}

describe("a kit that is cut in another worker", () => {
  let project: Project;
  let layup: Layup;
  let kit: Kit;
  // All that is quickly cut, and one short band.
  beforeAll(() => {
    const demo = demoProject("dunlin-4");
    const short = demo.layup.find((zone) => zone.kind === "band" && zone.on !== "foot");
    project = { ...demo, layup: demo.layup.filter((zone) => zone.kind !== "band" || zone === short) };
    const built = buildShell(project.shell, project.shop.laidThickness);
    if (!built.ok) throw new Error("The demo cannot be built.");
    layup = layUp(project, built.shell);
    kit = cutKit(project, layup, 1);
    expect(kit.pieces.length).toBeGreaterThan(0);
  });

  test("is the kit that core cuts, and the same again for the same figures", async () => {
    const { cutter, orders } = faraway();
    const cut = await cutter(jobOf(project), layup, goOn);
    expect(cut).toEqual(kit);
    expect(await cutter(jobOf({ ...project, name: "Another name" }), layup, goOn)).toBe(cut);
    expect(orders).toHaveLength(1);
  });

  test("is ordered with the zones that are new alone", async () => {
    const { cutter, orders } = faraway();
    await cutter(jobOf(project), layup, goOn);
    const [taken, ...others] = layup.zones;
    const less = { ...project, layup: project.layup.filter(({ id }) => id !== taken.id) };
    const cut = await cutter(jobOf(less), { ...layup, zones: others }, goOn);
    expect(cut?.pieces).toEqual(kit.pieces.filter(({ zone }) => zone !== taken.id));
    expect(orders[1].zones.map(({ zone }) => zone)).toEqual(others.map(() => null));
    // What was left out of an order is sent once more when it comes back.
    await cutter(
      jobOf({ ...project, layup: [...less.layup, taken.spec] }),
      { ...layup, zones: [...others, taken] },
      goOn,
    );
    expect(orders[2].zones.map(({ zone }) => zone?.id)).toEqual([...others.map(() => undefined), taken.id]);
  });

  test("is left off when none is wanted any more, or another one is", async () => {
    const slow = makeCutting((stopped) => new Promise((go) => setTimeout(() => go(stopped()), 0)));
    const cutter = cutThere(slow);
    const first = cutter(jobOf(project), layup, goOn);
    slow.leaveOff();
    expect(await first).toBeNull();
    // Nothing is kept of a kit that was left off.
    expect(await cutter(jobOf(project), layup, goOn)).toEqual(kit);
  });
});
