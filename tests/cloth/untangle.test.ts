import { test as propertyTest } from "@fast-check/vitest";
import { expect, test } from "vitest";
import { isSimple } from "../../core/cloth/simple.ts";
import { untangled } from "../../core/cloth/untangle.ts";
import { signedArea } from "../../core/layup/flat-shape.ts";
import { bentStrips } from "./bent-strips.ts";

const ringOf = (...points: readonly (readonly [number, number])[]) => Float64Array.from(points.flat());
/** 200 × 100 mm, with more corners where the lower side was. */
const slab = (...lower: readonly (readonly [number, number])[]) =>
  ringOf([0, 0], ...lower, [200, 0], [200, 100], [0, 100]);

test.each([
  ["a loop where two lines cross", slab([102, 0], [98, 1], [98, -1], [102, -1], [100, 0]), 20_000],
  ["a gap that closes at its mouth", slab([100, 0], [96, 60], [104, 60], [100, 0]), 20_000],
  ["a crumb that hangs on by a point", slab([100, 0], [96, -60], [104, -60], [100, 0]), 20_000],
])("%s is taken out", (_, ring, area) => {
  expect(isSimple(ring)).toBe(false);
  const left = untangled(ring);
  expect(isSimple(left)).toBe(true);
  expect(Math.abs(signedArea(left) / area - 1)).toBeLessThan(1e-3);
});

test.each([
  ["a wide gap that closes at its mouth", slab([100, 0], [70, 60], [130, 60], [100, 0])],
  ["half of a piece that hangs on by a point", slab([100, 0], [70, -60], [130, -60], [100, 0])],
  ["a figure of eight", ringOf([0, 0], [100, 100], [100, 0], [0, 100])],
  [
    "a ring that closes upon itself",
    ringOf(
      [0, 0],
      [300, 0],
      [300, 300],
      [0, 300],
      [0, 0],
      [50, 50],
      [50, 250],
      [250, 250],
      [250, 50],
      [50, 50],
    ),
  ],
  ["a piece turned over", ringOf([0, 0], [0, 100], [100, 100], [100, 0])],
])("%s stays as it is, to be told", (_, ring) => {
  expect(untangled(ring)).toBe(ring);
  expect(isSimple(ring)).toBe(false);
});

propertyTest.prop([bentStrips], { seed: 5, numRuns: 300 })(
  "what is made simple of a strip is as large as its fields together, to what may be taken out",
  ({ outline, fields }) => {
    const left = untangled(outline);
    if (!isSimple(left)) {
      expect(left).toBe(outline);
      return;
    }
    const whole = fields.reduce((sum, field) => sum + signedArea(field), 0);
    expect(Math.abs(signedArea(left) - whole)).toBeLessThan(2000);
  },
);
