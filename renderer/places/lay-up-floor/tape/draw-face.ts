import type { FlatFace } from "../../../../core/layup/tape-treads.ts";
import { faceName } from "../../../parts/names.ts";
import type { Lit } from "./draw-wall.ts";
import { faceLoop } from "./face-loop.ts";
import { boxOf } from "./flat-lines.ts";
import type { Pen } from "./pen.ts";
import type { Placed } from "./things.ts";

/** A tread, bench or ledge top laid flat, with what lies on it. */
export function drawFace(pen: Pen, face: FlatFace, placed: readonly Placed[], lit: Lit): void {
  const { ink, inks } = pen;
  ink.beginPath();
  pen.trace(faceLoop(face), true);
  ink.fillStyle = inks["glass-lit"];
  ink.fill();
  for (const each of placed) if (!lit.hidden.has(each.zone)) pen.figure(each, lit.zones.has(each.zone), 0);
  for (const { id, line } of face.bounds) {
    const here = lit.others.has(id);
    ink.beginPath();
    pen.trace(line, false);
    pen.stroke(here ? inks.amber : inks.ink, here ? 3 : 1.4);
  }
  drawNeighbours(pen, face);
}

/** Names what bounds the face, outside it, where there is room for the words. */
function drawNeighbours(pen: Pen, face: FlatFace): void {
  const taken: (readonly [number, number])[] = [];
  for (const { id, line } of face.bounds) {
    const [left, right] = id.split("#")[0].split("|");
    const name = faceName(left === face.id ? right : left);
    const { x0, x1, y0, y1 } = boxOf(line);
    const x = Math.max(40, pen.x((x0 + x1) / 2));
    const y = (y0 + y1) / 2 > face.acrossMm / 2 ? pen.y(y1) + 14 : pen.y(y0) - 5;
    if ((x1 - x0) * pen.window.scale < 5 * name.length) continue;
    if (taken.some(([u, v]) => Math.abs(u - x) < 90 && Math.abs(v - y) < 16)) continue;
    taken.push([x, y]);
    pen.label(name, x, y, pen.inks.soft);
  }
}
