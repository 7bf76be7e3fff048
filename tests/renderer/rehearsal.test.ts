import { expect, test } from "vitest";
import { makeRehearsal } from "../../renderer/worker/rehearsal.ts";
import { demoProject } from "../project/demo-files.ts";

test("a rehearsal leaves off when a job comes, goes on the next time, and is over once for all", async () => {
  let shapes = 0;
  // Drawn breath after each shape.
  const rehearse = makeRehearsal(async () => {
    shapes++;
  });
  const job = { project: demoProject("dunlin-4"), quality: "full", shells: 1 } as const;
  await rehearse(job, () => true);
  expect(shapes).toBe(0);
  await rehearse(job, () => shapes >= 2);
  expect(shapes).toBe(2);
  await rehearse(job, () => false);
  expect(shapes).toBeGreaterThan(2);
  const all = shapes;
  await rehearse(job, () => false);
  expect(shapes).toBe(all);
});
