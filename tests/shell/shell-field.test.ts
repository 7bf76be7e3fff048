import { expect, test } from "vitest";
import { buildShell } from "../../core/shell/build-shell.ts";
import { demoProject } from "../project/demo-files.ts";

const build = () => {
  const built = buildShell(demoProject("whimbrel-9").shell);
  if (!built.ok) throw new Error(built.refusals.map(({ why }) => why).join(" "));
  return built.shell.field;
};

test("the value and the gradient that come with a point's shares are those of an evaluation there", () => {
  const asked = build();
  const plain = build();
  const { min, max } = plain.bounds;
  const at = (k: number, n: number) =>
    min[k] + (max[k] - min[k]) * ((n * [0.754878, 0.569841, 0.437209][k]) % 1);
  let near = 0;
  for (let n = 1; n <= 4000; n++) {
    const [x, y, z] = [at(0, n), at(1, n), at(2, n)];
    const value = plain.evaluate(x, y, z);
    if (Math.abs(value) < 50) near++;
    asked.shares(x, y, z);
    expect(asked.evaluate(x, y, z)).toBe(value);
    expect([...asked.gradient]).toEqual([...plain.gradient]);
    // A point beside it is another one, and so is the first one after it.
    expect(asked.evaluate(x + 1, y, z)).toBe(plain.evaluate(x + 1, y, z));
    expect([...asked.gradient]).toEqual([...plain.gradient]);
  }
  expect(near).toBeGreaterThan(100);
});
