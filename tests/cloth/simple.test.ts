import { fc, test as propertyTest } from "@fast-check/vitest";
import { expect, test } from "vitest";
import { isSimple } from "../../core/cloth/simple.ts";
import { bentStrips, lieOver } from "./bent-strips.ts";

const ringOf = (...points: readonly (readonly [number, number])[]) => Float64Array.from(points.flat());

test.each([
  ["a square", ringOf([0, 0], [100, 0], [100, 100], [0, 100])],
  ["a square with a corner along its side", ringOf([0, 0], [50, 0], [100, 0], [100, 100], [0, 100])],
  ["a slit with open mouth", ringOf([0, 0], [49, 0], [50, 60], [51, 0], [100, 0], [100, 100], [0, 100])],
])("%s is simple", (_, ring) => {
  expect(isSimple(ring)).toBe(true);
});

test.each([
  ["a figure of eight", ringOf([0, 0], [100, 100], [100, 0], [0, 100])],
  [
    "a figure of eight whose larger part is counter-clockwise",
    ringOf([0, 0], [90, 0], [50, 90], [60, 90], [0, 10]),
  ],
  ["a square turned over", ringOf([0, 0], [0, 100], [100, 100], [100, 0])],
  [
    "a slit whose mouth is a point",
    ringOf([0, 0], [50, 0], [40, 60], [60, 60], [50, 0], [100, 0], [100, 100], [0, 100]),
  ],
  [
    "two squares that hang together at a corner",
    ringOf([0, 0], [50, 0], [50, 50], [100, 50], [100, 100], [50, 100], [50, 50], [0, 50]),
  ],
  ["a corner that comes to a side", ringOf([0, 0], [100, 0], [100, 100], [50, 0], [0, 100])],
  ["a side upon another", ringOf([0, 0], [100, 0], [100, 50], [80, 0], [20, 0], [0, 50])],
  ["a side that goes back upon the one before", ringOf([0, 0], [150, 0], [100, 0], [100, 100], [0, 100])],
  ["a ring twice round", ringOf([0, 0], [90, 0], [90, 90], [0, 90], [-5, -5], [95, -5], [95, 95], [-5, 95])],
  ["nothing", ringOf([0, 0], [100, 0])],
])("%s is not", (_, ring) => {
  expect(isSimple(ring)).toBe(false);
});

let lying = 0;
propertyTest.prop([bentStrips], { seed: 4, numRuns: 300 })(
  "a strip is simple if and only if none of its fields lies over another, decided exactly",
  (strip) => {
    const lies = lieOver(strip);
    if (lies) lying++;
    expect(isSimple(strip.outline)).toBe(!lies);
  },
);

test("of those strips many lie over themselves and many do not", () => {
  expect(lying).toBeGreaterThan(60);
  expect(lying).toBeLessThan(240);
});

propertyTest.prop([bentStrips, fc.nat()], { seed: 4, numRuns: 100 })(
  "it is no matter at which corner a ring begins",
  ({ outline }, by) => {
    const at = 2 * (by % (outline.length / 2));
    const begun = Float64Array.from([...outline.subarray(at), ...outline.subarray(0, at)]);
    expect(isSimple(begun)).toBe(isSimple(outline));
  },
);
