import type { AlikeMarkers } from "../cutting/lots/alike-markers.ts";
import type { Marker } from "../packing/order.ts";
import { box, type Drawing, type Mark, outline, typeFor, words } from "./paper/drawing.ts";
import { roomiestPlace } from "./paper/roomiest.ts";
import type { PieceCard } from "./piece-cards.ts";
import { moveOf, pieceMarks, warpArrow } from "./piece-marks.ts";

/** Height of capitals of a name on the cloth, mm: the most, and what is still read. */
const MOST = 14;
const LEAST = 4;
/** Seen on a drawing of some metres. */
const CUT = { widthMm: 1 };
const DRAWN = { widthMm: 0.6 };
const STOCK = { widthMm: 1, dash: [20, 10] };

/**
 * A marker at full size, its roll or sheet from 0 0 on, x along it: outlines on `cut`, darts, notches and warp arrows on `mark`, names on `text`.
 * Of a roll only what is used is drawn. Where several are cut alike, it says above how many.
 */
export function markerDrawing(
  { marker, times }: Pick<AlikeMarkers, "marker" | "times">,
  cards: ReadonlyMap<string, PieceCard>,
): Drawing {
  const { widthMm, placements } = marker;
  const lengthMm = drawnLength(marker);
  const marks = placements.flatMap((placement): Mark[] => {
    const card = cards.get(placement.piece);
    if (!card)
      throw new Error(`the marker of ${marker.stock} has a piece ${placement.piece}, which is in no kit`);
    return [
      outline(placement.outline, CUT, "cut"),
      ...pieceMarks(card, moveOf(placement), DRAWN),
      ...nameMarks(card.called, placement.outline, placement.turnDeg),
    ];
  });
  const above = times > 1 ? 2 * MOST : 0;
  return {
    widthMm: lengthMm,
    heightMm: widthMm + above,
    marks: [
      outline(box(0, 0, lengthMm, widthMm), STOCK, "stock"),
      ...marks,
      ...(times > 1 ? [words(0, widthMm + MOST / 2, `× ${times}`, typeFor(MOST))] : []),
    ],
  };
}

/** A roll is drawn as far as it is used; a sheet or a short rest whole. */
export function drawnLength({ lengthMm, usedMm }: Marker): number {
  const WHOLE = 3000;
  return lengthMm <= WHOLE ? lengthMm : usedMm;
}

/** A name with its warp arrow below, as large as the piece lets it be. */
function nameMarks(name: string, ring: ArrayLike<number>, turnDeg: number): Mark[] {
  const place = roomiestPlace(ring);
  if (place === null) return [];
  const { x, y, width, height } = place;
  // The type is about half as wide as high.
  const capital = Math.max(LEAST, Math.min(MOST, width / ([...name].length * 0.9), height / 4));
  return [
    words(x, y, name, typeFor(capital), { align: "middle" }),
    ...warpArrow(x, y - capital, Math.min(width / 2, 12 * capital), turnDeg, DRAWN),
  ];
}
