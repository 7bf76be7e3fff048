import type { Dart, Notch } from "../cutting/kit.ts";
import type { Placement } from "../packing/order.ts";
import { line, type Mark, outline, type Pen, pens, typeFor, words } from "./paper/drawing.ts";
import type { PieceCard } from "./piece-cards.ts";

/** Size of the type of a notch's label, mm. */
const LABEL = typeFor(3.5);
/** Length of a notch, and of the arms of the cross at a dart's tip, mm on the cloth. */
const NOTCH = 10;
const CROSS = 6;
/** A mark further than this from the edge is no notch but a cross on the cloth, mm. */
const INSIDE = 3;

type Point = readonly [number, number];
type Moved = (x: number, y: number) => Point;

/** What is drawn on a piece beside its outline: darts and notches, by a move onto the drawing; `cross`: arms of the cross at a tip. */
export function pieceMarks(
  { outline, darts, notches }: PieceCard,
  moved: Moved,
  pen: Pen = pens.fine,
  cross = CROSS,
): Mark[] {
  return [
    ...darts.flatMap((dart) => dartMarks(dart, moved, pen, cross)),
    ...notches.flatMap((notch) => notchMarks(notch, outline, moved, pen)),
  ];
}

/** What the marks drawn on a piece mean, of those that it has; nothing for a piece without any. */
export function marksLegend({
  outline,
  darts,
  notches,
}: Pick<PieceCard, "outline" | "darts" | "notches">): string[] {
  const inside = notches.filter(({ x, y }) => edgeAt(outline, x, y).awayMm > INSIDE);
  const named = notches.some(({ what, label }) => what === "lap" && label !== undefined);
  const has = (kind: Notch["what"]) =>
    notches.some((notch) => notch.what === kind && !inside.includes(notch));
  return [
    ...(has("lap") ? [`one stroke: the piece ${named ? "of that name" : "beside it"} ends`] : []),
    ...(has("line") ? ["two strokes: the zone's line"] : []),
    ...(has("corner") ? ["wedge: a corner, numbered along"] : []),
    ...(inside.length > 0 ? ["small cross: the zone's line or its corner"] : []),
    ...(darts.length > 0 ? ["cross with dashes: tip of a dart"] : []),
  ];
}

/** The move of a piece's own coordinates to where it lies on a marker. */
export function moveOf({ turnDeg, mirrored, xMm, yMm }: Placement): Moved {
  const [cos, sin] = { 0: [1, 0], 90: [0, 1], 180: [-1, 0], 270: [0, -1] }[turnDeg] as [number, number];
  return (px, py) => {
    const x = mirrored ? -px : px;
    return [x * cos - py * sin + xMm, x * sin + py * cos + yMm];
  };
}

/** An arrow along the warp, `length` long, its middle at `x`, `y`; `turnDeg` as the piece lies. */
export function warpArrow(
  x: number,
  y: number,
  length: number,
  turnDeg: number,
  pen: Pen = pens.line,
): Mark[] {
  const turn = (turnDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const at = (along: number, across: number) => [
    x + along * cos - across * sin,
    y + along * sin + across * cos,
  ];
  const half = length / 2;
  const barb = Math.min(length / 8, 12);
  return [
    line([...at(-half, 0), ...at(half, 0)], pen),
    line([...at(half - barb, barb / 2.5), ...at(half, 0), ...at(half - barb, -barb / 2.5)], pen),
  ];
}

/** A cross at the tip, and the line from there to the middle of the opening, where the two sides are laid together. */
function dartMarks({ tip, mouth }: Dart, moved: Moved, pen: Pen, cross: number): Mark[] {
  const [x, y] = moved(...tip);
  const middle = moved((mouth[0][0] + mouth[1][0]) / 2, (mouth[0][1] + mouth[1][1]) / 2);
  return [
    line([x - cross, y, x + cross, y], pen),
    line([x, y - cross, x, y + cross], pen),
    line([x, y, ...middle], { ...pen, dash: [cross, cross / 2] }),
  ];
}

/** One stroke into the piece at a lap, two at the zone's line, a wedge at a corner; inside the piece a small cross. Its label lies beyond it. */
function notchMarks({ what, x, y, label }: Notch, ring: Float64Array, moved: Moved, pen: Pen): Mark[] {
  const {
    along: [ex, ey],
    awayMm,
  } = edgeAt(ring, x, y);
  if (awayMm > INSIDE) {
    const [cx, cy] = moved(x, y);
    return [
      line([cx - CROSS / 2, cy, cx + CROSS / 2, cy], pen),
      line([cx, cy - CROSS / 2, cx, cy + CROSS / 2], pen),
      ...labelMarks(label, cx, cy + CROSS / 2 + LABEL / 2),
    ];
  }
  // The outline runs counter-clockwise: its inside is at the left of an edge.
  const place = (along: number, inward: number) =>
    moved(x + along * ex - inward * ey, y + along * ey + inward * ex);
  const named = labelMarks(label, ...place(0, NOTCH + LABEL / 2));
  const stroke = (along: number) => line([...place(along, 0), ...place(along, NOTCH)], pen);
  if (what === "lap") return [stroke(0), ...named];
  if (what === "line") return [stroke(-NOTCH / 5), stroke(NOTCH / 5)];
  return [
    outline([...place(-NOTCH / 3, 0), ...place(NOTCH / 3, 0), ...place(0, NOTCH)], pen, "mark"),
    ...named,
  ];
}

/** A label with its middle at a place; drawn on the piece like the mark itself. */
function labelMarks(label: string | undefined, x: number, y: number): Mark[] {
  if (label === undefined) return [];
  return [words(x, y - 0.36 * LABEL, label, LABEL, { align: "middle", layer: "mark" })];
}

/** Direction of the edge of an outline that passes nearest to a point, and how far away. */
function edgeAt(
  ring: Float64Array,
  x: number,
  y: number,
): { readonly along: Point; readonly awayMm: number } {
  let best: Point = [1, 0];
  let least = Infinity;
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    const [dx, dy] = [ring[j] - ring[i], ring[j + 1] - ring[i + 1]];
    const length = Math.hypot(dx, dy);
    if (length === 0) continue;
    const along = Math.min(1, Math.max(0, ((x - ring[i]) * dx + (y - ring[i + 1]) * dy) / length ** 2));
    const distance = Math.hypot(ring[i] + along * dx - x, ring[i + 1] + along * dy - y);
    if (distance < least) {
      least = distance;
      best = [dx / length, dy / length];
    }
  }
  return { along: best, awayMm: least };
}
