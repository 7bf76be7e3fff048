import { arcOfChord, assembleCurve } from "./assemble-curve.ts";
import { bracketedRoot } from "./bracketed-root.ts";
import type { SurfaceCurve } from "./curve.ts";
import type { Field } from "./field.ts";
import type { Stop } from "./stops.ts";

/** A plane with a frame: origin (mm) and two unit directions square to each other. Its normal is u × v. */
export interface Plane {
  readonly origin: readonly [number, number, number];
  readonly u: readonly [number, number, number];
  readonly v: readonly [number, number, number];
}

export interface SectionOptions {
  /** Direction (any length) in which to set out from the start; only its sense along the section matters. */
  readonly direction: ArrayLike<number>;
  /** Greatest step, mm. Default 20. */
  readonly stepMm?: number;
  /** Most arc length to go, mm. Default 60000. */
  readonly lengthMm?: number;
  readonly stop?: Stop;
}

export interface Section extends SurfaceCurve {
  /**
   * How far the section has turned at each point since the start, rad: ∫κ ds, positive where the ground side is the
   * outer one (a cove), negative over a nose.
   */
  readonly turning: Float64Array;
  /** What ended it: the stop, the length asked for, the surface's own edge, its own beginning, or a point past which it could not be followed. */
  readonly ended: "stop" | "length" | "edge" | "closed" | "lost";
}

/** Largest turn over one step, rad. */
const MOST_TURN = 0.1;
/** Most estimated error of one step's length, mm. */
const STEP_ERROR = 2e-4;
/** Steps are halved down to this, mm; one that still turns further has met a crease. */
const SHORTEST = 0.04;
/** A step up to this long may turn a corner, mm. */
const CORNER = 0.5;
/** A step that gets no further than this part of its length has not been made. */
const LEAST_GONE = 0.1;
/** Newton squares its error and a move this small turns no normal by more than 1e-7: it is the last, mm. */
const LAST_MOVE = 1e-6;
/** How far the start may lie from the section, mm. */
const START = 300;

/** One march along the curve in which a surface cuts a plane; see `section`. */
export class PlaneMarch {
  /** Samples of nine numbers (point, tangent, normal); a sample is known by its offset. */
  private samples = new Float64Array(9 * 128);
  private used = 0;
  private readonly field: Field;
  private readonly plane: Plane;
  private readonly normal: Float64Array;
  /** The tangent is `sense` × (gradient × plane normal). */
  private sense = 1;
  private readonly outward = new Float64Array(3);

  constructor(field: Field, plane: Plane) {
    const { u, v } = plane;
    this.field = field;
    this.plane = plane;
    this.normal = Float64Array.of(
      u[1] * v[2] - u[2] * v[1],
      u[2] * v[0] - u[0] * v[2],
      u[0] * v[1] - u[1] * v[0],
    );
  }

  run(start: ArrayLike<number>, options: SectionOptions): Section | null {
    const first = this.add();
    if (!this.begin(start, options.direction, first)) return null;
    const usual = options.stepMm ?? 20;
    const longest = options.lengthMm ?? 60000;
    const { stop } = options;
    const edge = this.field.edge;
    const order = [first];
    const turns = [0];
    let ended: Section["ended"] | null = null;
    let length = 0;
    let step = usual;
    let bend = 0;
    let from = first;
    let before = stop ? this.at(stop, first) : 0;
    while (ended === null) {
      if (length >= longest - 1e-9) {
        ended = "length";
        break;
      }
      const to = this.add();
      const reach = Math.min(step, longest - length);
      if (
        !this.advance(from, to, reach, bend) ||
        this.stands(from, to, reach) ||
        this.rough(from, to, reach, bend, order.length > 1)
      ) {
        this.used--;
        step = reach / 2;
        if (reach <= SHORTEST) ended = "lost";
        continue;
      }
      if (length + reach >= longest) this.fit(from, to, longest - length);
      if (edge && edge.evaluate(this.samples[to], this.samples[to + 1], this.samples[to + 2]) > 0) {
        this.close(from, to, (x, y, z) => edge.evaluate(x, y, z));
        ended = "edge";
      }
      if (stop) {
        const value = this.at(stop, to);
        if (before < 0 && value >= 0) {
          this.close(from, to, stop);
          ended = "stop";
        }
        before = value;
      }
      if (ended === null && length > 3 * usual && this.passes(from, to, first)) {
        ended = "closed";
        break;
      }
      const h = arcOfChord(this.samples, from, to);
      const turn = this.turn(from, to);
      length += h;
      order.push(to);
      turns.push(turns[turns.length - 1] + turn);
      if (h > 0) bend = turn / h;
      from = to;
      step = Math.min(usual, 1.7 * reach);
    }
    const curve = assembleCurve(this.samples, order, ended === "closed");
    return { ...curve, turning: Float64Array.from(turns.slice(0, curve.stations.length)), ended };
  }

