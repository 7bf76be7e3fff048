import { letters } from "../cutting/letters.ts";
import type { Marker, Placement } from "../packing/order.ts";
import { boxOf } from "../packing/ring.ts";
import { fixed } from "../units/print.ts";
import type { NumberedCut, Stretch } from "./marker-stretches.ts";
import { circle, filled, line, type Mark, outline, pens, words } from "./paper/drawing.ts";
import { type Fonts, shortened, widthOf } from "./paper/font.ts";
import { type Room, scaleBar } from "./paper/page.ts";
import { roomiestPlace } from "./paper/roomiest.ts";
import type { PieceCard } from "./piece-cards.ts";
import { moveOf, pieceMarks } from "./piece-marks.ts";

/** Left free round the drawing of a stretch for figures, mm: at its left, above (for the numbers of cuts) and below. */
export const aroundOf = ({ cuts }: Pick<Marker, "cuts">) => ({
  left: 9,
  above: cuts.length > 0 ? 9 : 2,
  below: 12,
});

/** A stretch of a marker to scale at the top of a room: edges of the roll, pieces, cuts with their numbers, distances along. */
export function stretchOnPaper(
  { fromMm, toMm, cuts, lying, begun }: Stretch,
  marker: Marker,
  cards: ReadonlyMap<string, PieceCard>,
  scale: number,
  room: Room,
  fonts: Fonts,
): Mark[] {
  const { widthMm, lengthMm } = marker;
  const around = aroundOf(marker);
  const left = room.left + around.left;
  const low = room.high - around.above - widthMm / scale;
  const high = low + widthMm / scale;
  const x = (mm: number) => left + (mm - fromMm) / scale;
  const y = (mm: number) => low + mm / scale;
  const right = x(toMm);
  const pieces = lying.flatMap((placement) => {
    const row = begun.indexOf(placement);
    return pieceOnPaper(placement, row < 0 ? null : letters(row), cards, x, y, fonts);
  });
  // A roll that goes on is torn at the side; a sheet, or its beginning, has an edge.
  const side = (at: number, isEdge: boolean) =>
    line([at, low, at, high], isEdge ? pens.bold : pens.chained, "stock");
  return [
    {
      kind: "pane",
      x: left - 0.3,
      y: low - 0.3,
      width: right - left + 0.6,
      height: high - low + 0.6,
      dx: 0,
      dy: 0,
      marks: pieces,
    },
    line([left, low, right, low], pens.bold, "stock"),
    line([left, high, right, high], pens.bold, "stock"),
    side(left, fromMm === 0),
    side(right, toMm >= lengthMm - 1e-6),
    words(left - 2, low, "0", 2.5, { align: "right" }),
    words(left - 2, high - 2, fixed(widthMm, 0), 2.5, { align: "right" }),
    words(left - 4.5, (low + high) / 2, "from the lower edge", 2.2, { align: "middle", turnDeg: 90 }),
    ...cuts.flatMap((cut) => cutOnPaper(cut, x, y, fonts)),
    ...alongMarks(fromMm, toMm, cuts, x, low, fonts),
    ...scaleBar(room.right - 100, low - around.below + 2, 100 * scale),
  ];
}

/** Distances from the beginning of the roll under the drawing: of each cut across it, else of both ends. */
function alongMarks(
  fromMm: number,
  toMm: number,
  cuts: readonly NumberedCut[],
  x: (mm: number) => number,
  low: number,
  fonts: Fonts,
): Mark[] {
  const SIZE = 2.5;
  const across = cuts.filter(({ stage }) => stage === 1).map(({ atMm }) => atMm);
  let free = -Infinity;
  return [...new Set([fromMm, ...across, toMm])].flatMap((mm): Mark[] => {
    const text = fixed(mm, 0);
    const half = widthOf(fonts.plain, text, SIZE) / 2;
    const tick = line([x(mm), low, x(mm), low - 1.6], pens.hair);
    if (x(mm) - half < free) return [tick];
    free = x(mm) + half + 1.5;
    return [tick, words(x(mm), low - 4.2, text, SIZE, { align: "middle" })];
  });
}

