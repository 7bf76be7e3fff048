/**
 * Woven cloth on surfaces whose drape is known. Values "by ODE" were computed apart from this code, from Chebyshev's equation
 * ω_uv = −K sin ω (P. L. Chebyshev 1878; É. Ghys, "Sur la coupe des vêtements: variation autour d'un thème de Tchebychev"): on a sphere with
 * two great circles through a pole as yarns, z = uv/R², (z γ′)′ = cos γ, γ(0) = 0, γ the shear. It is solved once more below.
 */
import { describe, expect, test } from "vitest";
import { Net } from "../../core/cloth/net.ts";
import type { Yarn } from "../../core/cloth/yarn.ts";
import { fieldNear } from "../../core/surface/bricks.ts";
import type { Field } from "../../core/surface/field.ts";
import { DEGREE, netOn, nodeAt, shearAtNode } from "../cloth/nets.ts";
import { cone, cylinder, dihedral, plane, sphere } from "../surface/closed-fields.ts";
import { printConvergence, printLine } from "./figures.ts";

/** Shear on a sphere at z = uv/R², rad: Runge–Kutta on γ′ = p/z, p′ = cos γ, from the series γ = z − z³/18. */
function sphereShear(z: number): number {
  if (z < 0.01) return z - z ** 3 / 18;
  let t = 1e-3;
  let shear = t - t ** 3 / 18;
  let p = t - t ** 3 / 6;
  const steps = 2000;
  const h = (z - t) / steps;
  const slope = (at: number, g: number, q: number) => [q / at, Math.cos(g)] as const;
  for (let i = 0; i < steps; i++) {
    const [a1, b1] = slope(t, shear, p);
    const [a2, b2] = slope(t + h / 2, shear + (h / 2) * a1, p + (h / 2) * b1);
    const [a3, b3] = slope(t + h / 2, shear + (h / 2) * a2, p + (h / 2) * b2);
    const [a4, b4] = slope(t + h, shear + h * a3, p + h * b3);
    shear += (h / 6) * (a1 + 2 * a2 + 2 * a3 + a4);
    p += (h / 6) * (b1 + 2 * b2 + 2 * b3 + b4);
    t += h;
  }
  return shear;
}

const onSphere = (radius: number, count: number, columns = count, bowed = false) => {
  const spacing = radius / count;
  const reach = { ahead: columns, back: columns, rows: columns };
  return netOn(sphere(radius), [0, 0, radius], [1, 0, 0], [0, 1, 0], spacing, reach, bowed);
};
const distance = (a: readonly number[], b: readonly number[]) =>
  Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

