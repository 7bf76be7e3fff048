/**
 * The contract of `Field.within`, on whole shells: in the ball the reduced field has the field's values where |f| is at
 * most the band, and elsewhere the right sign and no less than the band. Meshing finds its cells by these bounds.
 */
import { expect, test } from "vitest";
import { buildShell } from "../../core/shell/build-shell.ts";
import { seedCount } from "../house/seeds.ts";
import { randomShell } from "./random-shell.ts";

/** Seeds whose meshes once lost whole cells because a reduced field promised too much beside a rounded edge. */
const KEPT = [23, 74, 75, 113, 114];
const BALLS = 120;

/** Small repeatable numbers in [0, 1): a linear congruential generator (Numerical Recipes, from memory). */
function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

test.each([...KEPT, ...Array.from({ length: seedCount(8) }, (_, i) => 300 + i)])(
  "a reduced field keeps its promise: seed %i",
  (seed) => {
    const result = buildShell(randomShell(seed));
    if (!result.ok) return;
    const { field } = result.shell;
    const { min, max } = field.bounds;
    const next = numbers(seed);
    let compared = 0;
    for (let ball = 0; ball < BALLS; ball++) {
      const radius = 30 + 140 * next();
      const at = [0, 1, 2].map((i) => min[i] + (max[i] - min[i]) * next());
      // Half of the balls stand about the surface, where bricks are.
      if (ball % 2 === 0) {
        const f = field.evaluate(at[0], at[1], at[2]);
        const g = [...field.gradient];
        for (let i = 0; i < 3; i++) at[i] -= (f + (next() - 0.5) * 2 * radius) * g[i];
      }
      const reduced = field.within(at[0], at[1], at[2], radius);
      for (let point = 0; point < 60; point++) {
        const way = [next() - 0.5, next() - 0.5, next() - 0.5];
        const length = Math.hypot(...way);
        const far = radius * next() ** (1 / 3);
        const [x, y, z] = at.map((c, i) => c + (way[i] / length) * far);
        const whole = field.evaluate(x, y, z);
        const part = reduced.evaluate(x, y, z);
        compared++;
        const where = `(${x.toFixed(2)}, ${y.toFixed(2)}, ${z.toFixed(2)}) in the ball of ${radius.toFixed(1)} mm`;
        if (Math.abs(whole) <= radius / 2) expect(part, where).toBeCloseTo(whole, 6);
        else {
          expect(Math.sign(part), where).toBe(Math.sign(whole));
          // A growing corner is no exact distance: its bound may fall short by a few parts in a hundred.
          expect(Math.abs(part), where).toBeGreaterThan(0.9 * (radius / 2));
        }
      }
    }
    expect(compared).toBe(BALLS * 60);
  },
);

/** Shells with two faces that look at each other across a slot, where a value once promised more room than there is. */
const NARROW = [43, 74];

test.each([...NARROW, ...Array.from({ length: seedCount(8) }, (_, i) => 400 + i)])(
  "no other sign lies nearer than a value promises: seed %i",
  (seed) => {
    const result = buildShell(randomShell(seed));
    if (!result.ok) return;
    const { field } = result.shell;
    const { min, max } = field.bounds;
    const beyond = (p: readonly number[]) => (field.edge?.evaluate(p[0], p[1], p[2]) ?? -1) > 0;
    const next = numbers(seed);
    let compared = 0;
    for (let n = 0; n < 8000; n++) {
      const p = [0, 1, 2].map((i) => min[i] + (max[i] - min[i]) * next());
      if (beyond(p)) continue;
      const value = field.evaluate(p[0], p[1], p[2]);
      const way = [next() - 0.5, next() - 0.5, next() - 0.5];
      const length = Math.hypot(...way);
      // The mesher allows for this much steeper than a distance.
      const far = (Math.min(Math.abs(value), 300) / 1.06) * Math.cbrt(next());
      const q = p.map((c, i) => c + (way[i] / length) * far);
      if (beyond(q)) continue;
      compared++;
      const there = field.evaluate(q[0], q[1], q[2]);
      const where = `${value.toFixed(2)} at (${p.map((c) => c.toFixed(1)).join(", ")}), ${there.toFixed(2)} ${far.toFixed(1)} mm away`;
      expect(value * there, where).toBeGreaterThanOrEqual(0);
    }
    expect(compared).toBeGreaterThan(1000);
  },
);

test("a value is the point's own, whatever was asked before: seed 225", () => {
  const result = buildShell(randomShell(225));
  if (!result.ok) throw new Error("seed 225 was built until now");
  const { field } = result.shell;
  // Past the centre of a growing corner, where neither its arc nor a neighbour has the foot.
  const value = () => field.evaluate(284.094, -1245.906, -615.906);
  const first = value();
  field.evaluate(2000, 0, -300);
  expect(value()).toBe(first);
  field.evaluate(10, 900, -20);
  expect(value()).toBe(first);
  expect(first).toBeLessThan(-200);
});
