import { around } from "./rim-marks.ts";
import { placeOnTape, type Tape, type TapePlace } from "./tape.ts";

/** A line drawn on the unrolled wall strays from the true one by no more than this, mm. */
const SAGITTA = 2;

/**
 * A line of the unrolled wall: pairs of along (rim station) and down, mm. Along runs on without a jump where the line passes the
 * shallow centre, so it may lie outside 0 … the rim's length. On the coping down is negative: the way out from the rim.
 */
export type TapeLine = Float64Array;

/** A line on the unrolled wall with the points of the surface that it shows: x y z, mm, for each of its pairs. */
export interface LaidLine {
  readonly line: TapeLine;
  readonly points: Float64Array;
}

/**
 * Lays points of the surface (x y z of each, mm) on the unrolled wall. `indices` chooses the points. `beside` gives the down of a
 * point that the tape does not reach (behind a riser, say), or null to leave it out; `furthest` is the greatest down that a
 * point can have at its station, beyond which the tape went astray.
 */
export function tapeLine(
  tape: Tape,
  points: ArrayLike<number>,
  indices: readonly number[],
  beside: (
    index: number,
    place: TapePlace,
  ) => { readonly down: number; readonly furthest: number } | null = () => null,
): LaidLine {
  const { length } = tape.shell.outline.chain;
  const line: number[] = [];
  const shown: number[] = [];
  for (const i of indices) {
    const point = [points[3 * i], points[3 * i + 1], points[3 * i + 2]];
    const place = placeOnTape(tape, point);
    const down = downOf(place, beside(i, place));
    if (down === null) continue;
    const before = line.length > 0 ? line[line.length - 2] : null;
    line.push(before === null ? place.station : before + around(place.station - before, length), down);
    shown.push(...point);
  }
  return { line: Float64Array.from(line), points: Float64Array.from(shown) };
}

function downOf(
  { downMm, outMm }: TapePlace,
  beside: { readonly down: number; readonly furthest: number } | null,
): number | null {
  if (downMm === null) return outMm > 0 ? -outMm : (beside?.down ?? null);
  return beside && downMm > beside.furthest ? beside.down : downMm;
}

/**
 * Indices of as few of a polyline's points (x y z of each) as keep it within 2 mm of the whole: the farthest point off a chord is
 * kept until none is farther (Douglas and Peucker, 1973). First and last are always among them.
 */
export function tellingPoints(points: ArrayLike<number>, count: number): number[] {
  const kept = new Set([0, count - 1]);
  const open: [number, number][] = [[0, count - 1]];
  for (let span = open.pop(); span; span = open.pop()) {
    const [from, to] = span;
    let furthest = SAGITTA;
    let at = -1;
    for (let i = from + 1; i < to; i++) {
      const off = distanceToChord(points, i, from, to);
      if (off <= furthest) continue;
      furthest = off;
      at = i;
    }
    if (at < 0) continue;
    kept.add(at);
    open.push([from, at], [at, to]);
  }
  return [...kept].sort((a, b) => a - b);
}

function distanceToChord(p: ArrayLike<number>, i: number, from: number, to: number): number {
  const [ux, uy, uz] = [0, 1, 2].map((k) => p[3 * to + k] - p[3 * from + k]);
  const [vx, vy, vz] = [0, 1, 2].map((k) => p[3 * i + k] - p[3 * from + k]);
  const square = ux * ux + uy * uy + uz * uz;
  const t = square > 0 ? Math.min(1, Math.max(0, (ux * vx + uy * vy + uz * vz) / square)) : 0;
  return Math.hypot(vx - t * ux, vy - t * uy, vz - t * uz);
}
