import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeChain } from "../../core/plan/make-chain.ts";
import { arc, line } from "../../core/plan/segments.ts";
import { Drafted } from "../../core/shell/faces.ts";
import { type Node, Plane, SLOT, shareStack, stack } from "../../core/shell/node.ts";
import { PlanDistance } from "../../core/shell/plan-distance.ts";
import { Rolled } from "../../core/shell/rolled.ts";

const plane = (nx: number, ny: number, nz: number, offset: number) => {
  const l = Math.hypot(nx, ny, nz);
  return new Plane(nx / l, ny / l, nz / l, offset, 0, 1);
};
const value = (node: Node, x: number, y: number, z: number) => {
  node.evaluate(x, y, z, 0);
  return stack[0];
};
const gradient = () => [stack[1], stack[2], stack[3]];
const angle = fc.double({ min: 0.4, max: 2.6, noNaN: true });

describe("rolling-ball blend of planes", () => {
  test("rounds a dihedral of any angle with a cylinder of the radius, at every offset", () => {
    fc.assert(
      fc.property(
        angle,
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.double({ min: -20, max: 30, noNaN: true }),
        (w, part, offset) => {
          // Air is the wedge of opening w about the x axis direction; its ball has its axis on the bisector.
          const r = 60;
          const a = plane(0, -Math.sin(w / 2), -Math.cos(w / 2), 0);
          const b = plane(0, -Math.sin(w / 2), Math.cos(w / 2), 0);
          const blend = new Rolled([a, b], r, 1, 1);
          const axis = r / Math.sin(w / 2);
          // Contacts lie ±(π − w)/2 from straight back.
          const turn = Math.PI + (part - 0.5) * (Math.PI - w);
          const [y, z] = [axis + (r + offset) * Math.cos(turn), (r + offset) * Math.sin(turn)];
          expect(value(blend, 123, y, z)).toBeCloseTo(offset, 9);
          const [, gy, gz] = gradient();
          expect(gy).toBeCloseTo(Math.cos(turn), 9);
          expect(gz).toBeCloseTo(Math.sin(turn), 9);
        },
      ),
    );
  });

  test("is in closed form what the programme finds where a third plane stands far off", () => {
    const millimetres = fc.double({ min: -150, max: 150, noNaN: true });
    const far = plane(0, 1, 0, -1e5);
    fc.assert(
      fc.property(
        angle,
        fc.constantFrom(1 as const, -1 as const),
        fc.tuple(millimetres, millimetres, millimetres),
        (w, sign, at) => {
          const a = new Plane(Math.sin(w), 0, Math.cos(w), 10, 0, 2);
          const b = new Plane(0, 0, -1, 5, 1, 2);
          const away = sign > 0 ? far : plane(0, 1, 0, 1e5);
          const [closed, general] = [[a, b] as const, [a, b, away] as const].map((all) => {
            const blend = new Rolled(all, 60, sign, 2);
            blend.shares(...at, 0);
            return [...stack.slice(0, 5), shareStack[0], shareStack[1]];
          });
          closed.forEach((x, i) => {
            expect(x).toBeCloseTo(general[i], 9);
          });
        },
      ),
    );
  });

  test("rounds a corner of three planes with a sphere, in any order of the planes", () => {
    const planes = [plane(-1, 0, 0, 0), plane(0, -1, 0, 0), plane(0, 0, -1, 0)];
    const r = 50;
    const d = [0.48, 0.6, 0.64];
    for (const order of [
      [0, 1, 2],
      [2, 0, 1],
      [1, 0, 2],
    ]) {
      const blend = new Rolled(
        order.map((i) => planes[i]),
        r,
        1,
        1,
      );
      const p = d.map((c) => r - 53 * c);
      expect(value(blend, p[0], p[1], p[2])).toBeCloseTo(3, 9);
      expect(gradient().map((g) => g.toFixed(9))).toEqual(d.map((c) => (-c).toFixed(9)));
    }
  });

  test("leaves a fillet of a larger radius as it is", () => {
    const [a, b] = [plane(-1, 0, 0, 0), plane(0, 0, -1, 0)];
    const cove = new Rolled([a, b], 200, 1, 1);
    const joined = new Rolled([cove, b, plane(0, -1, 0, -5000)], 60, 1, 1);
    fc.assert(
      fc.property(
        fc.double({ min: -100, max: 600, noNaN: true }),
        fc.double({ min: -100, max: 600, noNaN: true }),
        (x, z) => {
          expect(value(joined, x, 0, z)).toBeCloseTo(value(cove, x, 0, z), 9);
        },
      ),
    );
  });

  test("a sign of −1 rounds outward edges, and equal operands are returned as they are", () => {
    const [a, b] = [plane(0, 0, -1, 0), plane(-1, 0, 0, 0)];
    const nose = new Rolled([a, b], 30, -1, 1);
    // Ground is x < 0 and z < 0; the ball's axis lies 30 inside both.
    const c = Math.SQRT1_2;
    expect(value(nose, -30 + 33 * c, 0, -30 + 33 * c)).toBeCloseTo(-3, 9);
    expect(value(new Rolled([a, a], 30, 1, 1), 4, 5, 6)).toBe(value(a, 4, 5, 6));
  });
});

