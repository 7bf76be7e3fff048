import { arcOfChord, assembleCurve, curveAlong, halfTurn } from "./assemble-curve.ts";
import type { Contest } from "./contest.ts";
import type { SurfaceCurve } from "./curve.ts";
import type { Field } from "./field.ts";
import { GuessLine } from "./guess-line.ts";
import { unitNormal } from "./normal.ts";
import { projectOnto } from "./project.ts";
import { type Settler, settler } from "./settle.ts";

/** A scalar (mm) of a point. */
export type Scalar = (x: number, y: number, z: number) => number;

export interface TraceOptions {
  readonly closed: boolean;
  /** Distance between points where the line bends, mm; twice as far where it bends little, up to four times where it runs straight. Default 25. */
  readonly stepMm?: number;
  /** How far each point of the guess may lie from the line, mm: one figure, or one for each point. Default 40. */
  readonly slack?: number | Float64Array;
  /** True when the guess is known to have the first side on its left; otherwise that is found out. */
  readonly oriented?: boolean;
  /** Exact ends of an open line, three numbers each, both constraints met; taken as they are. */
  readonly start?: ArrayLike<number>;
  readonly end?: ArrayLike<number>;
  /** Its zero is where a closed line begins: the first point is moved there along the line. */
  readonly startOn?: Scalar;
  /** Its zero is where the free ends of an open line lie (the surface's own edge): they are moved there along the line. */
  readonly endOn?: Scalar;
}

export interface Trace {
  readonly curve: SurfaceCurve;
  /** False: part of the curve, or all of it, is only the guess moved onto the surface, for the reason given. */
  readonly exact: boolean;
  readonly reason: string;
}

/** Largest turn from one point to the next, rad. */
const MOST_TURN = 0.2;
/** Below this turn from one point to the next a span counts as straight, rad. */
const STRAIGHT = 0.002;
/** Below this turn, rad, points may lie twice as far apart as where the line bends more. */
const GENTLE = 0.04;
/** A span this short is never divided, mm: the line may have a corner there. */
const SHORTEST = 0.1;
const DEEPEST = 24;

/**
 * The exact line {field = 0, contest = 0} along a guess (3m numbers, points in order, spacing as it comes). Points meet
 * both constraints within 1e-6 mm and lie closest where the line turns; every point of the guess lies within its slack
 * of the line, so it cannot slip onto another branch. The first side of the contest lies on the left: a guess that runs
 * the other way is turned round, with its ends. Lengths: chord to arc by the turn of the exact tangents.
 *
 * Where there is no exact line to be found the guess fills the gap, and the reason is given. Meant for a `nearby` field.
 */
export function traceContest(
  field: Field,
  contest: Contest,
  guess: Float64Array,
  options: TraceOptions,
): Trace {
  const line = new GuessLine(guess, options.closed, options.slack ?? 40);
  const tracer = new Tracer(field, contest, line, options);
  const curve = tracer.run() ?? curveAlong(field, guess, options.closed);
  return { curve, exact: tracer.failure === "", reason: tracer.failure };
}

class Tracer {
  failure = "";
  private readonly field: Field;
  private readonly settler: Settler;
  private readonly options: TraceOptions;
  private readonly step: number;
  private line: GuessLine;
  /** Samples of nine numbers (point, tangent, normal); a sample is known by its offset. */
  private samples = new Float64Array(9 * 256);
  private used = 0;
  private readonly order: number[] = [];

  constructor(field: Field, contest: Contest, line: GuessLine, options: TraceOptions) {
    this.field = field;
    this.settler = settler(field, contest);
    this.line = line;
    this.options = options;
    this.step = options.stepMm ?? 25;
  }

  run(): SurfaceCurve | null {
    const { closed, startOn, endOn } = this.options;
    const facing = this.options.oriented ? 1 : this.facing();
    if (facing === 0) return this.fail("no point of the guess lies near the line");
    if (facing < 0) this.line = this.line.reversed();
    const start = facing < 0 ? this.options.end : this.options.start;
    const end = facing < 0 ? this.options.start : this.options.end;

    const { at, anchors } = this.anchors(start, end);
    if (anchors.length < 2) return this.fail("too few points of the guess lie near the line");
    const last = anchors.length - 1;
    if (closed && startOn && !this.moveOnto(anchors[0], startOn)) this.fail("its beginning was not found");
    if (!closed && endOn) {
      if (!start && !this.moveOnto(anchors[0], endOn)) this.fail("its first end was not found");
      if (!end && !this.moveOnto(anchors[last], endOn)) this.fail("its last end was not found");
    }
    for (let n = 0; n < last; n++) {
      this.order.push(anchors[n]);
      this.refine(anchors[n], anchors[n + 1], at[n] + 1, at[n + 1], 0);
    }
    this.order.push(anchors[last]);
    if (closed) this.refine(anchors[last], anchors[0], at[last] + 1, this.line.count + at[0], 0);
    const curve = assembleCurve(this.samples, this.order, closed);
    return curve.stations.length > 1 ? curve : this.fail("the line has no length");
  }

