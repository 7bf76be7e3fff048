import { stationOf } from "../../../tools/rim-places.ts";
import { HEAD } from "./draw-ruler.ts";
import type { Point } from "./flat-lines.ts";
import { bandEnd, type Ground } from "./grips.ts";
import type { Pen } from "./pen.ts";

/** Half a handle's side, pixels. */
const HANDLE = 4.5;

/** What one can get hold of on the chosen zones: the ends of rows and bands, the edges of bands. */
export function drawHandles(pen: Pen, ground: Ground, chosen: readonly string[]): void {
  const { inks } = pen;
  const { project, outline, board } = ground;
  for (const zone of project.layup) {
    if (!chosen.includes(zone.id)) continue;
    if (zone.kind === "rib-row" && !board.face) {
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
    for (const end of ["from", "to"] as const) {
      const at = bandEnd(zone, end, ground);
      if (at) square(pen, pen.x(at.along), pen.y(at.down));
    }
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

/** The pointer's place as the tape reads it: a line down from the tape. */
export function drawPointer(pen: Pen, { along, down }: Point, laying: boolean): void {
  const { ink, inks } = pen;
  const [x, y] = [Math.round(pen.x(along)) + 0.5, pen.y(down)];
  ink.beginPath();
  ink.moveTo(x, HEAD);
  ink.lineTo(x, y);
  pen.stroke(laying ? inks.amber : inks.sea, 1);
  ink.beginPath();
  ink.arc(x, y, 3.5, 0, 2 * Math.PI);
  ink.fillStyle = laying ? inks.amber : inks.sea;
  ink.fill();
}
