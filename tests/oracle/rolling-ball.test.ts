/**
 * The zero set against balls placed by hand. A ball that touches wall and floor (or a tread's nose) from the pool's side has
 * its centre one radius from both, on exact plan distances; its arc between the two contacts is the surface. Slow and obvious:
 * Newton's method for the centre, no blending, no reduction of operands.
 */
import { describe, expect, it } from "vitest";
import type { Chain } from "../../core/plan/chain.ts";
import { nearest } from "../../core/plan/nearest.ts";
import { segmentAt } from "../../core/plan/segments.ts";
import type { ShellSpec } from "../../core/project/schema.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { builtAsAsked } from "../published/basins.ts";
import { plain, withFeatures } from "./layouts.ts";
import { endProfile, floorProfile } from "./profiles.ts";

type Vector = [number, number, number];
type Distance = (p: Vector) => { value: number; gradient: Vector };

const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const along = (p: Vector, d: Vector, t: number): Vector => [
  p[0] + t * d[0],
  p[1] + t * d[1],
  p[2] + t * d[2],
];

/** Distance to the drafted wall over the outline: exact, since lines give planes and arcs cones. */
function wallOf({ spec, outline }: Shell): Distance {
  const draft = (spec.draftDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(draft), Math.sin(draft)];
  return ([x, y, z]) => {
    const { distance, nx, ny } = nearest(outline.chain, x, y);
    return { value: cos * distance - sin * z, gradient: [cos * nx, cos * ny, -sin] };
  };
}

/** Distance to the prism below a profile, which lies across the pool and falls to one side. */
function prismOf(profile: Chain, crossFall: number): Distance {
  const fall = Math.atan(crossFall / 1000);
  const [cos, sin] = [Math.cos(fall), Math.sin(fall)];
  return ([x, y, z]) => {
    const { distance, nx, ny } = nearest(profile, x, z * cos - y * sin);
    return { value: distance, gradient: [nx, -ny * sin, ny * cos] };
  };
}

/** The point one radius on the pool's side of both, nearest to a guess; null where Newton finds none. */
function centreOf(a: Distance, b: Distance, radius: number, guess: Vector): Vector | null {
  let c = guess;
  for (let step = 0; step < 60; step++) {
    const [p, q] = [a(c), b(c)];
    const [u, v] = [p.value + radius, q.value + radius];
    if (Math.abs(u) + Math.abs(v) < 1e-10) return c;
    const k = dot(p.gradient, q.gradient);
    const det = 1 - k * k;
    c = along(along(c, p.gradient, -(u - k * v) / det), q.gradient, -(v - k * u) / det);
  }
  return null;
}

/** Greatest |f| over the arcs of balls that touch both, mm, and how many points were looked at. */
function worstOver(shell: Shell, a: Distance, b: Distance, radius: number, guesses: Iterable<Vector>) {
  let worst = { off: 0, at: [0, 0, 0] as Vector };
  let points = 0;
  for (const guess of guesses) {
    const c = centreOf(a, b, radius, guess);
    if (!c) continue;
    const [g, h] = [a(c).gradient, b(c).gradient];
    for (const part of [0.02, 0.2, 0.4, 0.5, 0.6, 0.8, 0.98]) {
      const d = along([g[0] * (1 - part), g[1] * (1 - part), g[2] * (1 - part)], h, part);
      const p = along(c, d, radius / Math.sqrt(dot(d, d)));
      const off = Math.abs(shell.field.evaluate(...p));
      points++;
      if (off > worst.off) worst = { off, at: p };
    }
  }
  return { ...worst, points };
}

/** Starting points inside the outline, one every `step` mm of it. */
function* roundInside(chain: Chain, step: number, inset: number, z: number): Generator<Vector> {
  for (let s = 0; s < chain.length; s += step) {
    const i = chain.segments.findIndex((_, k) => chain.stations[k + 1] > s);
    const { x, y, tx, ty } = segmentAt(chain.segments[i], s - chain.stations[i]);
    yield [x - inset * ty, y + inset * tx, z];
  }
}

describe("the cove is the ball's own surface", () => {
  it.each(plain)("%s", (name: string, spec: ShellSpec) => {
    const shell = builtAsAsked(spec);
    const floor = prismOf(floorProfile(spec, shell.outline.extent.length), spec.floor.crossFall);
    const { cove } = spec.radii;
    const guesses = roundInside(shell.outline.chain, 11, cove + 70, -900);
    const { off, at, points } = worstOver(shell, wallOf(shell), floor, cove, guesses);
    expect(points).toBeGreaterThan(7000);
    expect(off, `${name}: ${off} mm at ${at}`).toBeLessThan(2e-3);
  });
});

describe("so is the round between wall and steps, over noses that run into a curved wall", () => {
  it.each(withFeatures)("%s", (name: string, spec: ShellSpec) => {
    const shell = builtAsAsked(spec);
    const { profile } = endProfile(spec.features[0], spec, shell.outline.extent.length, -2500);
    const wall = wallOf(shell);
    const { step } = spec.radii;
    const guesses: Vector[] = [];
    // Along the treads and risers from 250 mm off the end wall to the last nose; below it the cove joins in.
    const last = profile.stations[profile.segments.length - 2];
    for (let s = 3250; s < last; s += 7) {
      const i = profile.segments.findIndex((_, k) => profile.stations[k + 1] > s);
      const { x, y: z, tx, ty } = segmentAt(profile.segments[i], s - profile.stations[i]);
      // Near the side wall: half-way to it from the middle, then as far as the wall lets it.
      let y = 0;
      for (let n = 0; n < 60; n++) y -= wall([x - step * ty, y, z + step * tx]).value + step;
      guesses.push([x - step * ty, y, z + step * tx]);
    }
    const { off, at, points } = worstOver(shell, wall, prismOf(profile, 0), step, guesses);
    expect(points).toBeGreaterThan(800);
    expect(off, `${name}: ${off} mm at ${at}`).toBeLessThan(0.02);
  });
});