  private fail(reason: string): null {
    this.failure ||= reason;
    return null;
  }

  private add(): number {
    if (9 * (this.used + 1) > this.samples.length) {
      const more = new Float64Array(2 * this.samples.length);
      more.set(this.samples);
      this.samples = more;
    }
    return 9 * this.used++;
  }

  /** The point of the line nearest guess point k, as a new sample; −1 if there is none near. */
  private fromGuess(k: number): number {
    const i = this.add();
    this.line.sample(k, 1.5 * this.step, this.samples, i);
    if (this.settler.settle(this.samples, i)) {
      this.line.settled(k);
      return i;
    }
    this.used--;
    return -1;
  }

  /** 1 if the guess has the first side on its left, −1 if it runs the other way, 0 if it is near no line. */
  private facing(): number {
    const { line, settler, step } = this;
    const trial = new Float64Array(9);
    let votes = 0;
    for (let n = 0; n < 11 && Math.abs(votes) < 3; n++) {
      line.sample(Math.round((((n * 7) % 11) / 10) * (line.count - 1)), 1.5 * step, trial, 0);
      if (settler.settle(trial, 0)) votes++;
      else {
        for (let c = 3; c < 6; c++) trial[c] = -trial[c];
        if (settler.settle(trial, 0)) votes--;
      }
    }
    return Math.sign(votes);
  }

  /** Points of the line about eight steps apart, from the guess, with the guess indices they came from. */
  private anchors(start: ArrayLike<number> | undefined, end: ArrayLike<number> | undefined) {
    const { line } = this;
    const closed = this.options.closed;
    const anchors: number[] = [];
    const at: number[] = [];
    const spacing = Math.min(8 * this.step, line.length / (closed ? 4 : 2));
    const add = (i: number, k: number) => {
      anchors.push(i);
      at.push(k);
    };
    if (!closed && start) add(this.fixed(start, 0), -1);
    const last = closed || end ? line.length - 0.5 * spacing : line.length;
    let wanted = start && !closed ? 0.5 * spacing : 0;
    for (let k = 0; k < line.count; k++) {
      const tail = !closed && !end && k === line.count - 1;
      if (!tail && (line.stations[k] < wanted || line.stations[k] > last)) continue;
      const i = this.fromGuess(k);
      if (i < 0) continue;
      // A guess that wavers may put two anchors in the wrong order: keep the first of them.
      if (anchors.length > 0 && !this.ahead(anchors[anchors.length - 1], i)) continue;
      add(i, k);
      wanted = line.stations[k] + spacing;
    }
    if (!closed && end) {
      const i = this.fixed(end, line.count - 1);
      while (anchors.length > 1 && !this.ahead(anchors[anchors.length - 1], i)) {
        anchors.pop();
        at.pop();
      }
      add(i, line.count);
    }
    return { anchors, at };
  }

  /** A given end of the line as a sample: the tangent is that of the line at (or just beside) it. */
  private fixed(point: ArrayLike<number>, k: number): number {
    const i = this.add();
    const s = this.samples;
    this.line.sample(k, 1.5 * this.step, s, i);
    for (let c = 0; c < 3; c++) s[i + c] = point[c];
    if (!this.settler.settle(s, i)) {
      unitNormal(this.field, s[i], s[i + 1], s[i + 2], s, i + 6);
    }
    for (let c = 0; c < 3; c++) s[i + c] = point[c];
    return i;
  }

  private ahead(a: number, b: number): boolean {
    const s = this.samples;
    let along = 0;
    for (let c = 0; c < 3; c++) along += (s[b + c] - s[a + c]) * (s[a + 3 + c] + s[b + 3 + c]);
    return along > 0.1;
  }

