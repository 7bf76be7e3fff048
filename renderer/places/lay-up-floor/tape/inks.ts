import { readRoles } from "../../../look/roles.ts";
import type { Pattern } from "../../../worker/drawing/drawing.ts";

const roles = [
  "paper",
  "paper-deep",
  "sheet",
  "ink",
  "soft",
  "line",
  "line-strong",
  "amber",
  "sea",
  "red",
  "glass-lit",
  "straw",
  "straw-ink",
  "moss",
  "moss-ink",
  "clay",
  "clay-ink",
  "plum",
  "plum-ink",
] as const;

/** Colours of the theme as the canvas takes them; tokens.css is their one source. */
export type Inks = Readonly<Record<(typeof roles)[number], string>>;

export const readInks = (element: Element): Inks => readRoles(element, roles);

const tints = { weave: "straw", ticks: "moss", cells: "clay", hatch: "plum" } as const;

/** Cells of the materials in mm, and the least size at which they are still told apart, pixels: as in the scene. */
const cells: Record<Pattern, { readonly mm: number; readonly least: number }> = {
  weave: { mm: 5, least: 10 },
  ticks: { mm: 25, least: 6 },
  cells: { mm: 9, least: 9 },
  hatch: { mm: 12, least: 6 },
};

/** Fills with the materials' own patterns: true to scale when near, in twice, four times … the size further off. */
export class Swatches {
  private readonly inks: Inks;
  private readonly dpr: number;
  private readonly made = new Map<string, CanvasPattern>();

  constructor(inks: Inks, dpr: number) {
    this.inks = inks;
    this.dpr = dpr;
  }

  /** The fill of a material at a scale (pixels a mm), with its cells counted from (x, y) pixels. */
  fill(
    pen: CanvasRenderingContext2D,
    pattern: Pattern,
    upright: boolean,
    scale: number,
    x: number,
    y: number,
  ) {
    const { mm, least } = cells[pattern];
    const octave = Math.max(0, Math.ceil(Math.log2(least / (mm * scale))));
    const size = Math.max(2, Math.round(mm * scale * 2 ** octave * this.dpr));
    const key = `${pattern} ${size} ${upright}`;
    let fill = this.made.get(key);
    if (!fill) {
      const made = pen.createPattern(this.tile(pattern, size, upright), "repeat");
      if (!made) throw new Error("The browser makes no pattern of a canvas.");
      fill = made;
      this.made.set(key, fill);
    }
    fill.setTransform(new DOMMatrix([1 / this.dpr, 0, 0, 1 / this.dpr, x, y]));
    return fill;
  }

  private tile(pattern: Pattern, size: number, upright: boolean): HTMLCanvasElement {
    const tile = document.createElement("canvas");
    const double = pattern === "weave";
    tile.width = double ? 2 * size : size;
    tile.height = pattern === "cells" ? Math.round(size * Math.sqrt(3)) : tile.width;
    const pen = tile.getContext("2d");
    if (!pen) throw new Error("The browser gives no canvas to draw patterns on.");
    const tint = tints[pattern];
    pen.fillStyle = this.inks[tint];
    pen.fillRect(0, 0, tile.width, tile.height);
    pen.strokeStyle = this.inks[`${tint}-ink`];
    pen.globalAlpha = 0.7;
    pen.lineWidth = this.dpr;
    pen.beginPath();
    drawings[pattern](pen, size, tile.height, upright);
    pen.stroke();
    return tile;
  }
}

type Draw = (pen: CanvasRenderingContext2D, size: number, height: number, upright: boolean) => void;

const drawings: Record<Pattern, Draw> = {
  /** Two tows over, two tows under. */
  weave(pen, s) {
    for (const part of [0.33, 0.72]) {
      const at = Math.round(part * s) + 0.5;
      for (const [x, y] of [
        [0, 0],
        [s, s],
      ]) {
        pen.moveTo(x, y + at);
        pen.lineTo(x + s, y + at);
      }
      for (const [x, y] of [
        [s, 0],
        [0, s],
      ]) {
        pen.moveTo(x + at, y);
        pen.lineTo(x + at, y + s);
      }
    }
  },
  /** Scores square to the strip. */
  ticks(pen, s, _, upright) {
    const at = Math.round(s / 2) + 0.5;
    pen.moveTo(upright ? 0 : at, upright ? at : 0);
    pen.lineTo(upright ? s : at, upright ? at : s);
  },
  /** Honeycomb. */
  cells(pen, w, h) {
    const [m, q] = [w / 2, h / 6];
    for (const [x, y] of [
      [m, 0],
      [0, h / 2],
      [w, h / 2],
    ]) {
      pen.moveTo(x, y - q);
      pen.lineTo(x, y + q);
    }
    pen.moveTo(m, h);
    pen.lineTo(m, h - q);
    pen.moveTo(0, 2 * q);
    pen.lineTo(m, q);
    pen.lineTo(w, 2 * q);
    pen.moveTo(0, h - 2 * q);
    pen.lineTo(m, h - q);
    pen.lineTo(w, h - 2 * q);
  },
  hatch(pen, s) {
    for (const x of [-s, 0, s]) {
      pen.moveTo(x, s);
      pen.lineTo(x + s, 0);
    }
  },
};
