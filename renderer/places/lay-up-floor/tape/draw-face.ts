import type { FlatFace } from "../../../../core/layup/tape-treads.ts";
import { lineName } from "../../../parts/names.ts";
import type { Lit } from "./draw-wall.ts";
import type { Pen } from "./pen.ts";
import type { Placed } from "./things.ts";

/** A tread, bench or ledge top laid flat, with what lies on it. */
export function drawFace(pen: Pen, face: FlatFace, placed: readonly Placed[], lit: Lit): void {
  const { ink, inks, window } = pen;
  ink.beginPath();
  ink.rect(pen.x(0), pen.y(0), face.alongMm * window.scale, face.acrossMm * window.scale);
  ink.fillStyle = inks["glass-lit"];
  ink.fill();
  pen.stroke(inks.line, 1, [3, 4]);
  for (const each of placed) if (!lit.hidden.has(each.zone)) pen.figure(each, lit.zones.has(each.zone), 0);
  for (const { id, line } of face.bounds) {
    const here = lit.others.has(id);
    ink.beginPath();
    pen.trace(line, false);
    pen.stroke(here ? inks.amber : inks.ink, here ? 3 : 1.4);
  }
  for (const { id, line } of face.bounds) {
    const middle = 2 * Math.floor(line.length / 4);
    if (line.length < 4 || face.alongMm * window.scale < 160) continue;
    const before = Math.max(0, middle - 2);
    const [x, y] = [(line[middle] + line[before]) / 2, (line[middle + 1] + line[before + 1]) / 2];
    const inwards = y > face.acrossMm / 2 ? -8 : 18;
    pen.label(lineName(id), Math.max(60, pen.x(x)), pen.y(y) + inwards, inks.soft);
  }
}