  /** Moves sample i along the line until the scalar vanishes there. */
  private moveOnto(i: number, scalar: Scalar): boolean {
    const s = this.samples;
    const kept = s.slice(i, i + 9);
    for (let round = 0; round < 20; round++) {
      const value = scalar(s[i], s[i + 1], s[i + 2]);
      const ahead = scalar(s[i] + 0.01 * s[i + 3], s[i + 1] + 0.01 * s[i + 4], s[i + 2] + 0.01 * s[i + 5]);
      const slope = (ahead - value) / 0.01;
      if (!(Math.abs(slope) > 0.05)) break;
      const move = Math.min(Math.max(-value / slope, -60), 60);
      for (let c = 0; c < 3; c++) s[i + c] += move * s[i + 3 + c];
      if (!this.settler.settle(s, i)) break;
      if (Math.abs(move) < 1e-8) return true;
    }
    s.set(kept, i);
    return false;
  }

  /** Emits the samples strictly between a and b; the guess points first ≤ k < last lie between them. */
  private refine(a: number, b: number, first: number, last: number, depth: number): void {
    let s = this.samples;
    const chord = Math.hypot(s[b] - s[a], s[b + 1] - s[a + 1], s[b + 2] - s[a + 2]);
    if (chord < SHORTEST) return;
    if (depth > DEEPEST) {
      this.bridge(a, b, first, last, chord);
      return;
    }
    const half = halfTurn(s, a, b);
    const h = arcOfChord(s, a, b);
    const m = this.add();
    s = this.samples;
    // Midpoint and its tangent from the cubic through both ends.
    let size = 0;
    for (let c = 0; c < 3; c++) {
      s[m + c] = (s[a + c] + s[b + c]) / 2 + (h / 8) * (s[a + 3 + c] - s[b + 3 + c]);
      const t = (1.5 * (s[b + c] - s[a + c])) / h - (s[a + 3 + c] + s[b + 3 + c]) / 4;
      s[m + 3 + c] = t;
      size += t * t;
    }
    size = Math.sqrt(size);
    for (let c = 3; c < 6; c++) s[m + c] /= size;
    for (let c = 6; c < 9; c++) s[m + c] = s[a + c] + s[b + c];
    const x = s[m];
    const y = s[m + 1];
    const z = s[m + 2];
    const found = half < 1.2 && size > 0.3 && this.settler.settle(s, m, true);
    const off = Math.hypot(s[m] - x, s[m + 1] - y, s[m + 2] - z);
    const good = found && off < 0.3 * chord && this.ahead(a, m) && this.ahead(m, b);
    const astray = good ? this.line.furthest(s, a, m, b, first, last, 0.3 * chord * half) : -1;
    if (good && astray < 0) {
      const most = half < STRAIGHT ? Infinity : half < GENTLE ? 4 * this.step : 2 * this.step;
      const fine = off <= this.step / 2500 && half < MOST_TURN && h <= 1.02 * most;
      if (fine || chord < 2 * SHORTEST) this.order.push(m);
      else this.divide(a, m, b, first, last, depth);
      return;
    }
    // The ends tell too little of the line between, or it misses the guess: go by a point of the guess itself.
    if (!good && last <= first) {
      this.bridge(a, b, first, last, chord);
      return;
    }
    const middle = good ? astray : (first + last) >> 1;
    for (let n = 0; n <= last - first; n++) {
      const k = middle + (n % 2 === 0 ? n / 2 : -(n + 1) / 2);
      if (k < first || k >= last) continue;
      const i = this.fromGuess(k);
      if (i < 0 || !this.ahead(a, i) || !this.ahead(i, b)) continue;
      this.divide(a, i, b, first, last, depth);
      return;
    }
    if (good) {
      this.line.settled(astray);
      this.divide(a, m, b, first, last, depth);
    } else this.bridge(a, b, first, last, chord);
  }

  /** Fills the gap after sample a with the guess's own points, moved onto the surface. */
  private bridge(a: number, b: number, first: number, last: number, chord: number): void {
    if (chord < 20 * SHORTEST) return;
    this.fail(`no exact line over ${chord.toFixed(0)} mm near ${this.place(a)}`);
    for (let k = first; k < last; k++) {
      const i = this.add();
      this.line.sample(k, this.step, this.samples, i);
      const s = this.samples;
      const onto =
        projectOnto(this.field, s, i, 1e-7) && unitNormal(this.field, s[i], s[i + 1], s[i + 2], s, i + 6);
      if (onto && this.ahead(this.order[this.order.length - 1], i) && this.ahead(i, b)) this.order.push(i);
    }
  }

  private divide(a: number, m: number, b: number, first: number, last: number, depth: number): void {
    const k = this.line.cut(this.samples, m, first, last);
    this.refine(a, m, first, k, depth + 1);
    this.order.push(m);
    this.refine(m, b, k, last, depth + 1);
  }

  private place(i: number): string {
    return `(${Array.from(this.samples.subarray(i, i + 3), (v) => v.toFixed(0)).join(", ")})`;
  }
}
