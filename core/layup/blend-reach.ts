import type { Transition } from "../shell/transitions.ts";
import { contestBetween } from "../surface/contest.ts";
import { curvePointAt } from "../surface/curve.ts";
import { section } from "../surface/section.ts";
import type { Site } from "./site.ts";

/** Places along a transition at which its radius is measured; odd, so that one is the middle. */
const PLACES = 9;
/** A radius reaches no further than this along the surface, mm: half a turn of the largest one allowed, and the laminate. */
const FURTHEST = 800;

/**
 * How far the radius of a transition reaches to each side of its line, measured along the surface square to the line, mm: to
 * where the other side's faces no longer have a share. The greatest over places along the transition, its very ends left out.
 */
export function blendReach(site: Site, transition: Transition): [number, number] {
  const { curve, sides } = transition;
  const weights = contestBetween(site.field, sides[0], sides[1]);
  const reach: [number, number] = [0, 0];
  const at = new Float64Array(9);
  for (let place = 0; place < PLACES; place++) {
    curvePointAt(curve, (curve.length * (place + 0.5)) / PLACES, at);
    const [tx, ty, tz, nx, ny, nz] = at.subarray(3);
    const left = [ny * tz - nz * ty, nz * tx - nx * tz, nx * ty - ny * tx] as const;
    const plane = { origin: [at[0], at[1], at[2]], u: left, v: [nx, ny, nz] } as const;
    for (const side of [0, 1] as const) {
      const away = side === 0 ? 1 : -1;
      const run = section(site.reader.field, plane, plane.origin, {
        direction: left.map((c) => away * c),
        lengthMm: FURTHEST,
        stop: (x, y, z) => {
          const shares = site.near(x, y, z).shares(x, y, z);
          let other = 0;
          for (let i = 0; i < weights.length; i++) if (weights[i] === -away) other += shares[i];
          return 1e-6 - other;
        },
      });
      if (run?.ended === "stop") reach[side] = Math.max(reach[side], run.length);
    }
  }
  return reach;
}
