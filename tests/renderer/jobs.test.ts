import { beforeAll, describe, expect, test } from "vitest";
import { layUp } from "../../core/layup/lay-up.ts";
import type { Project } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Job, LayupView, Part } from "../../renderer/worker/messages.ts";
import { makeResultsStore, takeIn } from "../../renderer/worker/results.ts";
import { makeJobRunner } from "../../renderer/worker/run-job.ts";
import { kitOf } from "../cutting/demo-kits.ts";
import { thinDunlin } from "../project/thin-dunlin.ts";

const demo = thinDunlin();
const breathe = () => Promise.resolve();

/** Runs a job and gathers what it tells. */
async function heard(run: ReturnType<typeof makeJobRunner>, job: Partial<Job>, stopped = () => false) {
  const parts: Part[] = [];
  const outcome = await run(
    { project: demo, quality: "full", shells: 1, ...job },
    { tell: (part) => parts.push(part), stopped },
  );
  return { outcome, parts, kinds: parts.filter((part) => part.kind !== "stage").map((part) => part.kind) };
}

const layupOf = (parts: readonly Part[]): LayupView => {
  const part = parts.find((each) => each.kind === "layup");
  if (part?.kind !== "layup") throw new Error("No lay-up was told.");
  return part.layup;
};

const changed = (change: (project: Project) => void): Project => {
  const copy: Project = JSON.parse(JSON.stringify(demo));
  change(copy);
  return copy;
};

const widened = changed((project) => {
  const band = project.layup.find((zone) => zone.kind === "band");
  if (band?.kind === "band") band.halfWidths[0] += 30;
});

