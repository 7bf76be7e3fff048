import type { Chain, Segment } from "./chain.ts";
import { JOINT_GAP, makeChain } from "./make-chain.ts";
import { arc, line } from "./segments.ts";

/** A corner of a polygon and the radius (mm) it is rounded with; radius 0 leaves it sharp. */
export interface Corner {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** What a segment of a rounded polygon was made from: side i runs from corner i to corner i + 1. */
export interface FilletPart {
  readonly of: "side" | "corner";
  readonly index: number;
}

/** A corner whose radius does not fit. */
export interface Misfit {
  readonly corner: number;
  readonly radius: number;
  /**
   * The largest radius that fits, when the corners at both ends of a side that is too short are made smaller in the
   * same proportion. Every misfit at its largest radius at once makes a polygon that fits.
   */
  readonly largest: number;
}

export type FilletResult =
  | { readonly ok: true; readonly chain: Chain; readonly parts: readonly FilletPart[] }
  | { readonly ok: false; readonly misfits: readonly Misfit[] };

/**
 * Rounds the corners of a polygon into a smooth chain of lines and arcs (mm). Corner i's arc comes before side i, save
 * that a closed chain begins with side 0. A corner that does not turn gets no arc, and a side that its two arcs use up
 * gets no line. An open polygon keeps its first and last points (their radii count for nothing).
 * Throws a RangeError for fewer than two points (closed: three), a repeated point, a negative radius, or a side that
 * doubles back on the one before. Radii that do not fit are returned as misfits.
 */
export function filletPolygon(corners: readonly Corner[], closed = true): FilletResult {
  const count = corners.length;
  if (count < (closed ? 3 : 2)) throw new RangeError(`A polygon needs more than ${count} points.`);
  const sideCount = closed ? count : count - 1;
  const sides = Array.from({ length: sideCount }, (_, i) => {
    const from = corners[i];
    const to = corners[(i + 1) % count];
    return line(from.x, from.y, to.x, to.y);
  });

  const turns = new Float64Array(count);
  /** Length that the corner's arc takes from the sides on either side of it. */
  const takes = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    if (!closed && (i === 0 || i === count - 1)) continue;
    const into = sides[(i + sideCount - 1) % sideCount];
    const out = sides[i];
    const cross = into.ux * out.uy - into.uy * out.ux;
    const dot = into.ux * out.ux + into.uy * out.uy;
    const turn = Math.atan2(cross, dot);
    if (!(corners[i].radius >= 0))
      throw new RangeError(`Corner ${i + 1} has the radius ${corners[i].radius}.`);
    if (Math.abs(turn) > Math.PI - 1e-9) throw new RangeError(`The polygon doubles back at corner ${i + 1}.`);
    // Too small an arc to see is left out; the kink that stays is below 1e-6 mm over the radius.
    if (corners[i].radius * Math.abs(turn) < JOINT_GAP) continue;
    turns[i] = turn;
    // The tangent of half the turn; exact for a square corner, so that sizes in whole millimetres stay whole.
    takes[i] = (corners[i].radius * Math.abs(cross)) / (1 + dot);
  }

  const misfits = findMisfits(
    corners,
    sides.map((side) => side.length),
    takes,
  );
  if (misfits.length > 0) return { ok: false, misfits };

  const segments: Segment[] = [];
  const parts: FilletPart[] = [];
  const addSide = (i: number) => {
    const side = sides[i];
    const start = takes[i];
    const end = side.length - takes[(i + 1) % count];
    if (end - start <= JOINT_GAP / 2) return;
    const { ax, ay, ux, uy } = side;
    const bx = takes[(i + 1) % count] === 0 ? side.bx : ax + end * ux;
    const by = takes[(i + 1) % count] === 0 ? side.by : ay + end * uy;
    segments.push({ ...side, ax: ax + start * ux, ay: ay + start * uy, bx, by, length: end - start });
    parts.push({ of: "side", index: i });
  };
  const addCorner = (i: number) => {
    if (takes[i] === 0) return;
    const { radius, x, y } = corners[i];
    const { ux, uy } = sides[(i + sideCount - 1) % sideCount];
    const way = Math.sign(turns[i]);
    const cx = x - takes[i] * ux - way * radius * uy;
    const cy = y - takes[i] * uy + way * radius * ux;
    segments.push(arc(cx, cy, radius, Math.atan2(-way * ux, way * uy), turns[i]));
    parts.push({ of: "corner", index: i });
  };
  for (let i = 0; i < sideCount; i++) {
    addSide(i);
    if (closed || i < sideCount - 1) addCorner((i + 1) % count);
  }
  return { ok: true, chain: makeChain(segments, closed), parts };
}

/** Corners that ask more of a side than it has: the takes at its two ends may not pass its length. */
function findMisfits(corners: readonly Corner[], sides: readonly number[], takes: Float64Array): Misfit[] {
  const share = new Float64Array(corners.length).fill(1);
  sides.forEach((length, i) => {
    const next = (i + 1) % corners.length;
    const asked = takes[i] + takes[next];
    // Arcs that meet in the middle of a side fit; a rounding error more still does.
    if (asked <= length + JOINT_GAP / 2) return;
    share[i] = Math.min(share[i], length / asked);
    share[next] = Math.min(share[next], length / asked);
  });
  return corners.flatMap(({ radius }, corner) =>
    share[corner] < 1 && takes[corner] > 0 ? [{ corner, radius, largest: radius * share[corner] }] : [],
  );
}
