import { expect, test } from "vitest";
import { withoutNeedles } from "../../core/cloth/needles.ts";

const ringOf = (...points: readonly (readonly [number, number])[]) => Float64Array.from(points.flat());
const square = ringOf([0, 0], [100, 0], [100, 100], [0, 100]);

test.each([
  ["comes to a point beyond the ring", ringOf([0, 0], [160, 0], [100, 0.8], [100, 100], [0, 100])],
  [
    "runs out and back by corners of its own",
    ringOf([0, 0], [100, 0], [130, 0.1], [160, 0.3], [131, 0.4], [100, 0.8], [100, 100], [0, 100]),
  ],
  ["begins the ring", ringOf([160, 0], [100, 0.8], [100, 100], [0, 100], [0, 0])],
])("a needle that %s is taken off", (_, ring) => {
  const left = withoutNeedles(ring);
  const xs = left.filter((_, i) => i % 2 === 0);
  expect(Math.max(...xs)).toBe(100);
  expect(Math.min(...xs)).toBe(0);
});

test.each([
  ["a square", square],
  ["a wedge that a knife can cut", ringOf([0, 0], [600, 0], [0, 40])],
  ["a narrow dart", ringOf([0, 0], [49.9, 0], [50, 60], [50.1, 0], [100, 0], [100, 100], [0, 100])],
])("%s stays as it is", (_, ring) => {
  expect(withoutNeedles(ring)).toBe(ring);
});
