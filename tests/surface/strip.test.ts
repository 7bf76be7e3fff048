import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import type { SurfaceCurve } from "../../core/surface/curve.ts";
import type { Field } from "../../core/surface/field.ts";
import { layStrip, stripArea, unrollStrip } from "../../core/surface/strip.ts";
import { cone, cylinder, dihedral, plane, sphere, torus } from "./closed-fields.ts";
import {
  flat,
  type Piece,
  PlanarChain,
  roundCone,
  roundCove,
  roundCylinder,
  type Wrapped,
  wrapChain,
} from "./planar-chain.ts";

const line = (length: number): Piece => ({ length, turn: 0 });
const arc = (radius: number, turn: number): Piece => ({ length: Math.abs(radius * turn), turn });
const quarter = Math.PI / 2;

/** How far `is` lies from `should`, as a part of it. */
const off = (is: number, should: number) => Math.abs(is / should - 1);

/** A circle about the z axis as a curve, run counter-clockwise, with the normal given at angle 0 in (radius, z). */
function circle(
  radius: number,
  z: number,
  normal: readonly [number, number],
  turn = 2 * Math.PI,
): SurfaceCurve {
  const closed = turn === 2 * Math.PI;
  const spans = Math.ceil((radius * turn) / 20);
  const count = closed ? spans : spans + 1;
  const points: number[] = [];
  const tangents: number[] = [];
  const normals: number[] = [];
  for (let i = 0; i < count; i++) {
    const a = (turn * i) / spans;
    const [c, s] = [Math.cos(a), Math.sin(a)];
    points.push(radius * c, radius * s, z);
    tangents.push(-s, c, 0);
    normals.push(normal[0] * c, normal[0] * s, normal[1]);
  }
  return {
    points: Float64Array.from(points),
    tangents: Float64Array.from(tangents),
    normals: Float64Array.from(normals),
    stations: Float64Array.from({ length: count }, (_, i) => (radius * turn * i) / spans),
    length: radius * turn,
    closed,
  };
}

