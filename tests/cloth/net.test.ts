import { expect, test } from "vitest";
import { MET } from "../../core/cloth/join-yarns.ts";
import { Net } from "../../core/cloth/net.ts";
import { curveYarn, geodesicYarn } from "../../core/cloth/yarn.ts";
import { fieldNear } from "../../core/surface/bricks.ts";
import type { Field } from "../../core/surface/field.ts";
import { cylinder, plane, sphere, torus } from "../surface/closed-fields.ts";
import { netOn, nodeAt } from "./nets.ts";

const gap = (a: readonly number[], b: readonly number[]) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

test("the order in which nodes are asked for does not matter", () => {
  const reach = { ahead: 12, back: 12, rows: 12 };
  const make = () => netOn(torus(450, 150), [600, 0, 0], [0, 1, 0.4], [0, -0.4, 1], 25, reach);
  const [one, other] = [make(), make()];
  expect(one.ask(12, 12)).toBe(MET.yes);
  expect(one.ask(-12, 12)).toBe(MET.yes);
  for (let j = 0; j <= 12; j++) for (let i = 12; i >= -12; i--) nodeAt(other, i, j);
  for (let j = 0; j <= 12; j++)
    for (let i = -12; i <= 12; i++) expect(nodeAt(one, i, j)).toEqual(nodeAt(other, i, j));
});

test("both yarns of every node have their length, measured on the surface", () => {
  const radius = 400;
  const net = netOn(sphere(radius), [0, 0, radius], [1, 0, 0], [0.3, 1, 0], 30, {
    ahead: 12,
    back: 12,
    rows: 12,
  });
  const arc = (a: readonly number[], b: readonly number[]) => 2 * radius * Math.asin(gap(a, b) / 2 / radius);
  for (let j = 1; j <= 12; j++)
    for (let i = -11; i <= 12; i++) {
      expect(Math.abs(arc(nodeAt(net, i, j), nodeAt(net, i - 1, j)) - 30)).toBeLessThan(1e-3);
      expect(Math.abs(arc(nodeAt(net, i, j), nodeAt(net, i, j - 1)) - 30)).toBeLessThan(1e-3);
    }
});

test("a net to the right of its warp is the mirror image of the one to its left", () => {
  const reach = { ahead: 10, back: 10, rows: 10 };
  const [left, right] = [1, -1].map((side) =>
    netOn(torus(450, 150), [600, 0, 0], [0, 1, 0], [0, 0, side], 25, reach),
  );
  for (const [i, j] of [
    [10, 10],
    [-7, 9],
    [3, 1],
  ]) {
    const [x, y, z] = nodeAt(left, i, j);
    expect(gap(nodeAt(right, i, j), [x, y, -z])).toBeLessThan(1e-6);
    expect(right.shear(i - 1, j - 1)).toBeCloseTo(left.shear(i - 1, j - 1), 8);
  }
});

test("a given curve can be the warp: round a sphere's small circle cloth is sheared along it, by what the circle turns", () => {
  // Chebyshev's net: a yarn's geodesic curvature is the change of the angle between the yarns along it.
  const radius = 600;
  const field = sphere(radius);
  const near = fieldNear(field);
  const [rho, z] = [0.8 * radius, 0.6 * radius];
  const count = 400;
  const angles = Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);
  const circle = {
    points: Float64Array.from(angles.flatMap((a) => [rho * Math.cos(a), rho * Math.sin(a), z])),
    tangents: Float64Array.from(angles.flatMap((a) => [-Math.sin(a), Math.cos(a), 0])),
    normals: Float64Array.from(angles.flatMap((a) => [0.8 * Math.cos(a), 0.8 * Math.sin(a), 0.6])),
    stations: Float64Array.from(angles, (a) => rho * a),
    length: 2 * Math.PI * rho,
    closed: true,
  };
  const spacing = 5;
  const weft = geodesicYarn(near, { point: [rho, 0, z], direction: [-0.6, 0, 0.8] }, spacing)!;
  const net = new Net(near, curveYarn(near, circle, 0, spacing), weft, 1, spacing, {
    ahead: 40,
    back: 40,
    rows: 1,
  });
  const turnPerMm = z / rho / radius;
  for (const i of [20, 39]) expect(net.shear(i, 0)).toBeCloseTo(turnPerMm * spacing * (i + 0.5), 2);
});

