import fc from "fast-check";
import { expect, it } from "vitest";
import { buildOutline } from "../../core/plan/build-outline.ts";
import type { Chain } from "../../core/plan/chain.ts";
import { crossings } from "../../core/plan/crossings.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { segmentAt } from "../../core/plan/segments.ts";
import { rounder } from "../../core/shell/loop.ts";

function freeform(points: [number, number][]): Chain {
  const built = buildOutline({ kind: "freeform", points });
  if (!built.ok) throw new Error(built.refusals[0].why);
  return built.outline.chain;
}

/** Points round the shallow end of a freeform pool, whose arcs there are nearly of one radius. */
const shallow: [number, number][] = [
  [0, -90],
  [810, -1180],
  [2570, -1460],
  [4440, -1180],
  [6300, -1540],
  [7630, -240],
  [6730, 1250],
  [4590, 1390],
  [2460, 1570],
  [650, 1120],
];

/** A ball rolls inside an outline: it leaves an edge that lies within it, goes round once and does not cross itself. */
function expectRolled(rolled: Chain, outline: Chain) {
  expect(crossings(rolled)).toEqual([]);
  const turn = rolled.segments.reduce((sum, s) => sum + (s.kind === "arc" ? s.sweep : 0), 0);
  expect(turn).toBeCloseTo(2 * Math.PI, 9);
  for (const s of rolled.segments)
    for (const part of [0, 0.25, 0.5, 0.75]) {
      const { x, y } = segmentAt(s, part * s.length);
      expect(nearest(outline, x, y).distance).toBeLessThan(1e-6);
    }
}

it("rounds an arc beside one of nearly the same radius on the side where the arc is, not far round them", () => {
  const chain = freeform(shallow);
  const radii = chain.segments.map((s) => (s.kind === "arc" ? s.radius : 0));
  // The second arc is by 10 mm tighter than the first: a ball between the two touches the last arc instead of the first.
  expect(radii[0] - radii[1]).toBeGreaterThan(9);
  const least = (radii[0] + radii[1]) / 2;
  const rolled = rounder(chain, (i) => (i === 1 ? least : 0));
  expect(rolled).not.toBeNull();
  expectRolled(rolled as Chain, chain);
});

it("leaves what a ball leaves of any freeform outline, however many of its arcs are too tight", () => {
  let rounded = 0;
  fc.assert(
    fc.property(
      fc.double({ min: 0.85, max: 1.2, noNaN: true }),
      fc.double({ min: 0.88, max: 1.15, noNaN: true }),
      fc.double({ min: 1, max: 1.3, noNaN: true }),
      (long, wide, over) => {
        const chain = freeform(shallow.map(([x, y]) => [x * long, y * wide]));
        const inward = chain.segments.map((s) => (s.kind === "arc" && s.sweep > 0 ? s.radius : Infinity));
        const rolled = rounder(chain, () => over * Math.min(...inward));
        if (rolled === null) return;
        if (rolled !== chain) rounded++;
        expectRolled(rolled, chain);
      },
    ),
    { numRuns: 200, seed: 6 },
  );
  expect(rounded).toBeGreaterThan(50);
});
