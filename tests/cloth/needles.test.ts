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

test.each([
  ["cut into it", [50.1, 9], ringOf([0, 0], [50, 0], [50.1, 9], [50.3, 0], [100, 0], [100, 100], [0, 100])],
  [
    "of a line that folds",
    [43, 4],
    ringOf([0, 0], [50, 1], [43, 4], [61, -3], [100, 0], [100, 100], [0, 100]),
  ],
])("a nick %s is filled", (_, tip, ring) => {
  const left = withoutNeedles(ring);
  const corners = Array.from({ length: left.length / 2 }, (__, i) => [left[2 * i], left[2 * i + 1]]);
  corners.forEach(([x, y], i) => {
    const [before, after] = [corners.at(i - 1)!, corners[(i + 1) % corners.length]];
    const turned = Math.atan2(after[1] - y, after[0] - x) - Math.atan2(before[1] - y, before[0] - x);
    expect(Math.abs(Math.cos(turned / 2))).toBeLessThan(0.9);
  });
  // No other corner moves.
  const gone = Array.from({ length: ring.length / 2 }, (__, i) => [ring[2 * i], ring[2 * i + 1]]).filter(
    ([x, y]) => !corners.some((corner) => corner[0] === x && corner[1] === y),
  );
  expect(gone).toEqual([tip]);
});

test("a dart's tip stays, however near to it its sides have corners", () => {
  const ring = ringOf(
    [0, 0],
    [49.7, 0],
    [49.9, 50],
    [50, 60],
    [50.1, 50],
    [50.3, 0],
    [100, 0],
    [100, 100],
    [0, 100],
  );
  expect(withoutNeedles(ring)).toBe(ring);
});
