import { describe, expect, test } from "vitest";
import { makeChain } from "../../core/plan/make-chain.ts";
import { arc, line } from "../../core/plan/segments.ts";
import { Drafted } from "../../core/shell/faces.ts";
import { stack } from "../../core/shell/node.ts";
import { PlanDistance } from "../../core/shell/plan-distance.ts";
import { dice } from "./random-shell.ts";

const DRAFT = (4 * Math.PI) / 180;
const SIDE = 3000;
interface Growing {
  readonly from: number;
  readonly to: number;
  readonly top: number;
  readonly bottom: number;
}
const gentle: Growing = { from: 120, to: 280, top: 30, bottom: 700 };
/** As a corner of 25 mm grows above a tread 300 mm deep, for the cove below: it leans by up to 31° on its bisector. */
const steep: Growing = { from: 25, to: 221, top: 30, bottom: 232 };

/** A square basin's plan with its corner at the origin growing; straight sides along +x and +y. */
function wallWith(growing: Growing): (x: number, y: number, z: number) => number {
  const { from } = growing;
  const square = makeChain(
    [
      line(SIDE, SIDE, 0, SIDE),
      line(0, SIDE, 0, from),
      arc(from, from, from, Math.PI, Math.PI / 2),
      line(from, 0, SIDE, 0),
      line(SIDE, 0, SIDE, SIDE),
    ],
    true,
  );
  const plan = PlanDistance.of(square, [{ segment: 2, ...growing }], DRAFT);
  const wall = new Drafted(plan, DRAFT, 1, 0, 0, 1, 0.5);
  return (x, y, z) => {
    wall.evaluate(x, y, z, 0);
    return stack[0];
  };
}

/** Distance in the plane to the corner's outline at a depth: two half-lines and a quarter circle, by cases. */
function levelDistance({ from, to, top, bottom }: Growing, x: number, y: number, depth: number): number {
  const t = Math.min(1, Math.max(0, (depth - top) / (bottom - top)));
  const centre = from + (to - from) * t * t * (3 - 2 * t);
  const inset = depth * Math.tan(DRAFT);
  const inner = centre - inset;
  if (x < centre && y < centre) return Math.abs(Math.hypot(x - centre, y - centre) - inner);
  return Math.min(
    x >= centre ? Math.abs(y - inset) : Math.hypot(centre - x, y - inset),
    y >= centre ? Math.abs(x - inset) : Math.hypot(x - inset, centre - y),
  );
}

/** The slow way: the least over all depths, each level's distance and the way up or down to it together. */
function bruteDistance(growing: Growing, x: number, y: number, depth: number): number {
  const at = (h: number) => Math.hypot(levelDistance(growing, x, y, h), h - depth);
  let best = depth;
  for (let span = 400; span > 1e-7; span /= 8) {
    const middle = best;
    for (let k = -16; k <= 16; k++) {
      const h = middle + (span * k) / 16;
      if (at(h) < at(best)) best = h;
    }
  }
  return at(best);
}

describe("a corner that grows with depth", () => {
  const d = dice(3);
  const valueAt = wallWith(gentle);
  const points = Array.from({ length: 400 }, () => [
    d.between(-60, 420),
    d.between(-60, 420),
    -d.between(-20, 760),
  ]).filter(([x, y, z]) => Math.abs(valueAt(x, y, z)) < 90);

  test("is at its true distance, in air and ground, to 1e-6 mm", () => {
    expect(points.length).toBeGreaterThan(150);
    for (const [x, y, z] of points)
      expect(Math.abs(valueAt(x, y, z))).toBeCloseTo(bruteDistance(gentle, x, y, -z), 6);
  });

  test("is at its true distance where it grows steeply too, near enough for a ball of 35 mm", () => {
    const value = wallWith(steep);
    let seen = 0;
    for (let k = 0; k < 3000; k++) {
      const [x, y, z] = [d.between(-60, 300), d.between(-60, 300), -d.between(-20, 290)];
      const distance = bruteDistance(steep, x, y, -z);
      if (distance > 35) continue;
      seen++;
      expect(Math.abs(value(x, y, z)), `${x} ${y} ${z}`).toBeCloseTo(distance, 4);
    }
    expect(seen).toBeGreaterThan(300);
  });

  test("has the gradient of its values, of unit length", () => {
    const h = 1e-4;
    for (const [x, y, z] of points) {
      valueAt(x, y, z);
      const g = [stack[1], stack[2], stack[3]];
      expect(Math.hypot(...g)).toBeCloseTo(1, 9);
      const slope = [0, 1, 2].map((i) => {
        const [p, q] = [
          [x, y, z],
          [x, y, z],
        ];
        p[i] -= h;
        q[i] += h;
        return (valueAt(q[0], q[1], q[2]) - valueAt(p[0], p[1], p[2])) / (2 * h);
      });
      for (let i = 0; i < 3; i++) expect(Math.abs(slope[i] - g[i])).toBeLessThan(1e-5);
    }
  });
});
