import { SphereGeometry } from "three";
import { describe, expect, test } from "vitest";
import {
  contourOf,
  crossingOf,
  type Outlined,
  openEdges,
  Scratch,
} from "../../renderer/scene/ink/contour.ts";

const R = 1000;

/** A sphere, or the part of one below an angle from its pole, as a mesh with exact normals. */
function sphere(rings: number, upTo = Math.PI): Outlined {
  const geometry = new SphereGeometry(R, 2 * rings, rings, 0, 2 * Math.PI, 0, upTo);
  const from = geometry.getAttribute("position").array;
  // three repeats the seam: vertices at one place are made one.
  const places = new Map<string, number>();
  const positions: number[] = [];
  const place = (v: number) => {
    const p = [from[3 * v], from[3 * v + 1], from[3 * v + 2]];
    const key = p.map((c) => Math.round(c * 100)).join();
    const known = places.get(key);
    if (known !== undefined) return known;
    const next = positions.length / 3;
    places.set(key, next);
    positions.push(...p);
    return next;
  };
  const index = geometry.getIndex();
  if (!index) throw new Error("A sphere of three comes with an index.");
  const triangles = Array.from(index.array, place);
  const whole = triangles.flatMap((_, i) => {
    if (i % 3 !== 0) return [];
    const t = triangles.slice(i, i + 3);
    return new Set(t).size === 3 ? t : [];
  });
  return {
    positions: Float32Array.from(positions),
    normals: Float32Array.from(positions, (c) => c / R),
    triangles: Uint32Array.from(whole),
  };
}

function lengthOf(segments: Float32Array, count = segments.length): number {
  let sum = 0;
  for (let i = 0; i < count; i += 6)
    sum += Math.hypot(
      segments[i + 3] - segments[i],
      segments[i + 4] - segments[i + 1],
      segments[i + 5] - segments[i + 2],
    );
  return sum;
}

describe("ink lines of a mesh", () => {
  // Seen from distance d, a sphere's contour is the circle of radius R·√(1 − (R/d)²) in the plane at R²/d towards the eye.
  test.each([1500, 3000, 20_000])("the contour of a sphere from %i mm is its circle of tangents", (d) => {
    const errors = [24, 48, 96].map((rings) => {
      const scratch = new Scratch();
      const written = contourOf(sphere(rings), [d, 0, 0], scratch);
      const circle = 2 * Math.PI * R * Math.sqrt(1 - (R / d) ** 2);
      let off = 0;
      for (let i = 0; i < written; i += 3) off = Math.max(off, Math.abs(scratch.segments[i] - (R * R) / d));
      return { length: Math.abs(lengthOf(scratch.segments, written) / circle - 1), off };
    });
    expect(errors[2].length).toBeLessThan(0.002);
    // On a sphere n·(eye − p) is linear in p, so that the plane is met as exactly as single figures allow.
    expect(Math.max(...errors.map(({ off }) => off))).toBeLessThan(1e-3);
    // Second order: twice as fine, four times as near.
    expect(errors[2].length).toBeLessThan(errors[0].length / 8);
  });

  test("a contour longer than the buffer at hand is not cut off", () => {
    const scratch = new Scratch();
    scratch.segments = new Float32Array(6);
    const mesh = sphere(48);
    const written = contourOf(mesh, [3000, 200, 100], scratch);
    expect(written).toBe(contourOf(mesh, [3000, 200, 100], new Scratch()));
    expect(scratch.segments.length).toBeGreaterThanOrEqual(written);
  });

  test.each([0, 400, -750])("the cut of a sphere at %i mm is a circle", (at) => {
    const cut = crossingOf(sphere(96), [0, 0, 1], at);
    expect(lengthOf(cut) / (2 * Math.PI * Math.sqrt(R * R - at * at))).toBeCloseTo(1, 2);
    for (let i = 2; i < cut.length; i += 3) expect(cut[i]).toBeCloseTo(at, 3);
  });

  test("a closed mesh has no open edge, a bowl has its rim", () => {
    expect(openEdges(sphere(24))).toHaveLength(0);
    const rim = openEdges(sphere(48, Math.PI / 3));
    expect(lengthOf(rim) / (2 * Math.PI * R * Math.sin(Math.PI / 3))).toBeCloseTo(1, 2);
  });
});
