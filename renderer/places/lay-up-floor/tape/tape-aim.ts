import { flatPointOf, planPointOf } from "../../../../core/layup/tape-treads.ts";
import type { Outline } from "../../../../core/plan/chain.ts";
import { pointAt } from "../../../../core/plan/point-at.ts";
import type { SurfacePlace } from "../../../../core/project/schema.ts";
import { placeAt, stationOf } from "../../../tools/rim-places.ts";
import type { Aim } from "../../../tools/tool.ts";
import type { LineView } from "../../../worker/messages.ts";
import { faceLoop } from "./face-loop.ts";
import { holds, nearestOnFlat, type Point } from "./flat-lines.ts";
import type { Board, Shown } from "./shown.ts";
import { faceAt } from "./things.ts";

/** Beside a level face one still points at it, mm. */
const BESIDE = 60;

/** A point of the tape as the tools know it: the point of the shell there, with its face; null beside all that lies there. */
export function aimOnTape(
  board: Board,
  point: Point,
  outline: Outline,
  lines: readonly LineView[],
): Aim | null {
  return board.face ? onFace(board.face, point, lines) : onWall(board.wall, point, outline);
}

/** The other way round: the point of the drawing at which a place of the shell is drawn; null where what is drawn does not reach it. */
export function pointOnTape({ wall, face }: Shown, place: SurfacePlace, outline: Outline): Point | null {
  if (face) {
    if (!("face" in place) || place.face !== face.id) return null;
    const { minX, maxX, minY, maxY } = face.box;
    const [along, down] = flatPointOf(
      face,
      minX + place.alongPart * (maxX - minX),
      minY + place.acrossPart * (maxY - minY),
    );
    return { along, down };
  }
  const along = "wall" in place ? stationOf(outline, place.wall) : null;
  // Of several feet at a station the wall ends at the upper one.
  const foot = along === null ? null : footBelow(wall, { along, down: 0 });
  return along === null || !foot || !("wall" in place) ? null : { along, down: place.downPart * foot.down };
}

function onWall(wall: Board["wall"], { along, down }: Point, outline: Outline): Aim | null {
  const face = faceAt(wall, along, down);
  const rim = pointAt(outline.chain, along);
  if (down < 0) {
    // Out from the rim: to the right of its outline.
    return -down > wall.copingMm || !face
      ? null
      : { point: [rim.x - down * rim.ty, rim.y + down * rim.tx, 0], face };
  }
  const foot = footBelow(wall, { along, down });
  if (!foot) return null;
  // Down the wall as on the straight line to its foot; below that as far beside it as one points.
  const t = Math.min(1, down / foot.down);
  const [x, y, z] = [rim.x, rim.y, 0].map((from, k) => from + t * (foot.point[k] - from));
  return {
    point: [x, y, z - Math.max(0, down - foot.down)],
    face: "wall",
    place: { wall: placeAt(outline, along), downPart: kept(t) },
  };
}

/** The foot of the wall at a station, of several there the one nearest to a point: how far down it is, and its point of the shell. */
function footBelow({ foot, rimLengthMm }: Board["wall"], { along, down }: Point) {
  let found: { readonly down: number; readonly point: readonly number[] } | null = null;
  for (const { line, points } of foot)
    for (let i = 2; i < line.length; i += 2) {
      const [a, b] = [line[i - 2], line[i]];
      const at = along + Math.round((a - along) / rimLengthMm) * rimLengthMm;
      if (at < Math.min(a, b) || at > Math.max(a, b)) continue;
      const t = nearestOnFlat([a, line[i - 1], b, line[i + 1]], at, down).t;
      const exact = a === b ? t : (at - a) / (b - a);
      const here = line[i - 1] + exact * (line[i + 1] - line[i - 1]);
      if (found && Math.abs(found.down - down) <= Math.abs(here - down)) continue;
      const p = 3 * (i / 2);
      found = {
        down: here,
        point: [0, 1, 2].map((k) => points[p - 3 + k] + exact * (points[p + k] - points[p - 3 + k])),
      };
    }
  return found;
}

function onFace(
  face: NonNullable<Board["face"]>,
  { along, down: across }: Point,
  lines: readonly LineView[],
): Aim | null {
  const off = Math.min(...face.bounds.map(({ line }) => nearestOnFlat(line, along, across).off));
  if (!holds(faceLoop(face), along, across) && off > BESIDE) return null;
  const { box } = face;
  const [x, y] = planPointOf(face, along, across);
  const part = (at: number, low: number, high: number) =>
    kept(Math.min(1, Math.max(0, (at - low) / (high - low))));
  return {
    point: [x, y, levelOf(face.id, lines)],
    face: face.id,
    place: {
      face: face.id,
      alongPart: part(x, box.minX, box.maxX),
      acrossPart: part(y, box.minY, box.maxY),
    },
  };
}

/** Proportions of a file are kept to so many digits: finer than a hand. */
const kept = (part: number): number => Number(part.toFixed(5));

/** The level at which the lines round a face lie, mm. */
function levelOf(face: string, lines: readonly LineView[]): number {
  let [sum, count] = [0, 0];
  for (const { between, outside } of lines)
    for (let i = 2; between.includes(face) && i < outside.length; i += 3, count++) sum += outside[i];
  return count === 0 ? 0 : sum / count;
}