  private add(): number {
    if (9 * (this.used + 1) > this.samples.length) {
      const more = new Float64Array(2 * this.samples.length);
      more.set(this.samples);
      this.samples = more;
    }
    return 9 * this.used++;
  }

  private at(stop: Stop, i: number): number {
    return stop(this.samples[i], this.samples[i + 1], this.samples[i + 2]);
  }

  /** Sets sample i to the point of the section nearest to `start`, looking along `direction`. */
  private begin(start: ArrayLike<number>, direction: ArrayLike<number>, i: number): boolean {
    const { samples: s, normal: n } = this;
    const { origin } = this.plane;
    let off = 0;
    for (let c = 0; c < 3; c++) off += (start[c] - origin[c]) * n[c];
    for (let c = 0; c < 3; c++) s[i + c] = start[c] - off * n[c];
    const x = s[i];
    const y = s[i + 1];
    const z = s[i + 2];
    if (!this.settle(i, 40) || Math.hypot(s[i] - x, s[i + 1] - y, s[i + 2] - z) > START) return false;
    if (s[i + 3] * direction[0] + s[i + 4] * direction[1] + s[i + 5] * direction[2] < 0) {
      this.sense = -1;
      for (let c = 3; c < 6; c++) s[i + c] = -s[i + c];
    }
    return true;
  }

  /** Sets `to` to the point of the section about `reach` mm on from `from`, foreseen on a circle of curvature `bend`. */
  private advance(from: number, to: number, reach: number, bend: number): boolean {
    const { samples: s } = this;
    const angle = bend * reach;
    const ahead = Math.abs(angle) > 1e-6 ? Math.sin(angle) / bend : reach;
    const aside = Math.abs(angle) > 1e-6 ? (1 - Math.cos(angle)) / bend : 0;
    const outward = this.outwardAt(from);
    // A section that bends round the air side turns away from the ground.
    for (let c = 0; c < 3; c++) s[to + c] = s[from + c] + ahead * s[from + 3 + c] - aside * outward[c];
    const x = s[to];
    const y = s[to + 1];
    const z = s[to + 2];
    if (!this.settle(to, 12)) return false;
    const slip = Math.hypot(s[to] - x, s[to + 1] - y, s[to + 2] - z);
    const turned = s[to + 3] * s[from + 3] + s[to + 4] * s[from + 4] + s[to + 5] * s[from + 5];
    return reach > CORNER ? slip < 0.5 * reach && turned > 0.5 : slip < 3 * reach && turned > -0.9;
  }

  /** Whether a step gets hardly anywhere: at a crease it may settle again and again where it set out, and the march would have no end. */
  private stands(from: number, to: number, reach: number): boolean {
    const { samples: s } = this;
    const gone = Math.hypot(s[to] - s[from], s[to + 1] - s[from + 1], s[to + 2] - s[from + 2]);
    return !(gone >= LEAST_GONE * reach);
  }

  /** Whether a step turns too much, or turns otherwise than the curvature so far let expect, to be measured in one. */
  private rough(from: number, to: number, reach: number, bend: number, known: boolean): boolean {
    if (reach <= SHORTEST) return false;
    const h = arcOfChord(this.samples, from, to);
    const turn = this.turn(from, to);
    const surprise = known ? turn - bend * h : 0;
    return Math.abs(turn) > MOST_TURN || (surprise * surprise * h) / 100 > STEP_ERROR;
  }

