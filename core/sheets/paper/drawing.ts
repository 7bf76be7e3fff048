/**
 * What is drawn, whatever file it becomes: mm, x to the right, y up, 0 0 at the lower left. Black on white; what differs is told by
 * pens and patterns, not by colours, so that any printer shows it.
 */

/** `stock`: what is there before the cut; `cut`: along this line; `mark`: drawn on a piece; `text`: words. */
export type Layer = "stock" | "cut" | "mark" | "text";

export interface Pen {
  readonly widthMm: number;
  /** Drawn and left free in turn, mm. */
  readonly dash?: readonly number[];
}

export type Fill = "ink" | "paper" | "hatched";

export interface Line {
  readonly kind: "line";
  readonly layer: Layer;
  /** x y pairs. */
  readonly points: ArrayLike<number>;
  readonly closed: boolean;
  /** Null: only filled. */
  readonly pen: Pen | null;
  readonly fill?: Fill;
}

export interface Words {
  readonly kind: "words";
  readonly layer: Layer;
  /** Where the foot of the words begins, has its middle or ends. */
  readonly x: number;
  readonly y: number;
  readonly words: string;
  /** Size of the type, mm; a capital letter is 0.73 of it high. */
  readonly size: number;
  readonly align: "left" | "middle" | "right";
  readonly turnDeg: number;
  readonly bold: boolean;
}

/** A rectangle through which other marks are seen, moved by `dx`, `dy`; what lies outside is cut off. */
export interface Pane {
  readonly kind: "pane";
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly dx: number;
  readonly dy: number;
  readonly marks: readonly Mark[];
}

export type Mark = Line | Words | Pane;

export interface Drawing {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
}

export const pens = {
  hair: { widthMm: 0.1 },
  fine: { widthMm: 0.18 },
  line: { widthMm: 0.3 },
  bold: { widthMm: 0.5 },
  chained: { widthMm: 0.13, dash: [6, 1.2, 1, 1.2] },
} as const satisfies Record<string, Pen>;

/** Size of type whose capitals are as high as asked for. */
export const typeFor = (capitalMm: number) => capitalMm / 0.73;

export function line(points: ArrayLike<number>, pen: Pen = pens.line, layer: Layer = "mark"): Line {
  return { kind: "line", layer, points, closed: false, pen };
}

export function outline(points: ArrayLike<number>, pen: Pen | null = pens.line, layer: Layer = "cut"): Line {
  return { kind: "line", layer, points, closed: true, pen };
}

export function filled(points: ArrayLike<number>, fill: Fill, pen: Pen | null = null): Line {
  return { kind: "line", layer: "mark", points, closed: true, pen, fill };
}

export function box(x: number, y: number, width: number, height: number): number[] {
  return [x, y, x + width, y, x + width, y + height, x, y + height];
}

/** A circle by its chords. */
export function circle(x: number, y: number, radius: number): number[] {
  const CHORDS = 32;
  return Array.from({ length: CHORDS }, (_, i) => (2 * Math.PI * i) / CHORDS).flatMap((turn) => [
    x + radius * Math.cos(turn),
    y + radius * Math.sin(turn),
  ]);
}

type Setting = Partial<Pick<Words, "align" | "turnDeg" | "bold" | "layer">>;

export function words(x: number, y: number, text: string, size: number, setting: Setting = {}): Words {
  const { align = "left", turnDeg = 0, bold = false, layer = "text" } = setting;
  return { kind: "words", layer, x, y, words: text, size, align, turnDeg, bold };
}
