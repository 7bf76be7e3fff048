import { expect, test } from "vitest";
import { roughBox } from "../../core/cloth/rough-box.ts";
import { turningOf } from "../../core/cloth/turning.ts";
import { fieldNear } from "../../core/surface/bricks.ts";
import { layStrip } from "../../core/surface/strip.ts";
import { plane } from "../surface/closed-fields.ts";
import { flat, PlanarChain, wrapChain } from "../surface/planar-chain.ts";

const boxOf = (turn: number, length: number) => {
  const curve = wrapChain(new PlanarChain([{ length, turn }]), 20, flat);
  const strip = layStrip(plane(), curve, null, [100, 150]);
  return roughBox(
    turningOf({ near: fieldNear(plane()), strip, from: strip.from, to: strip.to, left: 100, right: 150 }),
  );
};

test("of a straight band it is its length and width", () => {
  const { lengthMm, widthMm } = boxOf(0, 1200);
  expect(lengthMm).toBeCloseTo(1200, 3);
  expect(widthMm).toBeCloseTo(250, 3);
});

test("of a band round an arc it is the box of the arc", () => {
  // 600 mm round one radian to the left: the right edge, 750 mm from the centre, is the longest, the left one, at 500 mm, lies lowest at its ends.
  const { lengthMm, widthMm } = boxOf(1, 600);
  expect(Math.abs(lengthMm - 2 * 750 * Math.sin(0.5))).toBeLessThan(2);
  expect(Math.abs(widthMm - (750 - 500 * Math.cos(0.5)))).toBeLessThan(2);
});
