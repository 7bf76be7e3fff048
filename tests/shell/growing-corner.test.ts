import { describe, expect, test } from "vitest";
import { makeChain } from "../../core/plan/make-chain.ts";
import { arc, line } from "../../core/plan/segments.ts";
import { Drafted } from "../../core/shell/faces.ts";
import { stack } from "../../core/shell/node.ts";
import { PlanDistance } from "../../core/shell/plan-distance.ts";
import { dice } from "./random-shell.ts";

const DRAFT = (4 * Math.PI) / 180;
const FROM = 120;
const TO = 280;
const TOP = 30;
const BOTTOM = 700;
const SIDE = 3000;
/** A square basin's plan with its corner at the origin growing from 120 to 280 mm; straight sides along +x and +y. */
const square = makeChain(
  [
    line(SIDE, SIDE, 0, SIDE),
    line(0, SIDE, 0, FROM),
    arc(FROM, FROM, FROM, Math.PI, Math.PI / 2),
    line(FROM, 0, SIDE, 0),
    line(SIDE, 0, SIDE, SIDE),
  ],
  true,
);
const wall = new Drafted(
  PlanDistance.of(square, [{ segment: 2, from: FROM, to: TO, top: TOP, bottom: BOTTOM }], DRAFT),
  DRAFT,
  1,
  0,
  0,
  1,
  0.5,
);
const valueAt = (x: number, y: number, z: number): number => {
  wall.evaluate(x, y, z, 0);
  return stack[0];
};

/** Distance in the plane to the corner's outline at a depth: two half-lines and a quarter circle, by cases. */
function levelDistance(x: number, y: number, depth: number): number {
  const t = Math.min(1, Math.max(0, (depth - TOP) / (BOTTOM - TOP)));
  const centre = FROM + (TO - FROM) * t * t * (3 - 2 * t);
  const inset = depth * Math.tan(DRAFT);
  const inner = centre - inset;
  if (x < centre && y < centre) return Math.abs(Math.hypot(x - centre, y - centre) - inner);
  return Math.min(
    x >= centre ? Math.abs(y - inset) : Math.hypot(centre - x, y - inset),
    y >= centre ? Math.abs(x - inset) : Math.hypot(x - inset, centre - y),
  );
}

/** The slow way: the least over all depths, each level's distance and the way up or down to it together. */
function bruteDistance(x: number, y: number, depth: number): number {
  const at = (h: number) => Math.hypot(levelDistance(x, y, h), h - depth);
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
  const points = Array.from({ length: 400 }, () => [
    d.between(-60, 420),
    d.between(-60, 420),
    -d.between(-20, 760),
  ]).filter(([x, y, z]) => Math.abs(valueAt(x, y, z)) < 90);

  test("is at its true distance, in air and ground, to 1e-6 mm", () => {
    expect(points.length).toBeGreaterThan(150);
    for (const [x, y, z] of points)
      expect(Math.abs(valueAt(x, y, z))).toBeCloseTo(bruteDistance(x, y, -z), 6);
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
