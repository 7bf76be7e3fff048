import type { LengthStyle } from "../../../../core/units/length.ts";
import type { Pen } from "./pen.ts";
import { figuresSeen, ticksOf } from "./ticks.ts";

/** Height of the tape over the drawing, and of the lane for names below it, pixels. */
export const RULER = 30;
export const HEAD = RULER + 16;

/** The tape along the top: ticks in the units that are shown, figures at the long ones. */
export function drawRuler(pen: Pen, from: number, to: number, lengths: LengthStyle, width: number): void {
  const { ink, inks, window } = pen;
  ink.fillStyle = inks.sheet;
  ink.fillRect(0, 0, width, HEAD);
  const [low, high] = [Math.max(from, window.x), Math.min(to, window.x + width / window.scale)];
  ink.beginPath();
  ink.moveTo(pen.x(low), RULER - 0.5);
  ink.lineTo(pen.x(high), RULER - 0.5);
  const ticks = ticksOf(low, high, window.scale, lengths);
  for (const { at, rank } of ticks) {
    const x = Math.round(pen.x(at)) + 0.5;
    ink.moveTo(x, RULER);
    ink.lineTo(x, RULER - [4, 8, 12][rank]);
  }
  pen.stroke(inks.ink, 1);
  const figured = ticks
    .filter(({ rank }) => rank === 2)
    .map(({ at, label }) => ({ label, x: pen.x(at), width: pen.widthOf(label) }));
  for (const { label, left } of figuresSeen(figured, width)) pen.text(label, left, RULER - 15, inks.ink);
}