describe("a sphere under cloth hung on two great circles", () => {
  // By ODE, to 1e-4 degrees.
  const published: [number, number][] = [
    [0.1, 5.7264],
    [0.2, 11.4338],
    [0.3, 17.1033],
    [0.4, 22.7168],
    [0.5, 28.2568],
    [0.6, 33.7067],
    [0.75, 41.6795],
    [0.9, 49.3689],
    [1, 54.3183],
    [1.2, 63.7495],
    [1.4, 72.51],
    [1.6, 80.5625],
  ];
  test("the equation of the tests agrees with the table", () => {
    for (const [z, degrees] of published) expect(sphereShear(z) / DEGREE).toBeCloseTo(degrees, 3);
  });

  test("shear within 0.05° at every cell up to the usual locking angles, whatever the radius", () => {
    let worst = 0;
    for (const radius of [200, 1000, 6000]) {
      const count = 25;
      const net = onSphere(radius, count);
      for (let i = 0; i < count; i++)
        for (let j = 0; j < count; j++) {
          const exact = sphereShear(((i + 0.5) * (j + 0.5)) / count ** 2);
          worst = Math.max(worst, Math.abs(net.shear(i, j) - exact) / DEGREE);
        }
    }
    printLine(`sphere, spacing R/25: shear of every cell up to 54° off by at most ${worst.toFixed(4)}°`);
    expect(worst).toBeLessThan(0.05);
  });

  test("shear at (0.8 R, 0.8 R) by central differences, with the error that the spacing brings", () => {
    // By a discrete net apart from this code: 35.8859°, 35.8649°, 35.8597°; exact 35.8580°.
    for (const [count, degrees] of [
      [10, 35.8859],
      [20, 35.8649],
      [40, 35.8597],
    ]) {
      const net = onSphere(1000, count, count);
      expect(shearAtNode(net, 0.8 * count, 0.8 * count) / DEGREE).toBeCloseTo(degrees, 3);
    }
  });

  test("nodes at a spacing of R/10 where a net of great-circle arcs has them", () => {
    // By a discrete net with arc step 0.1, unit sphere, to 1e-6.
    const net = onSphere(1000, 10);
    expect(distance(nodeAt(net, 5, 5), [474.42, 474.42, 741.52])).toBeLessThan(2e-3);
    expect(distance(nodeAt(net, 10, 10), [706.611, 706.611, -37.441])).toBeLessThan(2e-3);
  });

  // By Richardson from discrete nets, unit sphere, ±1e-6: yarn lengths (u, v) and the point there.
  const exactNodes = [
    [0.5, 0.5, 474.383, 474.383, 741.567],
    [0.75, 0.5, 665.298, 468.182, 581.536],
    [1, 0.5, 804.893, 459.684, 375.284],
    [1, 1, 706.623, 706.623, -37.003],
  ];
  const errorsAt = (counts: readonly number[], bowed: boolean) =>
    counts.map((count) => {
      const net = onSphere(1000, count, count, bowed);
      return Math.max(...exactNodes.map(([u, v, ...p]) => distance(nodeAt(net, u * count, v * count), p)));
    });

  test("nodes tend to the exact places with the square of the spacing", () => {
    const counts = [8, 16, 32];
    const errors = errorsAt(counts, false);
    printConvergence(
      "sphere of 1 m, four nodes",
      counts.map((count) => 1000 / count),
      errors,
      "mm",
    );
    // At 0.1 R the discrete net itself is 0.44 mm off at (1, 1).
    expect(errors[0]).toBeLessThan(0.8);
    expect(errors[1]).toBeLessThan(errors[0] / 3.5);
    expect(errors[2]).toBeLessThan(errors[1] / 3.5);
  });

  test("nodes of a net whose yarns are bowed lie several times nearer to them", () => {
    const counts = [8, 16, 32];
    const [straight, bowed] = [false, true].map((each) => errorsAt(counts, each));
    printConvergence(
      "sphere of 1 m, four nodes, yarns bowed",
      counts.map((count) => 1000 / count),
      bowed,
      "mm",
    );
    counts.forEach((_, k) => void expect(bowed[k]).toBeLessThan(straight[k] / 8));
  });

  test("cloth of a × b from the pole covers R²·γ(ab/R²) (Hazzidakis' formula)", () => {
    const exact = sphereShear(1) * 1e6;
    const counts = [10, 20, 40];
    const errors = counts.map((count) => {
      const net = onSphere(1000, count);
      let area = 0;
      for (let i = 0; i < count; i++)
        for (let j = 0; j < count; j++) area += net.spacing ** 2 * Math.cos(net.shear(i, j));
      return Math.abs(area / exact - 1);
    });
    printConvergence(
      "sphere of 1 m, area under 1 m × 1 m of cloth",
      counts.map((count) => 1000 / count),
      errors,
      "",
    );
    expect(exact / 1e6).toBeCloseTo(0.948033, 6);
    expect(errors[0]).toBeLessThan(2e-3);
    expect(errors[2]).toBeLessThan(errors[1] / 3.5);
  });

  test("along the bias, colatitude and shear as by ODE", () => {
    // u/R on both yarns, colatitude and shear in degrees.
    const bias = [
      [0.123103, 10, 0.8683],
      [0.362465, 30, 7.5204],
      [0.531476, 45, 16.1128],
      [0.69007, 60, 26.9457],
      [0.839125, 75, 39.2695],
    ];
    for (const [u, colatitude, shear] of bias) {
      const count = 30;
      const net = onSphere(1000, count / u, count + 1);
      const p = nodeAt(net, count, count);
      expect(Math.abs(Math.acos(p[2] / Math.hypot(...p)) / DEGREE - colatitude)).toBeLessThan(0.01);
      expect(Math.abs(shearAtNode(net, count, count) / DEGREE - shear)).toBeLessThan(0.02);
    }
  });

  test("beyond z = 1.8616, where yarn runs along yarn, there is no net: folded, and nothing after it", () => {
    const net = onSphere(1000, 20, 40);
    expect(net.ask(40, 40)).toBe(3);
    let furthest = 0;
    for (let k = 0; k <= 40; k++) if (net.ask(k, k) === 1) furthest = k;
    const z = (furthest / 20) ** 2;
    printLine(`sphere, spacing R/20: the net ends at z = ${z.toFixed(3)} on the bias, exact 1.862`);
    expect(z).toBeGreaterThan(1.5);
    expect(z).toBeLessThan(1.87);
  });
});