describe("closed forms", () => {
  test("a straight band over a cove is length × width within 0.02 %", () => {
    for (const radius of [30, 100, 150, 300]) {
      const chain = new PlanarChain([line(3000)]);
      const strip = layStrip(dihedral(radius), wrapChain(chain, 25, roundCove(radius)), null, [300, 250]);
      expect(off(strip.left.areaMm2, 3000 * 300)).toBeLessThan(2e-4);
      expect(off(strip.right.areaMm2, 3000 * 250)).toBeLessThan(2e-4);
      expect(off(strip.left.edgeLengthMm, 3000)).toBeLessThan(1e-6);
      expect(strip.cutShort).toEqual([]);
    }
  });

  test("a band round a torus corner is within 0.1 % of Pappus, on both sides", () => {
    // The cove of a plan corner: tube 150 about a ring; the band's middle at 45° on the inside of the tube's lower half.
    for (const ring of [0.01, 50, 100, 150, 450]) {
      const tube = 150;
      const r = ring + tube * Math.SQRT1_2;
      const curve = circle(r, -tube * Math.SQRT1_2, [Math.SQRT1_2, -Math.SQRT1_2], quarter);
      const half = (tube * Math.PI) / 8;
      const strip = layStrip(torus(ring, tube), curve, null, [half, half]);
      // ∫ρ ds along a circle of the tube: ring·s + tube·(sin of the end angles' difference), angles from the plane of the ring.
      const turned = (a: number, b: number) =>
        quarter * (ring * tube * (b - a) + tube * tube * (Math.sin(b) - Math.sin(a)));
      const up = turned(-Math.PI / 4, -Math.PI / 8);
      const down = turned((-3 * Math.PI) / 8, -Math.PI / 4);
      expect(off(strip.areaMm2, up + down)).toBeLessThan(1e-3);
      const sides = [strip.left.areaMm2, strip.right.areaMm2].sort((a, b) => a - b);
      expect(off(sides[0], down)).toBeLessThan(1e-3);
      expect(off(sides[1], up)).toBeLessThan(1e-3);
    }
  });

  test("a latitude band of a sphere is 2πRh, h its height", () => {
    const R = 800;
    for (const latitude of [0, 0.4, 1.0, 1.3]) {
      const curve = circle(R * Math.cos(latitude), R * Math.sin(latitude), [
        Math.cos(latitude),
        Math.sin(latitude),
      ]);
      const strip = layStrip(sphere(R), curve, null, [200, 150]);
      const [low, high] = [latitude - 150 / R, Math.min(quarter, latitude + 200 / R)];
      expect(
        off(strip.left.areaMm2, 2 * Math.PI * R * R * (Math.sin(high) - Math.sin(latitude))),
      ).toBeLessThan(2e-5);
      expect(
        off(strip.right.areaMm2, 2 * Math.PI * R * R * (Math.sin(latitude) - Math.sin(low))),
      ).toBeLessThan(2e-5);
    }
  });

  test("a band round a sphere's pole that closes over it covers the cap once", () => {
    const R = 500;
    const curve = circle(R * Math.sin(0.3), R * Math.cos(0.3), [Math.sin(0.3), Math.cos(0.3)]);
    const strip = layStrip(sphere(R), curve, null, [250, 0]);
    expect(off(strip.areaMm2, 2 * Math.PI * R * R * (1 - Math.cos(0.3)))).toBeLessThan(2e-5);
    expect(strip.cutShort).toHaveLength(1);
    expect(strip.cutShort[0]).toMatchObject({ side: "left", why: "nearer elsewhere" });
    expect(strip.cutShort[0].leastMm).toBeCloseTo(0.3 * R, 1);
  });

  test("an L with a rounded corner, tighter than the half width or not", () => {
    for (const radius of [5, 20, 50, 100, 150, 299, 400]) {
      const h = 300;
      const chain = new PlanarChain([line(1000), arc(radius, quarter), line(1200)]);
      const strip = layStrip(plane(), wrapChain(chain, 2, flat), null, [h, h]);
      const inner =
        radius < h
          ? 2200 * h + (Math.PI / 4) * radius ** 2 - (h - radius) ** 2
          : 2200 * h + (Math.PI / 4) * (radius ** 2 - (radius - h) ** 2);
      expect(off(strip.left.areaMm2, inner)).toBeLessThan(1e-4);
      expect(
        off(strip.right.areaMm2, 2200 * h + (Math.PI / 4) * ((radius + h) ** 2 - radius ** 2)),
      ).toBeLessThan(5e-5);
      expect(strip.cutShort.length).toBe(radius < h ? 1 : 0);
    }
  });

  test("the area converges as the samples draw together", () => {
    const tube = 150;
    const ring = 250;
    const curve = circle(ring + tube, 0, [1, 0], quarter);
    const exact = 2 * quarter * (ring * tube * 0.8 + tube * tube * Math.sin(0.8));
    const errors = [80, 40, 20].map((step) =>
      off(
        layStrip(torus(ring, tube), curve, null, [120, 120], { alongMm: step, acrossMm: step }).areaMm2,
        exact,
      ),
    );
    expect(errors[0]).toBeLessThan(1e-4);
    expect(errors[2]).toBeLessThan(errors[0] / 10 + 1e-8);
  });
});

