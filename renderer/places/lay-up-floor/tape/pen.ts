import type { Inks, Swatches } from "./inks.ts";
import type { Placed } from "./things.ts";
import type { Window } from "./window.ts";

/** Draws on a canvas in millimetres of the drawing, crisp at any zoom: lines keep their width in pixels. */
export class Pen {
  readonly ink: CanvasRenderingContext2D;
  readonly inks: Inks;
  readonly window: Window;
  /** Pixels above the drawing that belong to the ruler. */
  readonly top: number;
  private readonly swatches: Swatches;

  constructor(ink: CanvasRenderingContext2D, inks: Inks, swatches: Swatches, window: Window, top: number) {
    this.ink = ink;
    this.inks = inks;
    this.swatches = swatches;
    this.window = window;
    this.top = top;
  }

  x(along: number): number {
    return (along - this.window.x) * this.window.scale;
  }

  y(down: number): number {
    return this.top + (down - this.window.y) * this.window.scale;
  }

  /** Adds a line of pairs to the path. */
  trace(line: ArrayLike<number>, closed: boolean, shift = 0, lower = 0): void {
    for (let i = 0; i < line.length; i += 2) {
      const [x, y] = [this.x(line[i] + shift), this.y(line[i + 1] + lower)];
      if (i === 0) this.ink.moveTo(x, y);
      else this.ink.lineTo(x, y);
    }
    if (closed) this.ink.closePath();
  }

  stroke(colour: string, width: number, dash: readonly number[] = []): void {
    this.ink.strokeStyle = colour;
    this.ink.lineWidth = width;
    this.ink.setLineDash([...dash]);
    this.ink.stroke();
    this.ink.setLineDash([]);
  }

  /** A part of a zone in its material. */
  figure(placed: Placed, lit: boolean, shift: number): void {
    const { ink, inks } = this;
    ink.beginPath();
    this.trace(placed.outline, true, shift);
    const { scale } = this.window;
    ink.fillStyle = this.swatches.fill(ink, placed.pattern, placed.upright, scale, this.x(0), this.y(0));
    ink.fill();
    if (lit) {
      ink.globalAlpha = 0.3;
      ink.fillStyle = inks.amber;
      ink.fill();
      ink.globalAlpha = 1;
    }
    this.stroke(lit ? inks.amber : inks.ink, lit ? 2 : 1);
  }

  text(
    words: string,
    x: number,
    y: number,
    colour: string,
    align: CanvasTextAlign = "left",
    bold = false,
  ): void {
    const { ink } = this;
    ink.font = fontOf(bold);
    ink.textAlign = align;
    ink.textBaseline = "alphabetic";
    ink.fillStyle = colour;
    ink.fillText(words, x, y);
  }

  /** How wide words are in plain writing, pixels. */
  widthOf(words: string): number {
    this.ink.font = fontOf(false);
    return this.ink.measureText(words).width;
  }

  /** Text on a scrap of paper, so that it is read over patterns. */
  label(words: string, x: number, y: number, colour: string): void {
    const { ink } = this;
    const width = this.widthOf(words);
    ink.globalAlpha = 0.86;
    ink.fillStyle = this.inks.sheet;
    ink.fillRect(x - width / 2 - 3, y - 11, width + 6, 15);
    ink.globalAlpha = 1;
    this.text(words, x, y, colour, "center");
  }
}

const fontOf = (bold: boolean) => `${bold ? 600 : 400} 11.5px "Inter Variable", system-ui, sans-serif`;