test("a flap keeps what lies below it and hangs on its own weft beyond", () => {
  const radius = 500;
  const reach = { ahead: 12, back: 0, rows: 12 };
  const net = netOn(sphere(radius), [0, 0, radius], [1, 0, 0], [0, 1, 0], 30, reach);
  expect(net.ask(12, 12)).toBe(MET.yes);
  const foot = nodeAt(net, 10, 4);
  const before = nodeAt(net, 10, 3);
  const direction = foot.map((value, k) => value - before[k]);
  const weft = geodesicYarn(fieldNear(sphere(radius)), { point: foot, direction }, 30)!;
  const flap = net.flap(4, 10, weft);
  for (let i = 0; i <= 12; i++) expect(nodeAt(flap, i, 4)).toEqual(nodeAt(net, i, 4));
  expect(gap(nodeAt(flap, 10, 8), nodeAt(net, 10, 8))).toBeGreaterThan(5);
  // On its own weft the shear stays what it is where the flap begins; in the whole net it goes on growing.
  expect(flap.shear(10, 8)).toBeLessThan(net.shear(10, 8) - 0.1);
});

test("what a net cannot have is told, not guessed", () => {
  const near = fieldNear(torus(250, 150));
  expect(geodesicYarn(near, { point: [250, 0, 0], direction: [0, 1, 0] }, 20)).toBe(null);
  expect(geodesicYarn(near, { point: [400, 0, 0], direction: [1, 0, 0] }, 20)).toBe(null);

  // A tube that ends at x = 100.
  const tube = cylinder(150);
  const ending: Field = {
    ...tube,
    evaluate: (x, y, z) => (x > 100 ? 50 : tube.evaluate(x, y, z)),
    within: () => ending,
  };
  const ends = netOn(ending, [0, 150, 0], [1, 0, 1], [-1, 0, 1], 25, { ahead: 10, back: 10, rows: 10 });
  expect(ends.ask(2, 3)).toBe(MET.yes);
  expect(ends.ask(9, 1)).toBe(MET.lost);
  expect(ends.ask(10, 2)).toBe(MET.lost);
  expect(Number.isNaN(ends.shear(9, 1))).toBe(true);

  // No further than it was to reach.
  const flat = netOn(plane(), [0, 0, 0], [1, 0, 0], [0, 1, 0], 25, { ahead: 3, back: 0, rows: 3 });
  expect(flat.ask(4, 0)).toBe(MET.beyond);
  expect(flat.ask(0, 4)).toBe(MET.beyond);
  expect(flat.ask(-1, 0)).toBe(MET.beyond);
});

test("cloth hangs over the surface's open edge by little more than a cell, and is lost beyond", () => {
  const edge = { gradient: Float64Array.of(1, 0, 0), evaluate: (x: number) => x - 200 };
  const field: Field = { ...plane(), edge, within: () => field };
  const reach = { ahead: 20, back: 20, rows: 20 };
  const net = netOn(field, [0, 0, 0], [1, 0, 0], [0.6, 0.8, 0], 30, reach);
  for (let j = 0; j <= 20; j++)
    for (let i = -20; i <= 20; i++) {
      const x = 30 * i + 18 * j;
      // What hangs on a lost node is lost with it.
      if (x > 250 || 18 * j > 250) expect(net.ask(i, j), `${i}, ${j}`).toBe(MET.lost);
      else expect(gap(nodeAt(net, i, j), [x, 24 * j, 0])).toBeLessThan(1e-6);
    }
});
