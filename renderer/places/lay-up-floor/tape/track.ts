import { around } from "../../../../core/layup/rim-marks.ts";
import { planPointOf } from "../../../../core/layup/tape-treads.ts";
import type { Outline } from "../../../../core/plan/chain.ts";
import { nearest } from "../../../../core/plan/nearest.ts";
import { nearestOn } from "../../../tools/line-place.ts";
import type { LineView } from "../../../worker/messages.ts";
import { nearestOnFlat, type Point } from "./flat-lines.ts";
import type { Shown } from "./shown.ts";

/** A line of the shell as it lies on the tape, with the part of its length (0 … 1, running on past 1) at each point. */
export interface Track {
  readonly pieces: readonly Piece[];
  /** So far along the same place comes again, mm; null on a level face. */
  readonly turn: number | null;
}

interface Piece {
  readonly line: ArrayLike<number>;
  /** Rising. */
  readonly parts: readonly number[];
}

/** A stretch of a line in parts of its length; of a closed one it may run past its start. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

const known = new WeakMap<LineView, { readonly of: unknown; readonly track: Track | null }>();

/** The track of a line on what the board shows; null where it does not lie there. Remembered. */
export function trackOf(board: Shown, line: LineView, outline: Outline): Track | null {
  const of = board.face ?? board.wall;
  const before = known.get(line);
  if (before?.of === of) return before.track;
  const pieces = board.face ? piecesOnFace(board.face, line) : piecesOnWall(board.wall, line, outline);
  const track = pieces.length > 0 ? { pieces, turn: board.face ? null : board.wall.rimLengthMm } : null;
  known.set(line, { of, track });
  return track;
}

function piecesOnWall({ foot }: Shown["wall"], line: LineView, outline: Outline): Piece[] {
  if (line.kind === "rim") return [rimPiece(line, outline)];
  return foot
    .filter(({ id }) => line.kind === "foot" || id === line.id)
    .map(({ line: drawn, points }) => ({ line: drawn, parts: partsOf(line.outside, line.closed, points) }))
    .map(rising);
}

/** Parts of a line's length at points (x y z of each) that lie on it one after another. */
function partsOf(on: Float32Array, closed: boolean, points: ArrayLike<number>): number[] {
  const parts: number[] = [];
  for (let i = 0; i < points.length; i += 3) {
    const { part } = nearestOn(on, closed, [points[i], points[i + 1], points[i + 2]]);
    const last = parts[parts.length - 1];
    parts.push(closed && i > 0 ? last + around(part - last, 1) : part);
  }
  return parts;
}

/** The rim is the tape's own edge. */
function rimPiece({ outside, closed, lengthMm }: LineView, { chain }: Outline): Piece {
  const line: number[] = [];
  const parts: number[] = [];
  let length = 0;
  const count = outside.length / 3;
  for (let i = 0; i <= (closed ? count : count - 1); i++) {
    const [at, last] = [3 * (i % count), 3 * (i - 1)];
    if (i > 0) length += Math.hypot(...[0, 1, 2].map((k) => outside[at + k] - outside[last + k]));
    const { station } = nearest(chain, outside[at], outside[at + 1]);
    line.push(i === 0 ? station : line[2 * i - 2] + around(station - line[2 * i - 2], chain.length), 0);
    parts.push(length / lengthMm);
  }
  return rising({ line, parts });
}

/** What bounds a level face: found again by its plan, as a bound may leave the level at its ends. */
function piecesOnFace(face: NonNullable<Shown["face"]>, { id, outside, closed }: LineView): Piece[] {
  const plan = outside.map((p, i) => (i % 3 === 2 ? 0 : p));
  return face.bounds
    .filter((bound) => bound.id === id)
    .map(({ line }) => {
      const points: number[] = [];
      for (let i = 0; i < line.length; i += 2) points.push(...planPointOf(face, line[i], line[i + 1]), 0);
      return rising({ line, parts: partsOf(plan, closed, points) });
    });
}

function rising({ line, parts }: Piece): Piece {
  if (parts[parts.length - 1] >= parts[0]) return { line, parts };
  const back: number[] = [];
  for (let i = line.length - 2; i >= 0; i -= 2) back.push(line[i], line[i + 1]);
  return { line: back, parts: [...parts].reverse() };
}

/** The part of a line at the place of its track nearest to a point, and how far off it is, mm. */
export function partNear({ pieces, turn }: Track, { along, down }: Point): { part: number; off: number } {
  let best = { part: 0, off: Infinity };
  for (const { line, parts } of pieces)
    for (const by of turn === null ? [0] : [-turn, 0, turn]) {
      const { from, t, off } = nearestOnFlat(line, along + by, down);
      if (off < best.off) best = { part: mix(parts[from], parts[from + 1], t), off };
    }
  return { ...best, part: onLine(best.part) };
}

/** The place of a part of a line on the tape; null where that part does not lie there. */
export function placeAtPart({ pieces, turn }: Track, part: number): Point | null {
  for (const { line, parts } of pieces)
    for (const wanted of [part, part - 1, part + 1]) {
      const i = parts.findIndex((each, at) => at > 0 && parts[at - 1] <= wanted && wanted <= each);
      if (i < 0) continue;
      const t = parts[i] > parts[i - 1] ? (wanted - parts[i - 1]) / (parts[i] - parts[i - 1]) : 0;
      const along = mix(line[2 * i - 2], line[2 * i], t);
      return {
        along: turn === null ? along : along - Math.floor(along / turn) * turn,
        down: mix(line[2 * i - 1], line[2 * i + 1], t),
      };
    }
  return null;
}

/** The parts of a line at all places of its track that lie so far along. */
export function partsAlong({ pieces, turn }: Track, along: number): number[] {
  return pieces.flatMap(({ line, parts }) =>
    parts.flatMap((part, i) => {
      if (i === 0) return [];
      const [a, b] = [line[2 * i - 2], line[2 * i]];
      const at = turn === null ? along : along + Math.round((a - along) / turn) * turn;
      if (at < Math.min(a, b) || at > Math.max(a, b)) return [];
      const found = a === b ? part : mix(parts[i - 1], part, (at - a) / (b - a));
      return [onLine(found)];
    }),
  );
}

/** What lies on the tape of a stretch of a line, piece by piece; of the whole line if it is left out. */
export function stretchOn({ pieces }: Track, stretch?: Stretch): number[][] {
  if (!stretch) return pieces.map(({ line }) => Array.from(line));
  const to = stretch.to > stretch.from ? stretch.to : stretch.to + 1;
  return pieces
    .flatMap((piece) => [-1, 0, 1].map((turn) => clipped(piece, stretch.from + turn, to + turn)))
    .filter((line) => line.length >= 4);
}

function clipped({ line, parts }: Piece, from: number, to: number): number[] {
  const cut: number[] = [];
  const put = (i: number, at: number) => {
    const t = (at - parts[i - 1]) / (parts[i] - parts[i - 1]);
    cut.push(mix(line[2 * i - 2], line[2 * i], t), mix(line[2 * i - 1], line[2 * i + 1], t));
  };
  for (let i = 1; i < parts.length; i++) {
    const [low, high] = [Math.max(from, parts[i - 1]), Math.min(to, parts[i])];
    if (high <= low) continue;
    if (cut.length === 0) put(i, low);
    put(i, high);
  }
  return cut;
}

/** A part that runs on past the end of a closed line, told from its start. */
const onLine = (part: number): number => (part > 1 || part < 0 ? part - Math.floor(part) : part);

const mix = (a: number, b: number, t: number): number => a + t * (b - a);
