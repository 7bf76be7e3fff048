import { expect, test } from "vitest";
import { type Fit, fitCloth } from "../../core/cloth/fit.ts";
import { clothFitter } from "../../core/cloth/twins.ts";
import type { ClothZone } from "../../core/cloth/zone.ts";
import { sameShape } from "../../core/cutting/same-shape.ts";
import { fieldNear } from "../../core/surface/bricks.ts";
import { layStrip } from "../../core/surface/strip.ts";
import { fieldOf } from "../surface/closed-fields.ts";
import { layBack } from "./lay-back.ts";
import { DEGREE } from "./nets.ts";
import { levelLine, roundCorner } from "./round-corner.ts";

const half = Math.SQRT1_2;

/** The round corner, turned so that y = 0 cuts it in half. */
const field = (() => {
  const corner = roundCorner(200, 200);
  return fieldOf((x, y, z, g) => {
    const f = corner.evaluate(half * (x - y), half * (x + y), z);
    const [gx, gy, gz] = corner.gradient;
    g[0] = half * (gx + gy);
    g[1] = half * (gy - gx);
    g[2] = gz;
    return f;
  });
})();

const strip = (() => {
  const line = levelLine(200, 200);
  const turned = (values: Float64Array) =>
    values.map((value, k) =>
      k % 3 === 0 ? half * (value + values[k + 1]) : k % 3 === 1 ? half * (value - values[k - 1]) : value,
    );
  const curve = {
    ...line,
    points: turned(line.points),
    tangents: turned(line.tangents),
    normals: turned(line.normals),
  };
  return layStrip(field, curve, null, [300, 250]);
})();

const zoneOf = (from: number, to: number): ClothZone => ({
  near: fieldNear(field),
  strip,
  from,
  to,
  left: 300,
  right: 250,
});

test.each([
  [45, 0],
  [25, 1],
])("cloth that locks at %d° is the mirror image of its mirror image: %d cuts", (locking, cuts) => {
  const middle = (strip.from + strip.to) / 2;
  const [first, second] = [zoneOf(strip.from, middle + 80), zoneOf(middle - 80, strip.to)];
  const fitZone = clothFitter(locking * DEGREE, 30);
  const [one, twin] = [fitZone(first), fitZone(second)] as [Fit, Fit];
  const own = fitCloth(second, locking * DEGREE, 30) as Fit;
  expect(one.cuts.length).toBe(cuts);
  // To the last digit, and so not found anew.
  expect(twin.drape.shear.most).toBe(one.drape.shear.most);
  expect([...twin.outline].sort()).toEqual([...one.outline].map((x, k) => (k % 2 ? x : -x)).sort());
  // Where there is something to cut, the cut found for the one half may stand a ray further than that of the other.
  if (cuts === 0) expect(sameShape(twin.outline, own.outline, 0.5)).toBe(true);
  expect(twin.cuts.map(({ side }) => side)).toEqual(own.cuts.map(({ side }) => side));
  expect(twin.drape.shear.station).toBeGreaterThan(middle - 80);
  const { boundary, missing } = layBack(second, twin, 7.5);
  expect(missing).toBe(0);
  expect(boundary).toBeLessThan(1);
});

test("what is no mirror image is fitted by itself", () => {
  const fitZone = clothFitter(45 * DEGREE, 30);
  const middle = (strip.from + strip.to) / 2;
  const [one, other] = [fitZone(zoneOf(strip.from, middle + 80)), fitZone(zoneOf(middle - 60, strip.to))] as [
    Fit,
    Fit,
  ];
  expect(other.drape.shear.most).not.toBe(one.drape.shear.most);
});
