import { bisectEdge } from "./bisect-edge.ts";
import { collapseIfBetter, takeOutOfThree } from "./collapse.ts";
import { ADRIFT, aroundFrom, type Facets, next, startOf } from "./facets.ts";
import { flipAround } from "./flip.ts";
import type { Seat } from "./seat.ts";
import { FAIR, shapeAt, shapeOf, squareLength } from "./shape.ts";
import { smoothVertex } from "./smooth.ts";
import { makeWorklist, notPlain, put, type Worklist } from "./worklist.ts";

/** Triangles with an angle under this have an edge drawn together or split. */
const POOR = shapeAt(17);
const SMOOTHINGS = 3;
const REPAIRS = 8;
/** Rounds end after so many that helped few triangles, at once when many are left: the field must be torn there. */
const MOST_STALLED = 5;
const MANY = 2000;
/** Square of the shortest edge that is split to mend a shape, mm². */
const SPLITTABLE = 64;

/**
 * Makes the triangles well shaped: turns diagonals, slides vertices along the surface, and where that is not enough
 * draws a short edge together or splits a long one. Only badly shaped triangles and their surroundings are worked on.
 * What cannot be repaired is left as it is; the net stays closed. Returns the triangles that may have changed.
 */
export function improve(m: Facets, seat: Seat, tolerance: number, among = notPlain(m)): Worklist {
  const changed = makeWorklist(m.triangles);
  let work = worseThan(m, among, FAIR);
  flipAround(m, work, tolerance);
  for (let n = 0; n < work.length; n++) put(changed, work.items[n]);
  const splitsAllowed = m.triangles + m.triangles / 50 + 100;
  let before = Infinity;
  let stalled = 0;
  for (let round = 0; round < SMOOTHINGS + REPAIRS; round++) {
    const repairing = round >= SMOOTHINGS;
    const bad = worseThan(m, work, repairing ? POOR : FAIR);
    if (bad.length === 0) break;
    if (bad.length > 0.8 * before && (bad.length > MANY || (repairing && ++stalled > MOST_STALLED))) break;
    before = bad.length;
    // Shape first where nothing else has helped: gaps are closed afterwards.
    const leave = round < SMOOTHINGS + 3 ? tolerance : 2 * tolerance;
    const touched = makeWorklist(m.triangles);
    for (let n = 0; n < bad.length; n++) {
      const t = 3 * bad.items[n];
      if (m.corner[t] < 0) continue;
      // Splits only every other round, so that smoothing has its say between them.
      if (repairing) repair(m, seat, t, leave, round % 2 === 1 && m.triangles < splitsAllowed, touched);
      if (m.corner[t] < 0) continue;
      for (let i = 0; i < 3; i++)
        if (smoothVertex(m, seat, m.corner[t + i], leave)) putRound(m, m.corner[t + i], touched);
    }
    for (let n = 0; n < bad.length; n++) put(touched, bad.items[n]);
    flipAround(m, touched, leave);
    for (let n = 0; n < touched.length; n++) put(changed, touched.items[n]);
    work = touched;
  }
  return changed;
}

function worseThan(m: Facets, list: Worklist, limit: number): Worklist {
  const { corner } = m;
  const worse = makeWorklist(m.triangles);
  for (let n = 0; n < list.length; n++) {
    const t = 3 * list.items[n];
    if (corner[t] >= 0 && shapeOf(m, corner[t], corner[t + 1], corner[t + 2]) < limit)
      put(worse, list.items[n]);
  }
  return worse;
}

function repair(
  m: Facets,
  seat: Seat,
  t: number,
  tolerance: number,
  split: boolean,
  touched: Worklist,
): void {
  const { corner } = m;
  if (shapeOf(m, corner[t], corner[t + 1], corner[t + 2]) >= POOR) return;
  let short = t;
  let long = t;
  let least = Infinity;
  let most = 0;
  for (let h = t; h < t + 3; h++) {
    const square = squareLength(m, corner[h], corner[next(h)]);
    if (square < least) {
      least = square;
      short = h;
    }
    if (square > most) {
      most = square;
      long = h;
    }
  }
  const [p, q] = [corner[short], corner[next(short)]];
  if (collapseIfBetter(m, short, tolerance)) {
    putRound(m, m.leaving[p] >= 0 ? p : q, touched);
    return;
  }
  for (let h = t; h < t + 3; h++) {
    const beside = corner[next(h)];
    if (!takeOutOfThree(m, h, tolerance)) continue;
    putRound(m, beside, touched);
    return;
  }
  if (
    split &&
    most > SPLITTABLE &&
    m.standing[corner[long]] !== ADRIFT &&
    m.standing[corner[next(long)]] !== ADRIFT
  )
    putRound(m, bisectEdge(m, seat, long), touched);
}

/** Puts the triangles round a vertex on the list. */
export function putRound(m: Facets, v: number, list: Worklist): void {
  const start = startOf(m, v);
  let h = start;
  do {
    put(list, Math.floor(h / 3));
    h = aroundFrom(m, h);
  } while (h >= 0 && h !== start);
}
