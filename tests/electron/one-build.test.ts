import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { oneBuild } from "../../electron/launch/one-build.mjs";
import { ownFolder } from "./own-folder.ts";

test("two builds at once go one after the other, and one that fails holds nobody up", async () => {
  const lock = join(ownFolder(), "out/building.lock");
  const steps: string[] = [];
  const work = (name: string, fails = false) =>
    oneBuild(lock, async () => {
      steps.push(`${name} begins`);
      await new Promise((done) => setTimeout(done, 30));
      steps.push(`${name} ends`);
      if (fails) throw new Error(`${name} failed`);
      return name;
    });
  const results = await Promise.allSettled([work("a", true), work("b"), work("c")]);
  expect(results.map(({ status }) => status)).toEqual(["rejected", "fulfilled", "fulfilled"]);
  for (let i = 0; i < steps.length; i += 2) expect(steps[i + 1]).toBe(steps[i].replace("begins", "ends"));
  expect(steps).toHaveLength(6);
  expect(existsSync(lock)).toBe(false);
});

test("the lock of a killed build is taken over", async () => {
  const lock = join(ownFolder(), "building.lock");
  // No system gives out such a number: Linux stops at 2^22 (proc(5), pid_max), Windows counts in fours.
  writeFileSync(lock, "99999999");
  expect(await oneBuild(lock, async () => "built")).toBe("built");
});
