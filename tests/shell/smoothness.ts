import type { Field } from "../../core/surface/field.ts";
import { dice } from "./random-shell.ts";

export interface Spot {
  readonly point: readonly [number, number, number];
  readonly face: string;
  /** Largest miss of the gradient as a prediction of the value 0.02 mm away, per mm: a kink, or a jump of the value. */
  readonly miss: number;
  /** Turn of the gradient over 0.02 mm, radians. */
  readonly turn: number;
  /** How many points of the surface were looked at. */
  readonly seen: number;
}

export interface Box {
  readonly min: readonly [number, number, number];
  readonly max: readonly [number, number, number];
}

const H = 0.02;

/**
 * Looks at random points of the surface f = offset for places where the field is not smooth: where its gradient does not
 * foretell its value a hair away, or turns by more than the tightest radius could explain. Needs no mesh.
 */
export function roughestSpot(
  field: Field,
  seed: number,
  count: number,
  box: Box = field.bounds,
  offset = 0,
): Spot {
  const d = dice(seed);
  let worst: Spot = { point: [0, 0, 0], face: "", miss: 0, turn: 0, seen: 0 };
  let seen = 0;
  for (let k = 0; k < count; k++) {
    const p: [number, number, number] = [0, 0, 0];
    for (let i = 0; i < 3; i++) p[i] = d.between(box.min[i], box.max[i]);
    if (!land(field, p, offset)) continue;
    if (p.some((x, i) => x < box.min[i] || x > box.max[i])) continue;
    if (field.edge && field.edge.evaluate(p[0], p[1], p[2]) > -1) continue;
    seen++;
    const v = field.evaluate(p[0], p[1], p[2]);
    const g = Array.from(field.gradient);
    let miss = 0;
    let turn = 0;
    for (let i = 0; i < 3; i++) {
      const q = [...p];
      q[i] += H;
      miss = Math.max(miss, Math.abs(field.evaluate(q[0], q[1], q[2]) - v - H * g[i]) / H);
      turn = Math.max(turn, Math.hypot(...g.map((x, j) => x - field.gradient[j])));
    }
    if (Math.max(miss, turn) > Math.max(worst.miss, worst.turn)) {
      worst = {
        point: [...p],
        face: field.faces[field.owner(field.shares(p[0], p[1], p[2]))],
        miss,
        turn,
        seen,
      };
    }
  }
  return { ...worst, seen };
}

function land(field: Field, p: number[], offset: number): boolean {
  for (let step = 0; step < 25; step++) {
    const v = field.evaluate(p[0], p[1], p[2]) - offset;
    if (Math.abs(v) < 1e-7) return true;
    for (let i = 0; i < 3; i++) p[i] -= v * field.gradient[i];
  }
  return false;
}

/** The worst that tracks over a surface ran into, and where. */
export interface Rough {
  /** Widest gap between neighbouring points that stay apart however close they are asked for, mm. */
  tear: number;
  /** Largest turn of the gradient over a thousandth of a millimetre, radians. */
  kink: number;
  at: readonly number[];
  /** Points landed on. */
  seen: number;
}

/** Step along a track, mm. */
const STEP = 2.5;
/** A turn over one step, radians, from which on it is followed by halving to see whether it is a kink. */
const FOLLOWED = 0.02;

/**
 * Follows random tracks over f = offset within a ball about `centre` and halves every step that turns or stretches, as a
 * tear or kink does not give way. Finds what single points miss: a tear is met wherever a track crosses it.
 */
export function roughestTrack(
  field: Field,
  seed: number,
  tracks: number,
  centre: readonly number[],
  radius: number,
  offset = 0,
): Rough {
  const d = dice(seed);
  const worst: Rough = { tear: 0, kink: 0, at: [], seen: 0 };
  const normalAt = (p: readonly number[]): number[] => {
    field.evaluate(p[0], p[1], p[2]);
    return Array.from(field.gradient);
  };
  const inside = (p: readonly number[]) => apart(p, centre) < 1.7 * radius;
  const follow = (p: number[], q: number[]): void => {
    let [a, b] = [p, q];
    for (let halving = 0; halving < 14 && apart(a, b) > 1e-3; halving++) {
      const m = a.map((x, i) => (x + b[i]) / 2);
      if (!land(field, m, offset)) return;
      const [first, second] = [apart(a, m), apart(m, b)];
      const stretched = Math.max(first, second) > 0.75 * apart(a, b);
      const n = normalAt(m);
      const keepFirst = stretched ? first > second : apart(normalAt(a), n) > apart(n, normalAt(b));
      if (keepFirst) b = m;
      else a = m;
    }
    const gap = apart(a, b);
    const turn = gap > 0.01 ? 0 : apart(normalAt(a), normalAt(b));
    const torn = gap > 0.01;
    if (torn ? gap > worst.tear : worst.tear === 0 && turn > worst.kink) worst.at = a;
    if (torn) worst.tear = Math.max(worst.tear, gap);
    worst.kink = Math.max(worst.kink, turn);
  };
  for (let k = 0; k < tracks; k++) {
    let p = centre.map((x) => x + d.between(-radius, radius));
    const way = [0, 0, 0].map(() => d.between(-1, 1));
    const size = Math.hypot(...way);
    if (!land(field, p, offset) || !inside(p)) continue;
    for (let step = 0; step < 60; step++) {
      const q = p.map((x, i) => x + (STEP * way[i]) / size);
      if (!land(field, q, offset) || !inside(q)) break;
      if (field.edge && field.edge.evaluate(q[0], q[1], q[2]) > -2 - offset) break;
      worst.seen++;
      if (apart(p, q) > 1.5 * STEP || apart(normalAt(p), normalAt(q)) > FOLLOWED) follow(p, q);
      p = q;
    }
  }
  return worst;
}

const apart = (p: readonly number[], q: readonly number[]): number =>
  Math.hypot(...p.map((x, i) => x - q[i]));