describe("rolling-ball blend of a curved wall and a tilted floor", () => {
  const R = 300;
  const r = 150;
  const cylinder = new Drafted(
    PlanDistance.of(makeChain([arc(0, 0, R, 0, Math.PI), arc(0, 0, R, Math.PI, Math.PI)], true)),
    0,
    1,
    0,
    0,
    1,
  );

  test("is the canal surface: the ball touches both faces, to 1e-8 mm", () => {
    const slope = 0.3;
    const n = Math.hypot(slope, 1);
    const floor = plane(-slope, 0, -1, -800 / n);
    const blend = new Rolled([cylinder, floor], r, 1, 1);
    for (let k = 0; k < 40; k++) {
      const t = (2 * Math.PI * k) / 40;
      // Centre at r from the wall and r above the floor: exact, since both offsets are known.
      const [qx, qy] = [(R - r) * Math.cos(t), (R - r) * Math.sin(t)];
      const qz = -800 - slope * qx + r * n;
      const wall = [Math.cos(t), Math.sin(t), 0];
      const down = [-slope / n, 0, -1 / n];
      for (const [a, b] of [
        [0.5, 0.5],
        [0.8, 0.3],
        [0.2, 0.9],
      ]) {
        const v = wall.map((w, i) => a * w + b * down[i]);
        const l = Math.hypot(...v);
        for (const offset of [0, 6, -10]) {
          const p = v.map((c, i) => [qx, qy, qz][i] + ((r + offset) * c) / l);
          expect(Math.abs(value(blend, p[0], p[1], p[2]) - offset)).toBeLessThan(1e-8);
          for (const [i, g] of gradient().entries()) expect(g).toBeCloseTo(v[i] / l, 7);
        }
      }
    }
  });

  test("writes a unit gradient that finite differences confirm", () => {
    const blend = new Rolled([cylinder, plane(-0.2, 0.1, -1, -700)], r, 1, 1);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        fc.double({ min: 160, max: 296, noNaN: true }),
        fc.double({ min: -690, max: -560, noNaN: true }),
        (t, l, z) => {
          const p = [l * Math.cos(t), l * Math.sin(t), z];
          value(blend, p[0], p[1], p[2]);
          const g = gradient();
          expect(Math.hypot(...g)).toBeCloseTo(1, 9);
          const h = 1e-4;
          [0, 1, 2].forEach((i) => {
            const up = [...p];
            const down = [...p];
            up[i] += h;
            down[i] -= h;
            const d = (value(blend, up[0], up[1], up[2]) - value(blend, down[0], down[1], down[2])) / (2 * h);
            // One-sided where a tangent line runs between the two points.
            expect(Math.abs(d - g[i])).toBeLessThan(1e-5);
          });
        },
      ),
      { numRuns: 200 },
    );
  });
});

test("a curved face that bends into the ball's way presses on it, however free it looks from the point", () => {
  // Air: x > 0 inside a cylinder of 75 about x = 50. Centres of a ball of 60: x >= 60, within 15 of the axis; the
  // nearest to (x, 14) is the corner of that set, at y = sqrt(15^2 - 10^2).
  const cylinder = new Drafted(
    PlanDistance.of(makeChain([arc(50, 0, 75, 0, Math.PI), arc(50, 0, 75, Math.PI, Math.PI)], true)),
    0,
    1,
    0,
    0,
    1,
  );
  const blend = new Rolled([plane(-1, 0, 0, 0), cylinder], 60, 1, 1);
  for (const x of [0, -6, 4])
    expect(value(blend, x, 14, -300)).toBeCloseTo(Math.hypot(60 - x, 14 - Math.sqrt(125)) - 60, 9);
});

