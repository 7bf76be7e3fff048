import type { Notch, Piece, PiecePlace } from "./kit.ts";
import { sameShape } from "./same-shape.ts";

/**
 * Pieces of cloth of one zone with those of a ply that differ by no more than `tolerance` mm made one: under the first one's name, with a
 * quantity and the places and hands that it is laid in. Woven cloth has no right side, so a mirror image is the same piece turned over; and its warp
 * runs both ways, so that a piece may also lie end for end.
 */
export function alikePieces(pieces: readonly Piece[], tolerance: number): Piece[] {
  const groups: Piece[] = [];
  /** What pieces are called that are made one with an earlier one, by the ends of their names. */
  const called = new Map<string, string>();
  for (const piece of pieces) {
    const i = groups.findIndex(
      (group) => group.ply === piece.ply && handOf(piece, group, tolerance) !== null,
    );
    if (i < 0) {
      groups.push(piece);
      continue;
    }
    called.set(endOf(piece.name), endOf(groups[i].name));
    const hand = handOf(piece, groups[i], tolerance) as PiecePlace["hand"];
    const { quantity, areaMm2 } = groups[i];
    groups[i] = {
      ...groups[i],
      // Beside it lie other pieces there.
      notches: groups[i].notches.map(unlabelledLap),
      quantity: quantity + piece.quantity,
      // Of the surface that they cover together nothing is lost: each counts with its mean.
      areaMm2: (quantity * areaMm2 + piece.quantity * piece.areaMm2) / (quantity + piece.quantity),
      places: [...groups[i].places, ...piece.places.map((place) => ({ ...place, hand }))],
    };
  }
  return groups.map((group) => ({
    ...group,
    notches: group.notches.map((notch) => {
      const name = notch.label === undefined ? undefined : called.get(notch.label);
      return notch.what === "lap" && name !== undefined ? { ...notch, label: name } : notch;
    }),
  }));
}

/** `1b` of `foot/1b`: ply and place. */
const endOf = (name: string) => name.slice(name.lastIndexOf("/") + 1);

function unlabelledLap(notch: Notch): Notch {
  return notch.what === "lap" ? { what: notch.what, x: notch.x, y: notch.y } : notch;
}

/** How a piece is laid if it is cut by another's outline; null where the two are not alike. */
function handOf(piece: Piece, other: Piece, tolerance: number): PiecePlace["hand"] | null {
  const { lengthMm, widthMm, outline, shear } = other;
  if (!piece.shear || !shear || piece.darts.length !== other.darts.length) return null;
  if (
    Math.abs(piece.lengthMm - lengthMm) > 2 * tolerance ||
    Math.abs(piece.widthMm - widthMm) > 2 * tolerance
  )
    return null;
  const isAlike = (over: boolean, endForEnd: boolean) =>
    sameShape(piece.outline, laidAs(outline, lengthMm, widthMm, over, endForEnd), tolerance);
  if (isAlike(false, false) || isAlike(false, true)) return "as drawn";
  return isAlike(true, false) || isAlike(true, true) ? "turned over" : null;
}

/** An outline turned over about the warp, end for end, or both, in the box that it had. */
function laidAs(
  outline: Float64Array,
  length: number,
  width: number,
  over: boolean,
  endForEnd: boolean,
): Float64Array {
  const [flipX, flipY] = [endForEnd, over !== endForEnd];
  return outline.map((value, i) => {
    if (i % 2 === 0) return flipX ? length - value : value;
    return flipY ? width - value : value;
  });
}
