import type { Dart, Notch, PiecePlace, StripPiece } from "../cutting/kit.ts";
import type { LotModel } from "../cutting/lots/lot-model.ts";
import type { Material } from "../project/schema.ts";

/** A piece of a lot with all that is drawn or written of it. */
export interface PieceCard {
  /** As the lot's lists have it. */
  readonly id: string;
  /** As it is called on its sheets: with the model where the lot has several. */
  readonly called: string;
  /** In its model's own kit. */
  readonly name: string;
  readonly model: string;
  readonly material: Material;
  readonly kind: "cloth" | "strip" | "gusset" | "pad";
  /** Of cloth, counted from the shell out. */
  readonly ply: number | null;
  /** For one shell and for all shells of its model. */
  readonly quantity: number;
  readonly quantityForAll: number;
  readonly lengthMm: number;
  readonly widthMm: number;
  /** Closed, x y pairs, mm, counter-clockwise, the warp or the core along x. */
  readonly outline: Float64Array;
  readonly darts: readonly Dart[];
  readonly notches: readonly Notch[];
  /** Of a strip: how its ends are cut. */
  readonly saw: Pick<StripPiece, "ends" | "bevelDeg"> | null;
  /** Which way up each of `quantity` is laid; of strips and sheets as drawn. */
  readonly hands: readonly PiecePlace["hand"][];
}

/** The cards of all pieces of some models, in the order of their kits: cloth, strips, sheets. */
export function pieceCards(models: readonly LotModel[]): PieceCard[] {
  return models.flatMap((model) => cardsOf(model, models.length > 1));
}

function cardsOf({ label, project, kit }: LotModel, several: boolean): PieceCard[] {
  const materials = new Map(project.materials.map((material) => [material.id, material]));
  const common = ({ name, material, quantity }: { name: string; material: string; quantity: number }) => ({
    id: `${label}: ${name}`,
    called: several ? `${label}: ${name}` : name,
    name,
    model: label,
    material: materials.get(material) as Material,
    quantity,
    quantityForAll: quantity * kit.shells,
  });
  const plain = { ply: null, darts: [], notches: [], saw: null };
  return [
    ...kit.pieces.map((piece): PieceCard => {
      const { ply, lengthMm, widthMm, outline, darts, notches } = piece;
      const hands = piece.places.map(({ hand }) => hand);
      return {
        ...common(piece),
        kind: "cloth",
        ply,
        lengthMm,
        widthMm,
        outline,
        darts,
        notches,
        saw: null,
        hands,
      };
    }),
    ...kit.strips.map((strip): PieceCard => {
      const { lengthMm, ends, bevelDeg } = strip;
      const saw = { ends, bevelDeg };
      const { material } = common(strip);
      const widthMm = material.kind === "strip" ? material.width : 0;
      const outline = Float64Array.of(0, 0, lengthMm, 0, lengthMm, widthMm, 0, widthMm);
      const hands = new Array<PiecePlace["hand"]>(strip.quantity).fill("as drawn");
      return { ...common(strip), ...plain, kind: "strip", lengthMm, widthMm, outline, saw, hands };
    }),
    ...kit.sheets.map((sheet): PieceCard => {
      const { kind, lengthMm, widthMm, outline } = sheet;
      const hands = new Array<PiecePlace["hand"]>(sheet.quantity).fill("as drawn");
      return { ...common(sheet), ...plain, kind, lengthMm, widthMm, outline, hands };
    }),
  ];
}
