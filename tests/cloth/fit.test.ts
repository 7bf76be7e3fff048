import { describe, expect, test } from "vitest";
import { type Fit, fitCloth } from "../../core/cloth/fit.ts";
import { outlineOf } from "../../core/cloth/outline.ts";
import type { ClothZone } from "../../core/cloth/zone.ts";
import { signedArea } from "../../core/layup/flat-shape.ts";
import { fieldNear } from "../../core/surface/bricks.ts";
import type { SurfaceCurve } from "../../core/surface/curve.ts";
import type { Field } from "../../core/surface/field.ts";
import { layStrip } from "../../core/surface/strip.ts";
import { printLine } from "../published/figures.ts";
import { cone, cylinder, dihedral, plane, sphere, torus } from "../surface/closed-fields.ts";
import {
  flat,
  type Piece,
  PlanarChain,
  roundCone,
  roundCove,
  roundCylinder,
  type Wrapped,
  wrapChain,
} from "../surface/planar-chain.ts";
import { layBack } from "./lay-back.ts";
import { DEGREE } from "./nets.ts";
import { levelLine, roundCorner } from "./round-corner.ts";

const LOCKING = 45 * DEGREE;
const SPACING = 30;

function zoneOf(field: Field, curve: SurfaceCurve, left: number, right: number): ClothZone {
  // Close rays: between them places slide along their parallels, which is no matter but to this comparison.
  const strip = layStrip(field, curve, null, [left, right], { alongMm: 10 });
  return { near: fieldNear(field), strip, from: strip.from, to: strip.to, left, right };
}

function fitted(zone: ClothZone): Fit {
  const fit = fitCloth(zone, LOCKING, SPACING);
  if (!fit) throw new Error("No cloth could be hung.");
  return fit;
}

/** How far points (x y pairs) lie from others when they are moved and turned onto them as well as can be. */
function apart(wanted: readonly number[], found: readonly number[]): number {
  const middle = (points: readonly number[], axis: number) =>
    (2 / points.length) * points.reduce((sum, value, i) => sum + (i % 2 === axis ? value : 0), 0);
  const [a, b] = [wanted, found].map((points) => {
    const from = [middle(points, 0), middle(points, 1)];
    return points.map((value, i) => value - from[i % 2]);
  });
  let [along, across] = [0, 0];
  for (let i = 0; i < a.length; i += 2) {
    along += b[i] * a[i] + b[i + 1] * a[i + 1];
    across += b[i] * a[i + 1] - b[i + 1] * a[i];
  }
  const turn = Math.atan2(across, along);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  let most = 0;
  for (let i = 0; i < a.length; i += 2)
    most = Math.max(
      most,
      Math.hypot(b[i] * cos - b[i + 1] * sin - a[i], b[i] * sin + b[i + 1] * cos - a[i + 1]),
    );
  return most;
}

const line = (length: number): Piece => ({ length, turn: 0 });
const arc = (radius: number, turn: number): Piece => ({ length: Math.abs(radius * turn), turn });

describe("zones on surfaces that unroll lie flat as they were, within 0.5 mm, without shear", () => {
  const bent = new PlanarChain([line(400), arc(500, 0.6), line(500), arc(700, -0.5), line(300)]);
  const straight = new PlanarChain([line(1500)]);
  const askew = new PlanarChain([line(1200)], 0, -150, 0.25);
  const cases: [string, Field, PlanarChain, (x: number, y: number) => Wrapped][] = [
    ["a plane", plane(), bent, flat],
    ["a cylinder", cylinder(200), bent, roundCylinder(200)],
    ["a cove", dihedral(150), straight, roundCove(150)],
    ["a cove, the line askew", dihedral(150), askew, roundCove(150)],
    ["a tight cove", dihedral(50), straight, roundCove(50)],
    ["a cone", cone(0.5), bent, roundCone(0.5, 2500)],
  ];
  for (const [name, field, chain, wrap] of cases) {
    test(name, () => {
      const [left, right] = [200, 150];
      const zone = zoneOf(field, wrapChain(chain, 20, wrap), left, right);
      const fit = fitted(zone);
      const { columns, flat: places, shear } = fit.drape;
      const wanted: number[] = [];
      const found: number[] = [];
      columns.forEach((column, c) => {
        const at = chain.pointAt(column.station);
        column.ws.forEach((distance, k) => {
          wanted.push(at.x - distance * Math.sin(at.heading), at.y + distance * Math.cos(at.heading));
          found.push(places[c][2 * k], places[c][2 * k + 1]);
        });
      });
      const off = apart(wanted, found);
      printLine(
        `${name}: flat places off by at most ${off.toFixed(3)} mm, shear at most ${(shear.most / DEGREE).toFixed(3)}°`,
      );
      expect(fit.cuts).toEqual([]);
      expect(off).toBeLessThan(0.5);
      expect(shear.most / DEGREE).toBeLessThan(0.2);
      const exact =
        chain.length * (left + right) -
        (chain.pieces.reduce((sum, { turn }) => sum + turn, 0) * (left ** 2 - right ** 2)) / 2;
      expect(Math.abs(signedArea([...outlineOf(zone, fit.drape)]) / exact - 1)).toBeLessThan(1e-3);
    });
  }
});

