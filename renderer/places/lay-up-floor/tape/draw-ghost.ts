import { around } from "../../../../core/layup/rim-marks.ts";
import { stationOf } from "../../../tools/rim-places.ts";
import type { NewZone } from "../../../tools/zone-edits.ts";
import { faceLoop } from "./face-loop.ts";
import { boxOf, type Point } from "./flat-lines.ts";
import type { Ground, Moved } from "./grips.ts";
import type { Pen } from "./pen.ts";
import type { Board } from "./shown.ts";
import { pointOnTape } from "./tape-aim.ts";
import { stretchOn, trackOf } from "./track.ts";

const WASH = 0.28;
/** A row is mostly the wall between its ribs. */
const ROW_WASH = 0.08;

/** Where a zone that is being moved comes to lie: its figures moved along, or what its own figures say. */
export function drawMoved(pen: Pen, ground: Ground, { zone, along }: Moved): void {
  if (along === null) {
    drawGhost(pen, ground, zone, true);
    return;
  }
  const { placed, wall } = ground.board;
  pen.ink.beginPath();
  for (const { outline, shifts } of placed.filter((each) => along !== 0 && each.zone === zone.id))
    for (const shift of shifts)
      for (const turn of turnsOf(wall)) pen.trace(outline, true, shift + turn + along);
  pen.stroke(pen.inks.amber, 2);
}

/** Where a zone would lie by its own figures, in the colour of what one is about to do; red where it finds no place. */
export function drawGhost(pen: Pen, ground: Ground, zone: NewZone, good: boolean): void {
  const { ink, inks } = pen;
  const colour = good ? inks.amber : inks.red;
  if (zone.kind === "stroke") {
    for (const line of strokeLines(ground, zone))
      for (const turn of ground.board.face ? [0] : turnsOf(ground.board.wall))
        drawBrush(
          pen,
          line.map(({ along, down }) => ({ along: along + turn, down })),
          zone.width,
          colour,
        );
    return;
  }
  if (ground.board.face && zone.kind === "band") {
    drawOnEdge(pen, ground, zone, colour);
    return;
  }
  ink.beginPath();
  for (const outline of ground.board.face ? onFace(ground.board.face, zone) : onWall(ground, zone))
    for (const turn of ground.board.face ? [0] : turnsOf(ground.board.wall)) pen.trace(outline, true, turn);
  ink.globalAlpha = zone.kind === "rib-row" ? ROW_WASH : WASH;
  ink.fillStyle = colour;
  ink.fill();
  ink.globalAlpha = 1;
  pen.stroke(colour, 2);
}

/** The path of a free band, in pieces where part of it lies beside what is drawn. */
export function strokeLines(
  { board, outline }: Pick<Ground, "board" | "outline">,
  { path }: Pick<Extract<NewZone, { kind: "stroke" }>, "path">,
): Point[][] {
  const lines: Point[][] = [[]];
  for (const place of path) {
    const point = pointOnTape(board, place, outline);
    const line = lines[lines.length - 1];
    const last = line.at(-1);
    if (!point) lines.push([]);
    // Past the shallow centre it goes on where it was.
    else if (!board.face && last)
      line.push({ ...point, along: last.along + around(point.along - last.along, board.wall.rimLengthMm) });
    else line.push(point);
  }
  return lines.filter((line) => line.length > 1);
}

/** The way of a brush over the tape, as wide as it paints. */
export function drawBrush(
  pen: Pen,
  path: readonly Point[],
  widthMm: number,
  colour: string = pen.inks.amber,
): void {
  pen.ink.beginPath();
  pen.trace(
    path.flatMap(({ along, down }) => [along, down]),
    false,
  );
  washed(pen, colour, widthMm);
}

const turnsOf = ({ rimLengthMm }: Board["wall"]): number[] => [-rimLengthMm, 0, rimLengthMm];

/** Outlines of a zone on the wall; of a row the room that it takes. */
function onWall({ board, outline, lines, project }: Ground, zone: NewZone): number[][] {
  const { wall } = board;
  const strip = project.materials.find(({ id }) => id === zone.material);
  const half = strip?.kind === "strip" ? strip.width / 2 : 0;
  const upright = (from: number, to: number, top: number) =>
    box(from - half, to + half, top, Math.max(...wall.foot.map(({ line }) => boxOf(line).y1)));
  switch (zone.kind) {
    case "rib": {
      const at = stationOf(outline, zone.at);
      return at === null ? [] : [upright(at, at, zone.top)];
    }
    case "rib-row": {
      const [from, to] = [stationOf(outline, zone.from), stationOf(outline, zone.to)];
      if (from === null || to === null) return [];
      return [upright(from, to > from ? to : to + wall.rimLengthMm, zone.top)];
    }
    case "stiffener": {
      const run = wall.runs.find(({ id }) => id === zone.run);
      return run ? [box(run.from + zone.margin, run.from + run.length - zone.margin, -wall.copingMm, 0)] : [];
    }
    case "band": {
      const line = lines.find(({ id }) => id === zone.on);
      const track = line && trackOf(board, line, outline);
      return track ? stretchOn(track, zone.stretch).map((piece) => strap(piece, zone.halfWidths)) : [];
    }
    default:
      return [];
  }
}

const onFace = (face: NonNullable<Board["face"]>, zone: NewZone): number[][] =>
  (zone.kind === "pad" && zone.on === face.id) || (zone.kind === "gussets" && zone.under === face.id)
    ? [faceLoop(face)]
    : [];

/** A band on an edge of a level face: as far onto the face as it reaches there. */
function drawOnEdge(
  pen: Pen,
  { board, outline, lines }: Ground,
  zone: Extract<NewZone, { kind: "band" }>,
  colour: string,
): void {
  const line = lines.find(({ id }) => id === zone.on);
  const track = line && trackOf(board, line, outline);
  if (!board.face || !track) return;
  const side = line.between[0] === board.face.id ? 0 : 1;
  pen.ink.save();
  pen.ink.beginPath();
  pen.trace(faceLoop(board.face), true);
  pen.ink.clip();
  pen.ink.beginPath();
  for (const piece of stretchOn(track, zone.stretch)) pen.trace(piece, false);
  washed(pen, colour, 2 * zone.halfWidths[side]);
  pen.ink.restore();
}

function washed(pen: Pen, colour: string, widthMm: number): void {
  pen.ink.globalAlpha = WASH;
  pen.stroke(colour, Math.max(2, widthMm * pen.window.scale));
  pen.ink.globalAlpha = 1;
  pen.stroke(colour, 2);
}

const box = (from: number, to: number, top: number, bottom: number): number[] => [
  ...[from, top],
  ...[to, top],
  ...[to, bottom],
  ...[from, bottom],
];

/** A band on the wall: so far up and so far down from its line. */
function strap(line: readonly number[], [up, down]: readonly [number, number]): number[] {
  const edge: number[] = [];
  const back: number[] = [];
  for (let i = 0; i < line.length; i += 2) {
    edge.push(line[i], line[i + 1] - up);
    back.unshift(line[i], line[i + 1] + down);
  }
  return [...edge, ...back];
}
