import { roughBox } from "../cloth/rough-box.ts";
import { turningOf } from "../cloth/turning.ts";
import type { LaidBand } from "../layup/laid.ts";
import type { ShopSpec } from "../project/schema.ts";
import { fieldNear } from "../surface/bricks.ts";
import { piecesOf, type Woven } from "./band-pieces.ts";
import type { Piece } from "./kit.ts";

/**
 * The pieces that a band is divided into before they are laid as cloth, each as the rectangle that it is about to take; where that is wider than the roll cloth will be
 * split, and it is the band's own width.
 */
export function roughPieces(zone: LaidBand, material: Woven, shop: ShopSpec): Piece[] {
  const { strip } = zone;
  const near = fieldNear(strip.field);
  return piecesOf(zone, material, shop, null).pieces.map((piece) => {
    const [left, right] = zone.plyWidths[piece.ply - 1];
    const [from, to] = [strip.from + piece.fromMm, strip.from + piece.toMm];
    const box = roughBox(turningOf({ near, strip, from, to, left, right }));
    const { lengthMm, widthMm } = box.widthMm < material.rollWidth ? box : piece;
    return {
      ...piece,
      lengthMm,
      widthMm,
      outline: Float64Array.of(0, 0, lengthMm, 0, lengthMm, widthMm, 0, widthMm),
    };
  });
}