describe("zones on double curves: laid back they lie within 1 mm of where they were cut for", () => {
  const circle = (
    radius: number,
    z: number,
    normal: readonly [number, number],
    turn: number,
  ): SurfaceCurve => {
    const count = Math.ceil((radius * turn) / 20) + 1;
    const angles = Array.from({ length: count }, (_, i) => (turn * i) / (count - 1));
    const around = (r: number, h: number) => angles.flatMap((a) => [r * Math.cos(a), r * Math.sin(a), h]);
    return {
      points: Float64Array.from(around(radius, z)),
      tangents: Float64Array.from(angles.flatMap((a) => [-Math.sin(a), Math.cos(a), 0])),
      normals: Float64Array.from(around(normal[0], normal[1])),
      stations: Float64Array.from(angles, (a) => radius * a),
      length: radius * turn,
      closed: false,
    };
  };
  const cases: [string, ClothZone][] = [
    ["round the equator of a sphere of 600 mm", zoneOf(sphere(600), circle(600, 0, [1, 0], 1.6), 250, 200)],
    [
      "along a small circle of a sphere of 800 mm",
      zoneOf(sphere(800), circle(640, 480, [0.8, 0.6], 1.4), 200, 200),
    ],
    ["round the outside of a ring", zoneOf(torus(500, 150), circle(650, 0, [1, 0], 1.5), 150, 150)],
    ["round the inside of a ring", zoneOf(torus(500, 150), circle(350, 0, [-1, 0], 1.5), 120, 120)],
  ];
  for (const [name, zone] of cases) {
    test(name, () => {
      const fit = fitted(zone);
      const { shear } = fit.drape;
      const { inside, boundary, missing } = layBack(zone, fit, SPACING / 4);
      const area = signedArea([...outlineOf(zone, fit.drape)]);
      printLine(
        `${name}: shear ${(shear.most / DEGREE).toFixed(1)}° (rms ${(shear.mean / DEGREE).toFixed(1)}°), ${fit.cuts.length} cuts, flat ${(area / zone.strip.areaMm2).toFixed(4)} of the surface, laid back off by ${inside.toFixed(2)} mm, its boundary by ${boundary.toFixed(2)} mm`,
      );
      expect(shear.most).toBeLessThan(LOCKING);
      expect(missing).toBe(0);
      expect(boundary).toBeLessThan(1);
      expect(inside).toBeLessThan(1);
      // Sheared cloth covers less than it measures: dA = cos γ du dv.
      expect(area).toBeGreaterThan(zone.strip.areaMm2);
    });
  }
});

describe("what would lock is cut", () => {
  const corner = zoneOf(roundCorner(200, 200), levelLine(200, 200), 300, 300);
  const locking = 25 * DEGREE;

  test("whole, cloth shears by no less than a quarter of what the corner curves, and by no more than half", () => {
    const fit = fitted(corner);
    expect(fit.cuts).toEqual([]);
    // The corner's Gauss image is an eighth of the sphere, 90°, and by Hazzidakis' formula four corners of the net share it.
    expect(fit.drape.shear.most / DEGREE).toBeGreaterThan(22.4);
    expect(fit.drape.shear.most / DEGREE).toBeLessThan(46);
  });

  test("cuts bring it below a locking angle of 25°, and laid back it lies within 3 mm", () => {
    const fit = fitCloth(corner, locking, SPACING) as Fit;
    expect(fit.cuts.length).toBeGreaterThan(0);
    expect(fit.drape.shear.most).toBeLessThanOrEqual(locking);
    const [{ side, tip }] = fit.cuts;
    const c = fit.drape.columns.findIndex(({ after }) => after !== null);
    const outermost = side === "left" ? fit.drape.columns[c].ws.length - 1 : 0;
    const gap = fit.drape.flat[c][2 * outermost] - fit.drape.flat[c - 1][2 * outermost];
    const { boundary, missing } = layBack(corner, fit, SPACING / 4);
    printLine(
      `corner of 200 mm cut from the ${side} to ${tip.toFixed(0)} mm from its line, open by ${gap.toFixed(0)} mm: shear ${(fit.drape.shear.most / DEGREE).toFixed(1)}°, laid back within ${boundary.toFixed(2)} mm`,
    );
    expect(gap).toBeGreaterThan(10);
    expect(missing).toBe(0);
    expect(boundary).toBeLessThan(3);
    // The cut's two sides are in the outline: it goes in to the tip and out again.
    expect(outlineOf(corner, fit.drape).length / 2).toBeGreaterThan(8);
  });
});