function pieceOnPaper(
  placement: Placement,
  letter: string | null,
  cards: ReadonlyMap<string, PieceCard>,
  x: (mm: number) => number,
  y: (mm: number) => number,
  fonts: Fonts,
): Mark[] {
  const card = cards.get(placement.piece);
  if (!card) throw new Error(`a marker has a piece ${placement.piece}, which is in no kit`);
  const move = moveOf(placement);
  const onPaper = (px: number, py: number): readonly [number, number] => {
    const [mx, my] = move(px, py);
    return [x(mx), y(my)];
  };
  const ring = Array.from(placement.outline, (value, i) => (i % 2 === 0 ? x(value) : y(value)));
  return [
    outline(ring, pens.fine),
    ...pieceMarks({ ...card, notches: [] }, onPaper, pens.hair, 1.2),
    ...nameOnPaper(card, letter, ring, fonts),
  ];
}

/** The name and, where there is room, the size below it; where the name would be cut short, the letter of the list instead. */
function nameOnPaper(
  { called, lengthMm, widthMm }: PieceCard,
  letter: string | null,
  ring: readonly number[],
  fonts: Fonts,
): Mark[] {
  const place = roomiestPlace(ring);
  if (place === null) return [];
  const { x, y, height } = place;
  const { width: whole } = boxOf(ring);
  // In a wedge a name may touch the line.
  const width = Math.max(place.width, 0.75 * whole);
  const sizeOf = (text: string) =>
    2.6 * Math.max(0.6, Math.min(1, (0.95 * width) / widthOf(fonts.bold, text, 2.6), height / 2.6));
  if (height < 1.2) return [];
  const sizeWords = `${fixed(lengthMm, 0)} × ${fixed(widthMm, 0)}`;
  const short = shortened(fonts.bold, called, sizeOf(called), width);
  const name = short === called ? called : (letter ?? short);
  const size = sizeOf(name === short ? called : name);
  const two = name === called && height > 6.2 && widthOf(fonts.plain, sizeWords, 2.2) < width;
  return [
    words(x, two ? y + 0.3 : y - 0.36 * size, name, size, { align: "middle", bold: true }),
    ...(two ? [words(x, y - 2.7, sizeWords, 2.2, { align: "middle" })] : []),
  ];
}

/** A cut with its number in a ring at its beginning. */
function cutOnPaper(
  { number, stage, fromMm, toMm }: NumberedCut,
  x: (mm: number) => number,
  y: (mm: number) => number,
  fonts: Fonts,
): Mark[] {
  const [ax, ay, bx, by] = [x(Math.max(0, fromMm[0])), y(fromMm[1]), x(toMm[0]), y(toMm[1])];
  const pen = stage === 1 ? pens.bold : pens.line;
  const RADIUS = 1.7;
  // Those across the whole width are numbered above it, the others a little way along their line, and those along a piece a number's width
  // farther: where the piece is nearly as wide as its lane, the cut along the section lies beside it.
  const upright = ax === bx;
  const inset = Math.min(stage === 4 ? 3 + 2.4 * RADIUS : 3, Math.hypot(bx - ax, by - ay) / 2);
  const [tx, ty] =
    stage === 1 ? [bx, Math.max(ay, by) + 3.4] : [ax + (upright ? 0 : inset), ay + (upright ? inset : 0)];
  const text = `${number}`;
  const size = Math.min(2.3, (2.3 * 2.4) / widthOf(fonts.bold, text, 2.3));
  return [
    line([ax, ay, bx, by], pen, "cut"),
    filled(circle(tx, ty, RADIUS), "paper", pens.fine),
    words(tx, ty - 0.36 * size, text, size, { align: "middle", bold: true }),
  ];
}
