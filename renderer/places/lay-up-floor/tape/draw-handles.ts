import type { Outline } from "../../../../core/plan/chain.ts";
import type { Project } from "../../../../core/project/schema.ts";
import { stationOf } from "../../../tools/rim-places.ts";
import { HEAD } from "./draw-ruler.ts";
import type { Moved, Point } from "./grips.ts";
import type { Pen } from "./pen.ts";
import type { Board } from "./shown.ts";

/** Half a handle's side, pixels. */
const HANDLE = 4.5;

/** What one can get hold of on the chosen zones: the ends of rows, the edges of bands. */
export function drawHandles(
  pen: Pen,
  board: Board,
  project: Project,
  outline: Outline,
  chosen: readonly string[],
): void {
  const { inks } = pen;
  for (const zone of project.layup) {
    if (!chosen.includes(zone.id)) continue;
    if (zone.kind === "rib-row") {
      for (const place of [zone.from, zone.to]) {
        const station = stationOf(outline, place);
        if (station === null) continue;
        const x = Math.round(pen.x(station)) + 0.5;
        pen.ink.beginPath();
        pen.ink.moveTo(x, pen.y(0));
        pen.ink.lineTo(x, pen.y(zone.top) + 14);
        pen.stroke(inks.amber, 2);
        square(pen, x, pen.y(zone.top));
      }
    }
    if (zone.kind !== "band") continue;
    for (const { edges, shifts } of board.placed.filter((each) => each.zone === zone.id)) {
      for (const shift of edges ? shifts : []) {
        for (const edge of edges ?? []) {
          const at = middleOf(edge, shift, board.wall.rimLengthMm);
          if (at) square(pen, pen.x(at.along), pen.y(at.down));
        }
      }
    }
  }
}

function square(pen: Pen, x: number, y: number): void {
  pen.ink.beginPath();
  pen.ink.rect(x - HANDLE, y - HANDLE, 2 * HANDLE, 2 * HANDLE);
  pen.ink.fillStyle = pen.inks.sheet;
  pen.ink.fill();
  pen.stroke(pen.inks.amber, 2);
}

/** The point of a line half way along the part of it that is seen. */
function middleOf(line: ArrayLike<number>, shift: number, rim: number): Point | null {
  const wanted = rim / 2;
  let best: Point | null = null;
  for (let i = 2; i < line.length; i += 2) {
    const [ax, bx] = [line[i - 2] + shift, line[i] + shift];
    const along = (ax + bx) / 2;
    if (along < 0 || along > rim) continue;
    if (best && Math.abs(along - wanted) >= Math.abs(best.along - wanted)) continue;
    best = { along, down: (line[i - 1] + line[i + 1]) / 2 };
  }
  return best;
}

/** Where a zone that is being moved comes to lie, in the colour of what one is about to do. */
export function drawMoved(pen: Pen, { placed, wall }: Board, moved: Moved): void {
  const { ink, inks } = pen;
  for (const each of placed) {
    if (each.zone !== moved.zone) continue;
    for (const shift of each.shifts) {
      ink.beginPath();
      if (each.edges) {
        for (const side of [0, 1] as const) {
          const out = moved.edges[side];
          pen.trace(each.edges[side], false, shift, side === upper(each) ? -out : out);
        }
      } else if (moved.along !== 0) {
        for (const turn of [-wall.rimLengthMm, 0, wall.rimLengthMm])
          pen.trace(each.outline, true, shift + turn + moved.along);
      }
      pen.stroke(inks.amber, 2);
    }
  }
  for (const station of moved.ends ?? []) {
    const x = Math.round(pen.x(station)) + 0.5;
    ink.beginPath();
    ink.moveTo(x, pen.y(0));
    ink.lineTo(x, pen.y(0) + 40);
    pen.stroke(inks.amber, 2);
  }
}

/** Which edge of a band lies higher up the wall. */
function upper({ edges }: Board["placed"][number]): 0 | 1 {
  const mean = (line: ArrayLike<number>) => {
    let sum = 0;
    for (let i = 1; i < line.length; i += 2) sum += line[i];
    return sum / (line.length / 2);
  };
  return edges && mean(edges[1]) < mean(edges[0]) ? 1 : 0;
}

/** The pointer's place as the tape reads it: a line down from the tape, and what the rib tool would lay. */
export function drawPointer(
  pen: Pen,
  { extent }: Board,
  point: Point | null,
  row: readonly [number, number] | null,
  laying: boolean,
): void {
  if (!point) return;
  const { ink, inks } = pen;
  const [x, y] = [Math.round(pen.x(point.along)) + 0.5, pen.y(point.down)];
  if (laying) {
    const [from, to] = row ?? [point.along, point.along];
    ink.globalAlpha = 0.25;
    ink.fillStyle = inks.amber;
    const half = Math.max(2, 50 * pen.window.scale);
    ink.fillRect(
      pen.x(Math.min(from, to)) - half,
      pen.y(0),
      pen.x(Math.abs(to - from)) - pen.x(0) + 2 * half,
      pen.y(extent.y1) - pen.y(0),
    );
    ink.globalAlpha = 1;
  }
  ink.beginPath();
  ink.moveTo(x, HEAD);
  ink.lineTo(x, y);
  pen.stroke(laying ? inks.amber : inks.sea, 1);
  ink.beginPath();
  ink.arc(x, y, 3.5, 0, 2 * Math.PI);
  ink.fillStyle = laying ? inks.amber : inks.sea;
  ink.fill();
}