describe("jobs of the worker", () => {
  const run = makeJobRunner(breathe);
  let first: Awaited<ReturnType<typeof heard>>;
  beforeAll(async () => {
    first = await heard(run, {});
  });

  test("tell the shell first, then lines, lay-up, kit and tape", () => {
    expect(first.outcome).toBe("done");
    expect(first.kinds.slice(0, 3)).toEqual(["shell", "lines", "layup"]);
    expect(first.kinds.slice(3).sort()).toEqual(["kit", "tape"]);
  });

  test("come to the figures of the command line", () => {
    const made = kitOf(demo);
    const results = first.parts.reduce(takeIn, makeResultsStore().getState());
    expect(results.kit?.totals).toEqual(made.kit.totals);
    expect(results.zones.map(({ id, areaMm2 }) => [id, areaMm2])).toEqual(
      made.layup.zones.map(({ id, areaMm2 }) => [id, areaMm2]),
    );
    expect(results.adrift).toEqual(made.layup.adrift);
  });

  test("draw again only the zone that changed", async () => {
    const { parts, kinds } = await heard(run, { project: widened });
    expect(kinds.sort()).toEqual(["kit", "layup", "tape"]);
    const drawn = layupOf(parts).zones.filter((zone) => zone.drawing !== null);
    expect(drawn.map(({ kind }) => kind)).toEqual(["band"]);
    // What is taken in is whole again.
    const results = [...first.parts, ...parts].reduce(takeIn, makeResultsStore().getState());
    expect(results.zones).toHaveLength(demo.layup.length);
  });

  test("unroll the wall with every zone that lies on it", () => {
    const { tape } = first.parts.reduce(takeIn, makeResultsStore().getState());
    const flat = new Set(["gussets", "pad"]);
    const wanted = demo.layup.filter((zone) =>
      zone.kind === "band" ? zone.on === "foot" : !flat.has(zone.kind),
    );
    expect(tape?.zones.map(({ id }) => id)).toEqual(wanted.map(({ id }) => id));
    const laidFlat = new Set(tape?.faces.flatMap(({ parts }) => parts.map(({ zone }) => zone)));
    for (const zone of demo.layup) if (flat.has(zone.kind)) expect(laidFlat).toContain(zone.id);
  });

  test("have nothing to tell of the shell when only a name changed", async () => {
    const { kinds } = await heard(run, { project: { ...widened, name: "Another name" } });
    expect(kinds).toEqual(["layup", "tape"]);
  });

  test("follow a drag of the shell with its shape and lines alone where no zones are seen", async () => {
    const runs = makeJobRunner(breathe);
    const project = changed(({ shell }) => {
      if ("length" in shell.outline) shell.outline.length += 40;
    });
    const { kinds, outcome, parts } = await heard(runs, { project, quality: "shape" });
    expect([outcome, ...kinds]).toEqual(["done", "shell"]);
    const results = parts.reduce(takeIn, makeResultsStore().getState());
    expect(results.lines.length).toBeGreaterThan(0);
  });

  test("keep to the exact shell when a zone is dragged on it, and cut no kit meanwhile", async () => {
    await heard(run, {});
    const { kinds, parts } = await heard(run, { project: widened, quality: "sketch" });
    expect(kinds).toEqual(["layup"]);
    const built = buildShell(widened.shell, widened.shop.laidThickness);
    if (!built.ok) throw new Error("The widened demo cannot be built.");
    expect(layupOf(parts).zones.map(({ areaMm2 }) => areaMm2)).toEqual(
      layUp(widened, built.shell).zones.map(({ areaMm2 }) => areaMm2),
    );
  });

  test("sketch a dragged figure coarsely, with every zone", async () => {
    const longer = changed((project) => {
      if ("length" in project.shell.outline) project.shell.outline.length += 200;
    });
    const { kinds, parts } = await heard(run, { project: longer, quality: "sketch" });
    expect(kinds).toEqual(["shell", "lines", "layup"]);
    const { zones, adrift } = layupOf(parts);
    expect(zones.length + adrift.length).toBe(demo.layup.length);
    const shellOf = (told: readonly Part[]) => told.find((part) => part.kind === "shell");
    const [coarse, fine] = [shellOf(parts), shellOf(first.parts)];
    if (coarse?.kind !== "shell" || fine?.kind !== "shell") throw new Error("No shell was told.");
    expect(coarse.shell.triangles.length).toBeLessThan(fine.shell.triangles.length);
    expect(coarse.shell.size.length).toBeCloseTo(fine.shell.size.length + 200, 6);
  });

  test("stop at the next pause once a newer one is wanted", async () => {
    let asked = 0;
    const { outcome, kinds } = await heard(makeJobRunner(breathe), {}, () => ++asked > 1);
    expect(outcome).toBe("stopped");
    expect(kinds).toEqual(["shell", "lines"]);
  });

  test("refuse what cannot be built with its reasons, and tell the shell again once it can", async () => {
    const wrong = changed((project) => {
      project.shell.coping.edge = { kind: "dropped", radius: 80, drop: 15 };
    });
    const refused = await heard(run, { project: wrong });
    expect(refused.outcome).toBe("refused");
    const part = refused.parts.find((each) => each.kind === "refused");
    expect(part?.kind === "refused" && part.refusals[0].path).toMatch(/^shell\.coping/);
    const before = first.parts.reduce(takeIn, makeResultsStore().getState());
    const after = refused.parts.reduce(takeIn, before);
    expect(after.shell).toBe(before.shell);
    expect(after.refusals).not.toHaveLength(0);
    const { parts } = await heard(run, {});
    expect(parts.reduce(takeIn, after).refusals).toHaveLength(0);
  });

  test("measure a shell as the command line does", async () => {
    const { kinds, parts } = await heard(run, { quality: "measured" });
    expect(kinds).toEqual(["shell", "measure"]);
    const part = parts.find((each) => each.kind === "measure");
    if (part?.kind !== "measure") throw new Error("Nothing was measured.");
    const sum = part.measure.faces.reduce((all, { areaMm2 }) => all + areaMm2, 0);
    expect(sum / part.measure.areaMm2).toBeCloseTo(1, 9);
    expect(part.measure.volumeToWaterMm3).toBeLessThan(part.measure.volumeToRimMm3);
  });
});