describe("against the plane's own distance", () => {
  const piece = fc.oneof(
    fc.double({ min: 50, max: 500, noNaN: true }).map(line),
    fc
      .record({
        radius: fc.double({ min: 80, max: 700, noNaN: true }),
        turn: fc.double({ min: 0.6, max: 2.2, noNaN: true }),
        left: fc.boolean(),
      })
      .map(({ radius, turn, left }) => arc(radius, (left ? 1 : -1) * Math.min(turn, 900 / radius))),
  );
  const chain = fc.array(piece, { minLength: 2, maxLength: 5 });
  const surfaces: [string, () => Field, (x: number, y: number) => Wrapped][] = [
    ["plane", plane, flat],
    ["cylinder", () => cylinder(1500), roundCylinder(1500)],
    ["cone", () => cone(0.9), roundCone(0.9, 6000)],
    ["cove", () => dihedral(150), roundCove(150)],
  ];
  property.prop([chain, fc.double({ min: 60, max: 300, noNaN: true })], { numRuns: 8 })(
    "random curves of lines and arcs, wrapped on surfaces that unroll, cover what the plane's set distance covers",
    (pieces, h) => {
      const plan = new PlanarChain(pieces, -500, -200, 0.3);
      const area = plan.areaWithin(h, 16);
      for (const [name, field, wrap] of surfaces) {
        const strip = layStrip(field(), wrapChain(plan, 5, wrap), null, [h, h]);
        const said = `${name}: ${strip.areaMm2} mm², wanted ${area.without} to ${area.with}`;
        expect(strip.areaMm2, said).toBeGreaterThan(area.without * (1 - 1e-3) - 50);
        expect(strip.areaMm2, said).toBeLessThan(area.with * (1 + 1e-3) + 50);
      }
    },
  );
});

describe("parts of a strip", () => {
  const chain = new PlanarChain([line(1500), arc(120, quarter), line(900), arc(500, -1), line(800)]);
  const strip = layStrip(dihedral(150), wrapChain(chain, 5, roundCove(150)), null, [300, 200]);

  property.prop([fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 6 })], { numRuns: 50 })(
    "the areas of pieces between joints add up to the whole",
    (cuts) => {
      const joints = [0, ...cuts.map((c) => c * chain.length).sort((a, b) => a - b), chain.length];
      let sum = 0;
      for (let i = 0; i + 1 < joints.length; i++) sum += stripArea(strip, joints[i], joints[i + 1], 300, 200);
      expect(off(sum, strip.areaMm2)).toBeLessThan(1e-12);
    },
  );

  test("a ply that stops short has the area of a narrower strip", () => {
    const narrow = layStrip(dihedral(150), wrapChain(chain, 5, roundCove(150)), null, [275, 175]);
    expect(off(stripArea(strip, 0, chain.length, 275, 175), narrow.areaMm2)).toBeLessThan(2e-5);
  });

  test("a part has the area of a strip laid between the same stations, where no other part reaches", () => {
    const part = layStrip(
      dihedral(150),
      wrapChain(chain, 5, roundCove(150)),
      { from: 100, to: 1100 },
      [300, 200],
    );
    expect(off(stripArea(strip, 100, 1100, 300, 200), part.areaMm2)).toBeLessThan(1e-6);
  });

  test("a part of a closed strip may run past the seam", () => {
    const curve = circle(700, 0, [1, 0]);
    const ring = layStrip(cylinderUpright(700), curve, null, [100, 100]);
    expect(ring.closed).toBe(true);
    expect(off(ring.areaMm2, 2 * Math.PI * 700 * 200)).toBeLessThan(1e-6);
    expect(off(stripArea(ring, curve.length - 300, curve.length + 200, 100, 80), 500 * 180)).toBeLessThan(
      1e-6,
    );
    const wrapped = layStrip(
      cylinderUpright(700),
      curve,
      { from: curve.length - 300, to: curve.length + 200 },
      [100, 80],
    );
    expect(off(wrapped.areaMm2, 500 * 180)).toBeLessThan(1e-6);
  });

  test("unrolled, it has the middle straight, its widths square to it and the true lengths of both edges", () => {
    const all = unrollStrip(strip);
    expect(all.midLengthMm).toBeCloseTo(chain.length, 6);
    expect(off(all.areaMm2, strip.areaMm2)).toBeLessThan(1e-12);
    expect(all.left).toHaveLength(all.along.length);
    expect(all.leftEdges).toHaveLength(all.along.length - 1);
    expect(off(all.rightLengthMm, strip.right.edgeLengthMm)).toBeLessThan(1e-12);
    // The right of a left-hand corner is its outer side: the edge is longer by turn × width there, shorter in the right-hand one.
    expect(strip.right.edgeLengthMm).toBeCloseTo(chain.length + quarter * 200 - 200, 1);
    const corner = unrollStrip(strip, 1500, 1500 + 120 * quarter, 100, 100);
    // The span in which the corner begins is shared out evenly, half of it straight: some millimetres.
    expect(Math.abs(corner.leftLengthMm - 20 * quarter)).toBeLessThan(6);
    expect(Math.abs(corner.rightLengthMm - 220 * quarter)).toBeLessThan(6);
    expect(corner.left.every((w) => w === 100)).toBe(true);
  });

  test("parts of edges add up", () => {
    const whole = unrollStrip(strip);
    const parts = [0, 333, 1490, 1555, 2200, chain.length];
    let left = 0;
    for (let i = 0; i + 1 < parts.length; i++)
      left += unrollStrip(strip, parts[i], parts[i + 1]).leftLengthMm;
    expect(off(left, whole.leftLengthMm)).toBeLessThan(1e-12);
  });
});