test.each([8, 60])(
  "a ball goes round a corner %s mm larger than itself, under a nose and above a sloping floor",
  (more) => {
    // The pool is x > 0, y > 0. The ball touches the floor and the nose, whose own ball has its centre on an arc about the corner's.
    const [r, nose, top, slope] = [175, 40, -351, 0.2];
    const R = r + more;
    const corner = [line(0, 5000, 0, R), arc(R, R, R, Math.PI, Math.PI / 2), line(R, 0, 5000, 0)];
    const riser = new Drafted(PlanDistance.of(makeChain(corner, false)), 0, 1, 0, 0, 2);
    const tier = new Rolled([new Plane(0, 0, -1, top, 0, 2), riser], nose, -1, 2, nose + 300);
    const floor = new Plane(-Math.sin(slope), 0, -Math.cos(slope), -500, 1, 2);
    const blend = new Rolled([floor, tier], r, 1, 2);
    const part = fc.double({ min: 0.05, max: 0.95, noNaN: true });
    fc.assert(
      fc.property(part, part, fc.double({ min: -20, max: 20, noNaN: true }), (turn, press, offset) => {
        const [cos, sin] = [Math.cos(Math.PI * (1 + turn / 2)), Math.sin(Math.PI * (1 + turn / 2))];
        let [x, z, out] = [R, 0, 0];
        for (let k = 0; k < 60; k++) {
          z = (500 - r - floor.nx * x) / floor.nz;
          out = R + nose - Math.sqrt((r + nose) ** 2 - (z - top + nose) ** 2);
          x = R + out * cos;
        }
        const aside = (R + nose - out) / (r + nose);
        const onNose = [aside * cos, aside * sin, (top - nose - z) / (r + nose)];
        const way = [floor.nx, 0, floor.nz].map((n, i) => (1 - press) * onNose[i] + press * n);
        const reach = (r + offset) / Math.hypot(...way);
        const [px, py, pz] = [x + reach * way[0], R + out * sin + reach * way[1], z + reach * way[2]];
        expect(value(blend, px, py, pz)).toBeCloseTo(offset, 4);
        const found = gradient();
        for (let i = 0; i < 3; i++) expect(found[i]).toBeCloseTo(way[i] / Math.hypot(...way), 4);
      }),
      { numRuns: 300 },
    );
  },
);

test("a ball rolls out of a valley over two noses, almost as sharply as it is round", () => {
  // Two blocks fill x < 0 and y < 0 below z = 0, with noses of 40. A ball of 80 out of the valley between them has its
  // centre on the quarter ellipse where two cylinders of 40 + 80 about the noses' axes cross: its sharpest bend, at the
  // foot, is (40 + 80)·sin 45° = 84.9, so that the balls' envelope is whole for 4.8 mm into the ground.
  const [n, r] = [40, 80];
  const tread = plane(0, 0, -1, 0);
  const blend = new Rolled(
    [
      new Rolled([tread, plane(-1, 0, 0, 0)], n, -1, 1, 400),
      new Rolled([tread, plane(0, -1, 0, 0)], n, -1, 1, 400),
    ],
    r,
    1,
    1,
  );
  for (let psi = 0.02; psi < 1.5; psi += 0.02) {
    const [c, s] = [Math.cos(psi), Math.sin(psi)];
    const q = [(n + r) * c - n, (n + r) * c - n, (n + r) * s - n];
    for (const a of [0.1, 0.3, 0.5, 0.8]) {
      const v = [-a * c, -(1 - a) * c, -s];
      const l = Math.hypot(...v);
      for (const offset of [-30, 0, 3]) {
        const p = q.map((x, i) => x + ((r + offset) * v[i]) / l);
        expect(value(blend, p[0], p[1], p[2])).toBeCloseTo(offset, 6);
      }
    }
  }
});

test("a reduced blend has the same values near the surface", () => {
  const wall = plane(-1, 0, 0.05, 0);
  const parts = [wall, plane(0.1, 0, -1, -500), plane(0, -1, 0.02, -300), plane(0, 1, 0.02, -2300)];
  const blend = new Rolled(parts, 120, 1, 1);
  let pass = 1000;
  fc.assert(
    fc.property(
      fc.tuple(
        ...[
          [-200, 900],
          [-2400, 400],
          [-700, 300],
        ].map(([min, max]) => fc.double({ min, max, noNaN: true })),
      ),
      fc.tuple(...[0, 1, 2].map(() => fc.double({ min: -80, max: 80, noNaN: true }))),
      (c, d) => {
        const reduced = blend.within({ x: c[0], y: c[1], z: c[2], ball: 140, band: 140, pass: ++pass });
        const p = c.map((x, i) => x + d[i]);
        const whole = value(blend, p[0], p[1], p[2]);
        const part = value(reduced, p[0], p[1], p[2]);
        if (Math.abs(whole) <= 140) expect(part).toBeCloseTo(whole, 9);
        else expect(Math.sign(part)).toBe(Math.sign(whole));
      },
    ),
    { numRuns: 500 },
  );
  expect(SLOT).toBe(8);
});
