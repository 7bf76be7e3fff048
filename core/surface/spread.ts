import { type Cover, coverOf } from "./cover.ts";
import { type Columns, endOf, RAY_STRIDE, type Ray, type RayPair, type Shooter } from "./fan.ts";

/** Neighbouring rays may differ in heading or along by this angle, rad: the quadrature is then good to about 1e-5. */
const MOST_TURN = 0.4;
/** Difference of the angles of two rays' alongs to the chord, times the chord, mm: where a curvature begins or ends. */
const MOST_UNEVEN = 0.8;
/** Rays nearer to each other than this, mm, are not split for their turn. */
const NEAR_ENOUGH = 15;
/** The line of ends is followed until a span's area is uncertain by less than this, mm². */
const END_TOLERANCE = 30;
/** No span is shorter than this, mm. */
const CLOSEST = 0.5;
const MOST_PASSES = 12;
/** Columns that must be smooth whatever becomes of the rays, before it is known where they end. */
const FIRST_COLUMNS = 2;

/**
 * Rays from every part of the curve between two stations, each with the distance at which it is overtaken. Spans are at most
 * `alongMm` long and halved until their rays lie smoothly side by side as far as they go, and their ends run straight enough.
 *
 * Where rays end is found from what the others cover, twice: roughly first, so that no rays are spent on smoothness beyond the
 * ends (past a tight corner neighbours scatter), then exactly.
 */
export function spreadRays(
  shoot: Shooter,
  from: number,
  to: number,
  alongMm: number,
  columns: readonly [Columns, Columns],
  closed: boolean,
): RayPair[] {
  const [left, right] = columns;
  const spans = Math.max(1, Math.ceil((to - from) / alongMm - 1e-9));
  let pairs: RayPair[] = [];
  for (let i = 0; i <= spans; i++) pairs.push(shoot(from + ((to - from) * i) / spans));
  pairs = splitSpans(pairs, shoot, (a, b) => {
    return (
      turnApart(a.left, b.left, Math.min(FIRST_COLUMNS, left.count)) ||
      turnApart(a.right, b.right, Math.min(FIRST_COLUMNS, right.count))
    );
  });
  const rough = coverOf(pairs, columns, closed);
  for (const pair of pairs) findEnds(rough, pair);
  pairs = splitSpans(
    pairs,
    (station) => findEnds(rough, shoot(station)),
    (a, b) => unevenSide(a.left, b.left, left) || unevenSide(a.right, b.right, right),
  );
  const exact = coverOf(pairs, columns, closed);
  for (const pair of pairs) findEnds(exact, pair);
  return splitSpans(
    pairs,
    (station) => findEnds(exact, shoot(station)),
    (a, b, i, all) =>
      unevenSide(a.left, b.left, left) ||
      unevenSide(a.right, b.right, right) ||
      endsBend(all, i, "left", left) ||
      endsBend(all, i, "right", right),
  );
}

function findEnds(cover: Cover, pair: RayPair): RayPair {
  pair.left.crossing = cover.crossing(pair.left, 0, pair.station);
  pair.right.crossing = cover.crossing(pair.right, 1, pair.station);
  return pair;
}

/** Shoots one more ray pair in the middle of every span for which `split` says so, again and again until it says so of none. */
function splitSpans(
  pairs: RayPair[],
  shoot: Shooter,
  split: (a: RayPair, b: RayPair, i: number, all: readonly RayPair[]) => boolean,
): RayPair[] {
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const next: RayPair[] = [];
    for (let i = 0; i < pairs.length; i++) {
      const a = pairs[i];
      next.push(a);
      if (i + 1 === pairs.length) break;
      const b = pairs[i + 1];
      if (b.station - a.station > 2 * CLOSEST && split(a, b, i, pairs))
        next.push(shoot((a.station + b.station) / 2));
    }
    if (next.length === pairs.length) break;
    pairs = next;
  }
  return pairs;
}

/** Whether two neighbouring rays lie unevenly somewhere before both have ended. */
function unevenSide(a: Ray, b: Ray, columns: Columns): boolean {
  const last = (columns.count - 1) * columns.spacing;
  const reach = Math.max(endOf(a, last), endOf(b, last));
  return turnApart(a, b, Math.min(columns.count, Math.ceil(reach / columns.spacing) + 1));
}

/** Whether two neighbouring rays turn away from each other, or from the chord between them, by more than MOST_TURN in the first columns. */
function turnApart(rayA: Ray, rayB: Ray, columns: number): boolean {
  const a = rayA.data;
  const b = rayB.data;
  const least = Math.cos(MOST_TURN);
  for (let column = 0; column < columns; column++) {
    const at = RAY_STRIDE * column;
    const cx = b[at] - a[at];
    const cy = b[at + 1] - a[at + 1];
    const cz = b[at + 2] - a[at + 2];
    const gap2 = cx * cx + cy * cy + cz * cz;
    if (gap2 < NEAR_ENOUGH * NEAR_ENOUGH) continue;
    const headings = a[at + 3] * b[at + 3] + a[at + 4] * b[at + 4] + a[at + 5] * b[at + 5];
    const alongs = a[at + 6] * b[at + 6] + a[at + 7] * b[at + 7] + a[at + 8] * b[at + 8];
    if (headings < least || alongs < least) return true;
    const gap = Math.sqrt(gap2);
    const atA = Math.abs(cx * a[at + 6] + cy * a[at + 7] + cz * a[at + 8]) / gap;
    const atB = Math.abs(cx * b[at + 6] + cy * b[at + 7] + cz * b[at + 8]) / gap;
    if (Math.min(atA, atB) < least) return true;
    // Half of a span straight and half an arc: the sagitta is then off by up to about uneven · gap / 16.
    const uneven = Math.abs(Math.sqrt(Math.max(0, 1 - atA * atA)) - Math.sqrt(Math.max(0, 1 - atB * atB)));
    if (uneven * gap > MOST_UNEVEN) return true;
  }
  return false;
}

/** Whether the line of ends over span i strays from the straight between its rays by more than END_TOLERANCE of area. */
function endsBend(pairs: readonly RayPair[], i: number, side: "left" | "right", columns: Columns): boolean {
  if (columns.count === 1) return false;
  const length = pairs[i + 1].station - pairs[i].station;
  const last = (columns.count - 1) * columns.spacing;
  const a = endOf(pairs[i][side], last);
  const b = endOf(pairs[i + 1][side], last);
  if (a >= columns.halfWidth && b >= columns.halfWidth) return false;
  const slope = (b - a) / length;
  let bend = 0;
  if (i > 0) {
    const before = (a - endOf(pairs[i - 1][side], last)) / (pairs[i].station - pairs[i - 1].station);
    bend = Math.abs(slope - before);
  }
  if (i + 2 < pairs.length) {
    const after = (endOf(pairs[i + 2][side], last) - b) / (pairs[i + 2].station - pairs[i + 1].station);
    bend = Math.max(bend, Math.abs(after - slope));
  }
  // As wide as the rays still lie apart there: at a focal point nothing hangs on where exactly they end.
  const at = RAY_STRIDE * Math.min(columns.count - 1, Math.floor(Math.min(a, b) / columns.spacing));
  const p = pairs[i][side].data;
  const q = pairs[i + 1][side].data;
  const apart = Math.hypot(q[at] - p[at], q[at + 1] - p[at + 1], q[at + 2] - p[at + 2]);
  return (bend * length * apart) / 8 > END_TOLERANCE;
}
