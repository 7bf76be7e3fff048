import { assembleCurve } from "./assemble-curve.ts";
import { type FieldNear, fieldNear } from "./bricks.ts";
import type { SurfaceCurve } from "./curve.ts";
import { Fairing } from "./fairing.ts";
import type { Field } from "./field.ts";
import { unitNormal } from "./normal.ts";
import { projectOnto } from "./project.ts";

export interface PathOptions {
  /** Whether the path runs back to its first point. */
  readonly closed?: boolean;
  /** Distance between samples, mm, or a little less (20). */
  readonly spacingMm?: number;
}

const NEAREST_KNOTS = 1;
const EXACT = 1e-9;
/** Largest turn from one sample to the next, rad, unless they are 2^DEEPEST times as close as the nodes. */
const MOST_TURN = 0.2;
const DEEPEST = 5;

/**
 * The smooth curve on the surface `field` = 0 through given points (three numbers each, mm; moved onto the surface first): the
 * curve of least ∫|D²x/dt²|² dt, D the derivative along the surface and t running between neighbouring points as the shortest way
 * between them is long. It is the surface's own cubic spline: on a plane the natural cubic spline by chord
 * length, between two points the geodesic (Noakes, Heinzinger & Paden, IMA J. Math. Control Inform. 6 (1989) 465–473). Discretised
 * by second differences and solved by damped Gauss–Newton steps in the tangent planes; error of second order in the spacing.
 *
 * Throws a RangeError naming the point that has no surface near it or falls on its neighbour, or if there are too few.
 */
export function pathThrough(field: Field, knots: ArrayLike<number>, options: PathOptions = {}): SurfaceCurve {
  const { closed = false, spacingMm = 20 } = options;
  const near = fieldNear(field);
  const corners = checkKnots(near, knots, closed);
  const count = corners.length / 3;
  const legs = closed ? count : count - 1;
  const nodes: number[] = [];
  const fixed: boolean[] = [];
  const gaps: number[] = [];
  for (let leg = 0; leg < legs; leg++) {
    const line = shortestWay(near, corners, leg, (leg + 1) % count, spacingMm);
    const spans = line.length / 3 - 1;
    for (let i = 0; i < spans; i++) {
      nodes.push(line[3 * i], line[3 * i + 1], line[3 * i + 2]);
      fixed.push(i === 0);
      gaps.push(polylineLength(line) / spans);
    }
  }
  if (!closed) {
    nodes.push(corners[3 * count - 3], corners[3 * count - 2], corners[3 * count - 1]);
    fixed.push(true);
  }
  const x = Float64Array.from(nodes);
  const fairing = new Fairing(near, x, fixed, gaps, closed);
  fairing.run();
  return sampled(near, x, fairing.tangents(), closed);
}

function checkKnots(near: FieldNear, knots: ArrayLike<number>, closed: boolean): Float64Array {
  const count = Math.floor(knots.length / 3);
  const least = closed ? 3 : 2;
  if (count < least)
    throw new RangeError(
      `A path has ${count} points: ${closed ? "a closed path " : ""}wants at least ${least}.`,
    );
  const points = Float64Array.from({ length: 3 * count }, (_, k) => knots[k]);
  for (let i = 0; i < count; i++) {
    const [x, y, z] = points.subarray(3 * i, 3 * i + 3);
    const said = `Point ${i + 1} of the path, (${x.toFixed(1)}, ${y.toFixed(1)}, ${z.toFixed(1)}) mm,`;
    if (!projectOnto(near(x, y, z), points, 3 * i, EXACT)) {
      throw new RangeError(`${said} has no surface near it: give a point on the surface.`);
    }
    const j = i > 0 ? i - 1 : closed ? count - 1 : -1;
    if (j >= 0 && distance(points, 3 * i, points, 3 * j) < NEAREST_KNOTS) {
      throw new RangeError(
        `${said} falls on the one before it: points must be ${NEAREST_KNOTS} mm apart or more.`,
      );
    }
  }
  return points;
}

/** A polyline on the surface near the shortest way from one knot to another, in equal spans of at most `spacing`. */
function shortestWay(
  near: FieldNear,
  knots: Float64Array,
  from: number,
  to: number,
  spacing: number,
): Float64Array {
  let line = new Float64Array([
    ...knots.subarray(3 * from, 3 * from + 3),
    ...knots.subarray(3 * to, 3 * to + 3),
  ]);
  // Halve and pull taut: each level starts near the taut line of the one before.
  for (let level = 0; level < 16 && polylineLength(line) / (line.length / 3 - 1) > spacing; level++) {
    const spans = line.length / 3 - 1;
    const finer = new Float64Array(3 * (2 * spans + 1));
    for (let i = 0; i <= spans; i++) finer.set(line.subarray(3 * i, 3 * i + 3), 6 * i);
    for (let i = 1; i < 2 * spans; i += 2) middle(near, finer, i);
    for (let sweep = 0; sweep < 4; sweep++) for (let i = 1; i < 2 * spans; i++) middle(near, finer, i);
    line = finer;
  }
  return evenly(near, line, Math.max(2, Math.ceil(polylineLength(line) / spacing - 1e-9)));
}

