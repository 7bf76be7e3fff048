import { signedArea } from "../layup/flat-shape.ts";
import type { Drape } from "./drape.ts";
import type { Cut } from "./lattice.ts";
import { withoutNeedles } from "./needles.ts";
import { outer, tipOf } from "./tip.ts";
import { untangled } from "./untangle.ts";
import type { ClothZone } from "./zone.ts";

/** Two stretches of edge that come this near to each other in flat cloth are one seam seen twice, mm. */
const SEAM = 3;
/** The mouth of a seam is no wider than this part of its depth. */
const MOUTH = 0.25;
/** The turn at the tip of a seam is no longer than this, mm. */
const TIP = 100;
/** The outline may run this far from the places found, mm. */
const TRUE = 0.1;

type Side = Cut["side"];

/**
 * The outline of a draped zone: x y pairs, mm, counter-clockwise, x along the warp; in and out along every cut. Where the zone's own lines
 * of sight meet beyond a corner (another part of the line becomes nearer) the two sides of their meeting are one seam in whole cloth,
 * and no edge; beside a cut they are the cut's own sides.
 */
export function outlineOf(zone: ClothZone, drape: Drape): Float64Array {
  const { columns, flat } = drape;
  const ring: number[] = [];
  const put = (c: number, k: number) => void ring.push(flat[c][2 * k], flat[c][2 * k + 1]);
  const last = columns.length - 1;
  const edge = (side: Side, order: readonly number[]) => {
    const seam = seamOf(zone, drape, side);
    for (const c of order) {
      if (!seam.has(c)) put(c, outer(columns[c], side));
      const other = c + (side === "right" ? 1 : -1);
      const beyond = Math.max(c, other);
      const tip = columns[side === "right" ? other : c]?.after?.side === side ? tipOf(drape, beyond) : null;
      if (tip !== null) alongCut(c, other, side, tip);
    }
  };
  const alongCut = (from: number, to: number, side: Side, at: number) => {
    const { ws } = columns[from];
    const inwards = side === "left" ? -1 : 1;
    for (let k = outer(columns[from], side) + inwards; k !== at; k += inwards) put(from, k);
    for (let k = at; k >= 0 && k < ws.length; k -= inwards) if (k !== outer(columns[to], side)) put(to, k);
  };
  const forwards = columns.map((_, c) => c);
  edge("right", forwards);
  for (let k = 1; k < columns[last].ws.length - 1; k++) put(last, k);
  edge("left", [...forwards].reverse());
  for (let k = columns[0].ws.length - 2; k > 0; k--) put(0, k);
  return withoutNeedles(untangled(simplified(ring)));
}

/** The columns whose place at the edge is within a seam: short of the full width, and seen twice. */
function seamOf({ left, right }: ClothZone, { columns, flat }: Drape, side: Side): Set<number> {
  const width = side === "left" ? left : right;
  const isShort = columns.map((column) => Math.abs(column.ws[outer(column, side)]) < width - 1e-6);
  if (!isShort.includes(true)) return new Set();
  // A seam that a cut goes into has become an edge.
  columns.forEach(({ after }, cut) => {
    if (after?.side !== side) return;
    for (let c = cut; c < columns.length && isShort[c]; c++) isShort[c] = false;
    for (let c = cut - 1; c >= 0 && isShort[c]; c--) isShort[c] = false;
  });
  const line = columns.map((column, c): Point => {
    const k = 2 * outer(column, side);
    return [flat[c][k], flat[c][k + 1]];
  });
  const last = columns.length - 1;
  return new Set(
    [...seenTwice(line), ...thereAndBack(line, isShort)].filter((c) => isShort[c] && c > 0 && c < last),
  );
}

/** The points of those stretches of short columns that lead back to where they left the full width, with next to nothing between the two ways. */
function thereAndBack(line: readonly Point[], isShort: readonly boolean[]): number[] {
  const apart = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(bx - ax, by - ay);
  const found: number[] = [];
  for (let from = 0; from < line.length; from++) {
    if (!isShort[from]) continue;
    let to = from;
    while (isShort[to + 1]) to++;
    if (from > 0 && to + 1 < line.length) {
      const way = line.slice(from - 1, to + 2);
      const steps = way.slice(1).map((p, i) => apart(way[i], p));
      const mouth = apart(way[0], way[way.length - 1]);
      const between = Math.abs(signedArea(way.flat()));
      const half = steps.reduce((sum, step) => sum + step, 0) / 2;
      if (mouth < MOUTH * half && between < SEAM * half) for (let c = from; c <= to; c++) found.push(c);
    }
    from = to;
  }
  return found;
}

type Point = readonly [number, number];

/**
 * The points of a line that runs to and fro over its own way, as round the limbs of a tree: those that lie on another part of it, and the
 * short tips between them.
 */
function seenTwice(line: readonly Point[]): number[] {
  const along = [0];
  for (let i = 1; i < line.length; i++)
    along.push(along[i - 1] + Math.hypot(line[i][0] - line[i - 1][0], line[i][1] - line[i - 1][1]));
  const isTwice = line.map((p, i) =>
    line.some((a, j) => {
      if (j + 1 === line.length) return false;
      const apart = Math.max(along[j] - along[i], along[i] - along[j + 1]);
      const reach = SEAM + along[j + 1] - along[j];
      const isNear = Math.abs(a[0] - p[0]) < reach && Math.abs(a[1] - p[1]) < reach;
      return isNear && apart > 3 * SEAM && distanceToChord(a, line[j + 1], p) < SEAM;
    }),
  );
  let before = -1;
  isTwice.forEach((twice, i) => {
    if (!twice) return;
    if (before >= 0 && along[i] - along[before] < TIP) isTwice.fill(true, before, i);
    before = i;
  });
  return isTwice.flatMap((twice, i) => (twice ? [i] : []));
}

function distanceToChord([ax, ay]: Point, [bx, by]: Point, [px, py]: Point): number {
  const dx = bx - ax;
  const dy = by - ay;
  const along = ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy || 1);
  const u = Math.min(1, Math.max(0, along));
  return Math.hypot(ax + u * dx - px, ay + u * dy - py);
}

/** A ring with no more corners than keep it within TRUE of all of them (Ramer 1972, Douglas & Peucker 1973). */
function simplified(ring: readonly number[]): Float64Array {
  const points = Array.from({ length: ring.length / 2 }, (_, i): Point => [ring[2 * i], ring[2 * i + 1]]);
  // The first corner and the one furthest from it stay.
  let far = 0;
  const from = (i: number) => Math.hypot(points[i][0] - points[0][0], points[i][1] - points[0][1]);
  for (let i = 1; i < points.length; i++) if (from(i) > from(far)) far = i;
  const closed = [...points, points[0]];
  const kept = [...thinned(closed, 0, far), ...thinned(closed, far, points.length)];
  return Float64Array.from(kept.flat());
}

/** The corners to keep from one kept corner up to, but without, the next. */
function thinned(points: readonly Point[], from: number, to: number): Point[] {
  let worst = from;
  let most = TRUE;
  for (let i = from + 1; i < to; i++) {
    const off = distanceToChord(points[from], points[to], points[i]);
    if (off > most) [worst, most] = [i, off];
  }
  if (worst === from) return to > from ? [points[from]] : [];
  return [...thinned(points, from, worst), ...thinned(points, worst, to)];
}