  /** Moves `to` along the section until its arc length from `from` is `wanted`. */
  private fit(from: number, to: number, wanted: number): void {
    let reach = wanted;
    for (let round = 0; round < 8; round++) {
      const h = arcOfChord(this.samples, from, to);
      if (Math.abs(h - wanted) < 1e-9) return;
      reach += wanted - h;
      if (!this.advance(from, to, reach, this.turn(from, to) / h)) return;
    }
  }

  /** The unit direction in the plane square to the section at a sample, towards the ground. */
  private outwardAt(i: number): Float64Array {
    const { samples: s, normal: n, outward, sense } = this;
    outward[0] = sense * (n[1] * s[i + 5] - n[2] * s[i + 4]);
    outward[1] = sense * (n[2] * s[i + 3] - n[0] * s[i + 5]);
    outward[2] = sense * (n[0] * s[i + 4] - n[1] * s[i + 3]);
    return outward;
  }

  /** Signed angle by which the section turns between two samples, positive round the air side. */
  private turn(a: number, b: number): number {
    const { samples: s } = this;
    const outward = this.outwardAt(a);
    let along = 0;
    let out = 0;
    for (let c = 0; c < 3; c++) {
      along += s[b + 3 + c] * s[a + 3 + c];
      out += s[b + 3 + c] * outward[c];
    }
    return Math.atan2(-out, along);
  }

  /** Brings sample i onto the surface within the plane, and sets its tangent and normal. */
  private settle(i: number, rounds: number): boolean {
    const { field, samples: s, normal: n, sense } = this;
    for (let round = 0; round < rounds; round++) {
      const f = field.evaluate(s[i], s[i + 1], s[i + 2]);
      const g = field.gradient;
      const lean = g[0] * n[0] + g[1] * n[1] + g[2] * n[2];
      const ax = g[0] - lean * n[0];
      const ay = g[1] - lean * n[1];
      const az = g[2] - lean * n[2];
      const a2 = ax * ax + ay * ay + az * az;
      if (!(a2 > 1e-4)) return false;
      const most = 100 / Math.sqrt(a2);
      const move = Math.min(Math.max(-f / a2, -most), most);
      s[i] += move * ax;
      s[i + 1] += move * ay;
      s[i + 2] += move * az;
      if (Math.abs(f) > LAST_MOVE) continue;
      const flat = sense / Math.sqrt(a2);
      const size = Math.sqrt(g[0] * g[0] + g[1] * g[1] + g[2] * g[2]);
      s[i + 3] = (ay * n[2] - az * n[1]) * flat;
      s[i + 4] = (az * n[0] - ax * n[2]) * flat;
      s[i + 5] = (ax * n[1] - ay * n[0]) * flat;
      s[i + 6] = g[0] / size;
      s[i + 7] = g[1] / size;
      s[i + 8] = g[2] / size;
      return true;
    }
    return false;
  }

  /** Moves sample `to` back along the section to where the scalar rises through zero between `from` and `to`. */
  private close(from: number, to: number, stop: Stop): void {
    const whole = arcOfChord(this.samples, from, to);
    const bend = this.turn(from, to) / whole;
    const below = this.at(stop, from);
    const above = this.at(stop, to);
    const value = (reach: number) => (this.advance(from, to, reach, bend) ? this.at(stop, to) : Number.NaN);
    const reach = bracketedRoot(value, 0, below, whole, above, 1e-8);
    this.advance(from, to, Number.isNaN(reach) ? whole : reach, bend);
  }

  /** Whether the step from `from` to `to` runs past the first point again. */
  private passes(from: number, to: number, first: number): boolean {
    const { samples: s } = this;
    let chord = 0;
    let along = 0;
    let off = 0;
    let same = 0;
    for (let c = 0; c < 3; c++) {
      const d = s[to + c] - s[from + c];
      const e = s[first + c] - s[from + c];
      chord += d * d;
      along += d * e;
      off += e * e;
      same += s[first + 3 + c] * s[from + 3 + c];
    }
    return along >= 0 && along <= chord && same > 0.5 && off - (along * along) / chord < 0.1 * chord;
  }
}