/** Puts point i of a line half way between its neighbours, on the surface; leaves it if there is none. */
function middle(near: FieldNear, line: Float64Array, i: number): void {
  const p = new Float64Array(3);
  for (let k = 0; k < 3; k++) p[k] = 0.5 * (line[3 * (i - 1) + k] + line[3 * (i + 1) + k]);
  projectOnto(near(p[0], p[1], p[2]), p, 0, 1e-6);
  line.set(p, 3 * i);
}

/** The polyline divided into equal spans, every point put on the surface. */
function evenly(near: FieldNear, line: Float64Array, spans: number): Float64Array {
  const out = new Float64Array(3 * (spans + 1));
  const whole = polylineLength(line);
  let done = 0;
  let i = 0;
  for (let k = 0; k <= spans; k++) {
    const goal = (whole * k) / spans;
    while (i + 2 < line.length / 3 && done + distance(line, 3 * i, line, 3 * i + 3) < goal) {
      done += distance(line, 3 * i, line, 3 * i + 3);
      i++;
    }
    const u = Math.min(1, (goal - done) / distance(line, 3 * i, line, 3 * i + 3));
    for (let c = 0; c < 3; c++) out[3 * k + c] = (1 - u) * line[3 * i + c] + u * line[3 * i + 3 + c];
    projectOnto(near(out[3 * k], out[3 * k + 1], out[3 * k + 2]), out, 3 * k, EXACT);
  }
  out.set(line.subarray(0, 3), 0);
  out.set(line.subarray(line.length - 3), 3 * spans);
  return out;
}

/** The curve through the nodes, with more samples between them where it turns, as it goes over a nose. */
function sampled(near: FieldNear, x: Float64Array, tangents: Float64Array, closed: boolean): SurfaceCurve {
  const count = x.length / 3;
  const samples: Float64Array[] = [];
  for (let i = 0; i < count; i++) {
    const node = new Float64Array(9);
    node.set(x.subarray(3 * i, 3 * i + 3));
    node.set(tangents.subarray(3 * i, 3 * i + 3), 3);
    unitNormal(near(node[0], node[1], node[2]), node[0], node[1], node[2], node, 6);
    if (i > 0) fillBend(near, samples, node, DEEPEST);
    samples.push(node);
  }
  if (closed) fillBend(near, samples, samples[0], DEEPEST);
  const all = new Float64Array(9 * samples.length);
  samples.forEach((sample, i) => void all.set(sample, 9 * i));
  const order = samples.map((_, i) => 9 * i);
  return assembleCurve(all, order, closed);
}

/** Puts samples between the last of `samples` and `end` until none turns by more than MOST_TURN from the one before. */
function fillBend(near: FieldNear, samples: Float64Array[], end: Float64Array, depth: number): void {
  const start = samples[samples.length - 1];
  const turn = Math.hypot(end[3] - start[3], end[4] - start[4], end[5] - start[5]);
  if (turn <= MOST_TURN || depth === 0) return;
  const middle = new Float64Array(9);
  const length = distance(start, 0, end, 0) * (1 + (turn * turn) / 24);
  for (let k = 0; k < 3; k++) {
    middle[k] = 0.5 * (start[k] + end[k]) + (length / 8) * (start[3 + k] - end[3 + k]);
    middle[3 + k] = (1.5 * (end[k] - start[k])) / length - 0.25 * (start[3 + k] + end[3 + k]);
  }
  const local = near(middle[0], middle[1], middle[2]);
  if (!projectOnto(local, middle, 0, EXACT)) return;
  unitNormal(local, middle[0], middle[1], middle[2], middle, 6);
  const out = middle[3] * middle[6] + middle[4] * middle[7] + middle[5] * middle[8];
  for (let k = 0; k < 3; k++) middle[3 + k] -= out * middle[6 + k];
  const size = Math.hypot(middle[3], middle[4], middle[5]);
  if (!(size > 0)) return;
  for (let k = 0; k < 3; k++) middle[3 + k] /= size;
  fillBend(near, samples, middle, depth - 1);
  samples.push(middle);
  fillBend(near, samples, end, depth - 1);
}

const distance = (a: Float64Array, i: number, b: Float64Array, j: number) =>
  Math.hypot(a[i] - b[j], a[i + 1] - b[j + 1], a[i + 2] - b[j + 2]);

function polylineLength(line: Float64Array): number {
  let sum = 0;
  for (let i = 3; i < line.length; i += 3) sum += distance(line, i - 3, line, i);
  return sum;
}
