import type { UnrolledWall } from "../../../../core/layup/tape-wall.ts";
import { faceName, zoneName } from "../../../parts/names.ts";
import { HEAD, RULER } from "./draw-ruler.ts";
import { boxOf } from "./flat-lines.ts";
import type { Pen } from "./pen.ts";
import type { Placed } from "./things.ts";

export interface Lit {
  readonly zones: ReadonlySet<string>;
  /** Face or transition. */
  readonly others: ReadonlySet<string>;
  readonly hidden: ReadonlySet<string>;
}

/** Names of fittings are written from this scale on, pixels a mm. */
const NAMED_FROM = 0.09;

/** The unrolled wall with all that is on it. */
export function drawWall(pen: Pen, wall: UnrolledWall, placed: readonly Placed[], lit: Lit): void {
  const { ink, inks } = pen;
  const rim = wall.rimLengthMm;
  ink.save();
  ink.beginPath();
  ink.rect(pen.x(0), 0, rim * pen.window.scale, 1e5);
  ink.clip();
  drawPaper(pen, wall, lit);
  for (const each of placed) {
    if (lit.hidden.has(each.zone)) continue;
    for (const shift of each.shifts) pen.figure(each, lit.zones.has(each.zone), shift);
    for (const shift of each.shifts) drawPlies(pen, each, shift);
  }
  drawFoot(pen, wall, lit);
  for (const fitting of wall.fittings) drawFitting(pen, fitting);
  ink.restore();
  ink.beginPath();
  ink.rect(pen.x(0), pen.y(-wall.copingMm), rim * pen.window.scale, wall.copingMm * pen.window.scale);
  pen.stroke(inks["line-strong"], 1);
  ink.beginPath();
  ink.moveTo(pen.x(0), pen.y(0));
  ink.lineTo(pen.x(rim), pen.y(0));
  pen.stroke(inks.ink, 1.5);
}

function drawPaper(pen: Pen, wall: UnrolledWall, lit: Lit): void {
  const { ink, inks } = pen;
  ink.beginPath();
  for (const { line } of wall.foot) {
    for (const shift of turns(line, wall.rimLengthMm)) {
      ink.moveTo(pen.x(line[0] + shift), pen.y(0));
      for (let i = 0; i < line.length; i += 2) ink.lineTo(pen.x(line[i] + shift), pen.y(line[i + 1]));
      ink.lineTo(pen.x(line[line.length - 2] + shift), pen.y(0));
      ink.closePath();
    }
  }
  ink.fillStyle = inks["glass-lit"];
  ink.fill();
  if (lit.others.has("wall")) {
    ink.globalAlpha = 0.12;
    ink.fillStyle = inks.sea;
    ink.fill();
    ink.globalAlpha = 1;
  }
  drawCove(pen, wall);
  for (const { from, to } of wall.corners) {
    for (const shift of [-wall.rimLengthMm, 0]) {
      for (const at of [from, to]) {
        ink.beginPath();
        ink.moveTo(Math.round(pen.x(at + shift)) + 0.5, pen.y(0));
        ink.lineTo(Math.round(pen.x(at + shift)) + 0.5, pen.y(footAt(wall, at)));
        pen.stroke(inks.soft, 1, [4, 4]);
      }
    }
  }
}

/** Where the radius at the foot begins, as a fine broken line. */
function drawCove(pen: Pen, { cove, rimLengthMm }: UnrolledWall): void {
  const step = rimLengthMm / Math.max(1, cove.length);
  pen.ink.beginPath();
  cove.forEach(({ station, beginsMm }, i) => {
    const next = cove[i + 1];
    if (!next || next.station - station > 2.5 * step || Math.abs(next.beginsMm - beginsMm) > 0.5 * step)
      return;
    pen.ink.moveTo(pen.x(station), pen.y(beginsMm));
    pen.ink.lineTo(pen.x(next.station), pen.y(next.beginsMm));
  });
  pen.stroke(pen.inks.soft, 0.8, [2, 3]);
}

function drawFoot(pen: Pen, wall: UnrolledWall, lit: Lit): void {
  const { ink, inks } = pen;
  for (const { id, face, line } of wall.foot) {
    const here = lit.others.has(id) || lit.others.has(face) || lit.others.has("foot");
    ink.beginPath();
    for (const shift of turns(line, wall.rimLengthMm)) pen.trace(line, false, shift);
    pen.stroke(here ? inks.amber : inks.ink, here ? 3 : 1.2);
  }
}

/** Each further ply stops short of the one below: its edge as a fine line. */
function drawPlies(pen: Pen, { edges, plies }: Placed, shift: number): void {
  if (!edges || plies.length < 2) return;
  const [first] = plies;
  for (const widths of plies.slice(1)) {
    for (const side of [0, 1] as const) {
      const back = first[side] - widths[side];
      if (back * pen.window.scale < 1.5) continue;
      pen.ink.beginPath();
      pen.trace(edges[side], false, shift, side === 0 ? back : -back);
      pen.stroke(pen.inks["straw-ink"], 0.8);
    }
  }
}