/** Cylinder about the z axis, ground outside. */
function cylinderUpright(radius: number): Field {
  const lying = cylinder(radius);
  const gradient = new Float64Array(3);
  const upright: Field = {
    ...lying,
    gradient,
    evaluate: (x, y, z) => {
      const f = lying.evaluate(z, x, y);
      gradient.set([lying.gradient[1], lying.gradient[2], lying.gradient[0]]);
      return f;
    },
    within: () => upright,
  };
  return upright;
}

describe("edges and faults", () => {
  test("a band ends at the open edge of the surface, and says so", () => {
    const field: Field = {
      ...cylinderUpright(700),
      edge: { gradient: new Float64Array([0, 0, 1]), evaluate: (x, _y, z) => z - 60 - 0.05 * x },
    };
    const withEdge: Field = { ...field, within: () => withEdge };
    const strip = layStrip(withEdge, circle(700, 0, [1, 0]), null, [100, 100]);
    const left = strip.left.areaMm2;
    // Height of the edge over the circle: 60 + 35 cos, at most 100 reached nowhere.
    expect(off(left, 2 * Math.PI * 700 * 60)).toBeLessThan(2e-5);
    expect(strip.cutShort).toHaveLength(1);
    expect(strip.cutShort[0]).toMatchObject({ side: "left", why: "open edge" });
    expect(strip.cutShort[0].leastMm).toBeCloseTo(25, 0);
    expect(off(strip.right.areaMm2, 2 * Math.PI * 700 * 100)).toBeLessThan(1e-6);
  });

  test("a curve off the surface, a bad stretch and a bad width are refused with the figure", () => {
    const curve = wrapChain(new PlanarChain([line(1000)]), 20, flat);
    expect(() => layStrip(plane(), curve, { from: 500, to: 1200 }, [100, 100])).toThrow(
      /from 500 to 1200.*1000\.0/,
    );
    expect(() => layStrip(plane(), curve, null, [-1, 100])).toThrow(/Half width -1/);
    const hollow: Field = { ...plane(), evaluate: () => 5, within: () => hollow };
    expect(() => layStrip(hollow, curve, null, [100, 100])).toThrow(
      /leaves the surface at \(0\.0, 0\.0, 0\.0\)/,
    );
  });

  test("a direction of the gradient that is a degree wrong in places moves the area by less than 0.02 %", () => {
    const exact = dihedral(150);
    const gradient = new Float64Array(3);
    const noisy: Field = {
      ...exact,
      gradient,
      evaluate: (x, y, z) => {
        const f = exact.evaluate(x, y, z);
        const g = exact.gradient;
        const lean = 0.0175 * Math.sin(x / 40) * Math.exp(-(((x - 1500) / 200) ** 2));
        gradient.set([g[0] + lean, g[1], g[2]]);
        return f;
      },
      within: () => noisy,
    };
    const curve = wrapChain(new PlanarChain([line(3000)]), 25, roundCove(150));
    expect(off(layStrip(noisy, curve, null, [300, 300]).areaMm2, 3000 * 600)).toBeLessThan(2e-4);
  });
});
