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