function drawFitting(pen: Pen, fitting: UnrolledWall["fittings"][number]): void {
  const { ink, inks, window } = pen;
  const { alongMm, downMm, halfWidthMm, halfHeightMm, clearanceMm } = fitting;
  const [x, y] = [pen.x(alongMm), pen.y(downMm)];
  const outline = (beyond: number) => {
    const [w, h] = [(halfWidthMm + beyond) * window.scale, (halfHeightMm + beyond) * window.scale];
    ink.beginPath();
    if (Math.abs(halfWidthMm - halfHeightMm) < 0.02 * halfWidthMm && beyond === 0)
      ink.ellipse(x, y, w, h, 0, 0, 2 * Math.PI);
    else ink.rect(x - w, y - h, 2 * w, 2 * h);
  };
  outline(clearanceMm);
  pen.stroke(inks.soft, 0.8, [2, 3]);
  outline(0);
  ink.fillStyle = inks.sheet;
  ink.fill();
  pen.stroke(inks.ink, 1.2);
  if (window.scale > NAMED_FROM)
    pen.label(zoneName(fitting.id), x, y + (halfHeightMm + clearanceMm) * window.scale + 14, inks.soft);
}

/** Names of corners and centres between the tape and the drawing, each beside its mark, and of straight sides in their middle: as many as find room. */
export function drawMarks(pen: Pen, wall: UnrolledWall, paper: number): void {
  const { ink, inks } = pen;
  const taken: (readonly [number, number])[] = [];
  const isFree = (left: number, right: number) =>
    taken.every(([from, to]) => right + 10 <= from || left >= to + 10);
  for (const { name, station } of [...wall.marks].sort((a, b) => a.station - b.station)) {
    const x = Math.round(pen.x(station)) + 0.5;
    const words = name.replaceAll("-", " ");
    const wide = pen.widthOf(words) + 4;
    // At the right edge of the paper a name stands before its mark.
    const before = x <= paper && x + wide > paper;
    const left = before ? x - wide : x;
    if (!isFree(left, left + wide)) continue;
    ink.beginPath();
    ink.moveTo(x, RULER);
    ink.lineTo(x, HEAD);
    pen.stroke(inks.soft, 1);
    pen.text(words, before ? x - 4 : x + 4, HEAD - 4, inks.soft, before ? "right" : "left");
    taken.push([left, left + wide]);
  }
  for (const { id, kind, from, length } of wall.runs) {
    if (kind !== "straight") continue;
    const middle = from + length / 2;
    const x = pen.x(middle - Math.floor(middle / wall.rimLengthMm) * wall.rimLengthMm);
    const words = faceName(id);
    const half = pen.widthOf(words) / 2;
    if (x < half || x > paper - half || !isFree(x - half, x + half)) continue;
    pen.text(words, x, HEAD - 4, inks.ink, "center");
    taken.push([x - half, x + half]);
  }
}

/** Names of the features below their foot. */
export function drawNames(pen: Pen, wall: UnrolledWall, bottom: number): void {
  for (const { feature, from, to, down } of featuresOf(wall)) {
    const x = (Math.max(0, pen.x(from)) + pen.x(to)) / 2;
    const words = faceName(feature);
    if ((to - from) * pen.window.scale < 6.5 * words.length) continue;
    pen.label(words, x, Math.min(bottom - 5, pen.y(down) + 18), pen.inks.ink);
  }
}

/** The stretch of rim against which each feature stands, and how far down its foot reaches there. */
function featuresOf({ foot, rimLengthMm }: UnrolledWall) {
  const spans: { feature: string; from: number; to: number; down: number }[] = [];
  const stretches = foot
    .filter(({ feature, line }) => feature !== "" && line.length >= 4)
    .flatMap(({ feature, line }) =>
      turns(line, rimLengthMm).map((shift) => ({ feature, shift, box: boxOf(line) })),
    )
    .map(({ feature, shift, box }) => ({
      feature,
      from: Math.max(0, box.x0 + shift),
      to: Math.min(rimLengthMm, box.x1 + shift),
      down: box.y1,
    }))
    .filter(({ from, to }) => to > from)
    .sort((a, b) => a.from - b.from);
  for (const each of stretches) {
    const last = spans[spans.length - 1];
    if (last?.feature === each.feature && each.from - last.to < 50) {
      last.to = Math.max(last.to, each.to);
      last.down = Math.max(last.down, each.down);
    } else spans.push({ ...each });
  }
  return spans;
}

/** How far a line is moved along to be seen between 0 and the rim's length. */
function turns(line: ArrayLike<number>, rim: number): number[] {
  const { x0, x1 } = boxOf(line);
  return [-rim, 0, rim].filter((shift) => x1 + shift > 0 && x0 + shift < rim);
}

/** The lowest foot near a station, mm. */
function footAt({ foot, rimLengthMm }: UnrolledWall, station: number): number {
  let nearest = Infinity;
  let down = 0;
  for (const { line } of foot)
    for (let i = 0; i < line.length; i += 2) {
      const off = Math.abs(line[i] - station - Math.round((line[i] - station) / rimLengthMm) * rimLengthMm);
      if (off >= nearest) continue;
      nearest = off;
      down = line[i + 1];
    }
  return down;
}