describe("a sleeve: both yarns at θ to the meridian of a hemisphere, 45° at the equator", () => {
  // sin θ = sin φ/√2 (closed form), shear |90° − 2θ|, φ from the pole; yarn length from the equator ∫ dφ/cos θ.
  const radius = 1000;
  const theta = (phi: number) => Math.asin(Math.sin(phi) / Math.SQRT2);
  /** Places on one yarn at equal lengths from the equator, by small steps of the midpoint rule. */
  function sleeveYarn(hand: 1 | -1, spacing: number): Yarn {
    const steps = 400;
    let [phi, lambda] = [Math.PI / 2, 0];
    const nodes = [[phi, lambda]];
    for (let k = 0; k < 40; k++) {
      for (let s = 0; s < steps; s++) {
        const ds = spacing / radius / steps;
        const middle = phi - (ds / 2) * Math.cos(theta(phi));
        phi -= ds * Math.cos(theta(middle));
        lambda += (hand * ds * Math.sin(theta(middle))) / Math.sin(middle);
      }
      nodes.push([phi, lambda]);
    }
    return {
      node: (k, points, normals, at) => {
        if (k < 0 || k >= nodes.length) return false;
        const [p, l] = nodes[k];
        const n = [Math.sin(p) * Math.cos(l), Math.sin(p) * Math.sin(l), Math.cos(p)];
        n.forEach((value, c) => {
          points[at + c] = radius * value;
          normals[at + c] = value;
        });
        return true;
      },
    };
  }
  const sleeve = (spacing: number, rows: number) =>
    new Net(fieldNear(sphere(radius)), sleeveYarn(1, spacing), sleeveYarn(-1, spacing), 1, spacing, {
      ahead: rows,
      back: 0,
      rows,
    });

  test("yarn lengths and shear as in the closed form", () => {
    // Degrees from the pole, shear in degrees, yarn length from the equator / R.
    const published = [
      [75, 3.841, 0.36619],
      [60, 14.4775, 0.711646],
      [45, 30, 1.028057],
    ];
    const spacing = 50;
    // Node (i, j) lies as high as a yarn of the length i + j; warp and weft close upon each other as they rise.
    const rows = 12;
    const net = sleeve(spacing, rows);
    for (let i = 1; i < rows; i++) {
      const p = nodeAt(net, i, i);
      const phi = Math.acos(p[2] / radius);
      const ahead = nodeAt(net, 2 * i <= rows ? 2 * i : i, 2 * i <= rows ? 0 : i);
      expect(Math.abs(Math.acos(ahead[2] / radius) - phi) / DEGREE).toBeLessThan(0.05);
      expect(
        Math.abs(Math.abs(shearAtNode(net, i, i)) - (Math.PI / 2 - 2 * theta(phi))) / DEGREE,
      ).toBeLessThan(0.05);
    }
    for (const [degrees, shear, length] of published) {
      expect(90 - (2 * theta(degrees * DEGREE)) / DEGREE).toBeCloseTo(shear, 3);
      const at = (length * radius) / spacing;
      const k = Math.floor(at);
      const rise = (i: number) =>
        Math.acos(nodeAt(net, Math.ceil(i / 2), Math.floor(i / 2))[2] / radius) / DEGREE;
      if (k + 1 > 2 * rows) continue;
      const low = rise(k);
      expect(Math.abs(low + (rise(k + 1) - low) * (at - k) - degrees)).toBeLessThan(0.05);
    }
  });
});

describe("surfaces that unroll: no shear, and the net is the unrolling", () => {
  const turned = 0.7;
  const cases: [string, Field, number[], number[], number[], number][] = [
    ["a plane", plane(), [0, 0, 0], [1, 0.3, 0], [-0.3, 1, 0], 1e-4],
    [
      "a cylinder, yarns askew",
      cylinder(200),
      [0, 200, 0],
      [Math.cos(turned), 0, Math.sin(turned)],
      [-Math.sin(turned), 0, Math.cos(turned)],
      0.01,
    ],
    [
      "a cone, apex outside",
      cone(0.5),
      [600 * Math.sin(0.5), 0, 600 * Math.cos(0.5)],
      [0, 1, 0],
      [Math.sin(0.5), 0, Math.cos(0.5)],
      0.02,
    ],
    ["a cove between two flats", dihedral(150, 0.05), [0, -300, 0], [0.5, 1, 0], [-1, 0.5, 0], 0.06],
  ];
  for (const [name, field, point, along, across, tolerance] of cases) {
    test(name, () => {
      const count = 20;
      const net = netOn(field, point, along, across, 20, { ahead: count, back: 0, rows: count });
      let most = 0;
      for (let i = 0; i < count; i++)
        for (let j = 0; j < count; j++) most = Math.max(most, Math.abs(net.shear(i, j)) / DEGREE);
      printLine(`${name}: shear at most ${most.toExponential(1)}°`);
      expect(most).toBeLessThan(tolerance);
      // Straight lines of the unrolling: a diagonal of the net is the geodesic that sets out between the yarns.
      const size = [Math.hypot(...along), Math.hypot(...across)];
      const between = along.map((value, k) => value / size[0] + across[k] / size[1]);
      const straight = netOn(field, point, between, across, 20 * Math.SQRT2, {
        ahead: count,
        back: 0,
        rows: 0,
      });
      expect(distance(nodeAt(straight, count, 0), nodeAt(net, count, count))).toBeLessThan(
        20 * tolerance + 0.01,
      );
    });
  }
});
