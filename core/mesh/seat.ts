import type { EdgeCut, Field } from "../surface/field.ts";
import type { Facets } from "./facets.ts";
import type { Space } from "./space.ts";

/**
 * Seats points on the surface: Newton steps along the gradient, or within the span of both gradients for a point that
 * has to lie on the edge cut as well. A seat keeps the last point and its normal in `point` and `normal`.
 */
export interface Seat {
  /** x, y, z, mm: set before a call, moved by it. */
  readonly point: Float64Array;
  /** Unit normal at the seated point. */
  readonly normal: Float64Array;
  /** Face that owns the seated point; −1 where it is not asked for. */
  owner: number;
  /**
   * Moves `point` onward to near the surface, from the air along a unit way, from the ground against it, by as much as the field
   * says is free at a time. Left where it is when the surface is not met within `reach` mm.
   */
  onward(way: Float64Array, reach: number): void;
  /** How far `point` lies from the surface, mm. */
  off(): number;
  /** Moves `point` onto the surface. False, with the point as near as it got, when it would not settle within `reach` mm. */
  onSurface(reach: number): boolean;
  /** Moves `point` onto the surface and the edge cut at once. False when it would not settle within `reach` mm. */
  onCut(reach: number): boolean;
}

const MOST_STEPS = 16;
/** Steps of going onward, which ends this near to the surface, mm. */
const MOST_ONWARD_STEPS = 60;
const NEAR = 0.1;
/** Distance from the surface at which a point counts as seated, mm. */
const SEATED = 1e-9;
/** A Newton step from closer than this lands within 1e-9 mm on any radius from 5 mm up: no need to look again. */
const LAST_STEP = 1e-4;
/**
 * In a field of distances a step from anywhere lands on the surface; from closer than this, mm, it is taken to, which saves
 * half the asking. Of 800 000 such steps on 45 random shells none ended more than 2e-7 mm off it, by how closely a rolling ball's
 * centre is found; nor on a torn shell, whose steps from farther off did.
 */
const TRUSTED = 3;
/** Square of a distance's slope, within this of 1. */
const UNIT = 1e-9;

/**
 * Makes a seat for the surface of the space's field. One that `doubts`, for looking for tears, does not rest until it sees the
 * point on the surface; nor does it ask who owns the point, a fifth of the work.
 */
export function makeSeat(space: Space, { doubts = false } = {}): Seat {
  const point = new Float64Array(3);
  const normal = new Float64Array(3);
  const { edge } = space.field;
  const owners = !doubts;
  const trusted = space.field.distance === true && !doubts ? TRUSTED : 0;

  const readNormal = (g: Float64Array, size: number): void => {
    const s = 1 / size;
    normal[0] = g[0] * s;
    normal[1] = g[1] * s;
    normal[2] = g[2] * s;
  };

  const onward = (way: Float64Array, reach: number): void => {
    const [x0, y0, z0] = point;
    for (let step = 0, gone = 0; step < MOST_ONWARD_STEPS && gone < reach; step++) {
      const f = space.fieldAt(point[0], point[1], point[2]).evaluate(point[0], point[1], point[2]);
      for (let i = 0; i < 3; i++) point[i] -= f * way[i];
      gone += Math.abs(f);
      if (Math.abs(f) < NEAR) return;
    }
    point[0] = x0;
    point[1] = y0;
    point[2] = z0;
  };

  const off = (): number =>
    Math.abs(space.fieldAt(point[0], point[1], point[2]).evaluate(point[0], point[1], point[2]));

  const onSurface = (reach: number): boolean => {
    let x = point[0];
    let y = point[1];
    let z = point[2];
    const x0 = x;
    const y0 = y;
    const z0 = z;
    for (let step = 0; step < MOST_STEPS; step++) {
      const field = space.fieldAt(x, y, z);
      const shares = owners ? sharesAt(field, x, y, z) : null;
      const f = field.evaluate(x, y, z);
      const g = field.gradient;
      const g2 = g[0] * g[0] + g[1] * g[1] + g[2] * g[2];
      if (!(g2 > 1e-12)) return false;
      const far = Math.abs(f);
      if (far > SEATED) {
        // Past the first steps a point that still jumps about is held back.
        const move = step < 8 ? f / g2 : f / (2 * g2);
        x -= move * g[0];
        y -= move * g[1];
        z -= move * g[2];
        const dx = x - x0;
        const dy = y - y0;
        const dz = z - z0;
        if (!(dx * dx + dy * dy + dz * dz <= reach * reach)) return false;
        point[0] = x;
        point[1] = y;
        point[2] = z;
      }
      if (far < LAST_STEP || (far < trusted && Math.abs(g2 - 1) < UNIT)) {
        readNormal(g, Math.sqrt(g2));
        seat.owner = shares ? field.owner(shares) : (field.sole ?? -1);
        return true;
      }
    }
    return false;
  };

  const onCut = (reach: number): boolean => {
    if (!edge) return onSurface(reach);
    const x0 = point[0];
    const y0 = point[1];
    const z0 = point[2];
    for (let step = 0; step < MOST_STEPS; step++) {
      const x = point[0];
      const y = point[1];
      const z = point[2];
      const field: Field = space.fieldAt(x, y, z);
      const shares = owners ? sharesAt(field, x, y, z) : null;
      const f = field.evaluate(x, y, z);
      const cut: EdgeCut = space.cutAt(x, y, z) ?? edge;
      const e = cut.evaluate(x, y, z);
      const g = field.gradient;
      const k = cut.gradient;
      const gg = g[0] * g[0] + g[1] * g[1] + g[2] * g[2];
      const gk = g[0] * k[0] + g[1] * k[1] + g[2] * k[2];
      const kk = k[0] * k[0] + k[1] * k[1] + k[2] * k[2];
      const det = gg * kk - gk * gk;
      // Surface and cut run side by side: no line to stand on.
      if (!(det > 1e-6 * gg * kk)) return false;
      const a = (f * kk - e * gk) / det;
      const b = (e * gg - f * gk) / det;
      point[0] = x - a * g[0] - b * k[0];
      point[1] = y - a * g[1] - b * k[1];
      point[2] = z - a * g[2] - b * k[2];
      const dx = point[0] - x0;
      const dy = point[1] - y0;
      const dz = point[2] - z0;
      if (!(dx * dx + dy * dy + dz * dz <= reach * reach)) return false;
      if (Math.abs(f) < LAST_STEP && Math.abs(e) < LAST_STEP) {
        readNormal(g, Math.sqrt(gg));
        seat.owner = shares ? field.owner(shares) : (field.sole ?? -1);
        return true;
      }
    }
    return false;
  };
  const seat: Seat = { point, normal, owner: -1, onward, off, onSurface, onCut };
  return seat;
}

/**
 * The faces' shares at a point, null in a field of one face. Asked before the value, which then comes with them: to ask at
 * every seating costs a third of asking once more at every vertex in the end.
 */
export function sharesAt(field: Field, x: number, y: number, z: number): Float64Array | null {
  return field.sole === undefined ? field.shares(x, y, z) : null;
}

/** Gives a vertex the place, the normal and the owner at which the seat stands. One by one: `set` is slow for three numbers. */
export function placeAtSeat(m: Facets, v: number, { point, normal, owner }: Seat): void {
  const { position, normal: normals } = m;
  for (let i = 0, at = 3 * v; i < 3; i++, at++) {
    position[at] = point[i];
    normals[at] = normal[i];
  }
  m.owner[v] = owner;
}
