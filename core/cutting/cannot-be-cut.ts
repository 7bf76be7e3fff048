import { liesOverItself } from "../cloth/outline.ts";
import type { Material } from "../project/schema.ts";
import { fixed } from "../units/print.ts";
import { grouped } from "./grouped.ts";
import type { Kit, KitDoubt, Piece } from "./kit.ts";

/**
 * What of a kit's cloth cannot be cut as it is listed, in words with figures: pieces on which no cloth could be laid, pieces that lie over
 * themselves, and those wider than their material's roll. `rollWidths` in mm, by material; one that is not there is not asked about. A kit with
 * any of this is no order to cut by: its areas and masses are not those of what will be laid.
 */
export function cannotBeCut(
  { pieces }: Pick<Kit, "pieces">,
  rollWidths: ReadonlyMap<string, number>,
): KitDoubt[] {
  const wide = pieces.filter(({ material, widthMm }) => widthMm > (rollWidths.get(material) ?? Infinity));
  return [
    ...pieces.flatMap((piece) => {
      const says = piece.shear === null ? pulledStraight(piece) : overlapOf(piece);
      return says === null ? [] : [{ zone: piece.zone, says: `${piece.name}: ${says}` }];
    }),
    ...[...grouped(wide, ({ zone }) => zone)].map(([zone, own]) => {
      const number = countOf(own);
      const of = countOf(pieces.filter((piece) => piece.zone === zone));
      const widest = fixed(Math.max(...own.map(({ widthMm }) => widthMm)), 0);
      const which = `${number} of its ${of} ${of === 1 ? "piece" : "pieces"} ${number === 1 ? "is" : "are"}`;
      const roll = `the roll of ${own[0].material}, ${rollWidths.get(own[0].material)} mm`;
      return { zone, says: `${which} wider than ${roll}: up to ${widest} mm` };
    }),
  ];
}

const countOf = (pieces: readonly Piece[]) => pieces.reduce((sum, { quantity }) => sum + quantity, 0);

/** What a piece on which cloth could not be laid is listed as, against the surface that it is to cover. */
function pulledStraight({ areaMm2, flatAreaMm2, glassKg }: Piece): string {
  const m2 = (mm2: number) => fixed(mm2 / 1e6, 3);
  const off = (glassKg * (areaMm2 - flatAreaMm2)) / flatAreaMm2;
  const mass = `${fixed(Math.abs(off), 2)} kg of glass too ${off > 0 ? "little" : "much"}`;
  return (
    "cloth folds on it however it is hung; listed is only the band pulled straight, " +
    `${m2(flatAreaMm2)} m² of cloth for ${m2(areaMm2)} m² of surface: ${mass}`
  );
}

const overlapOf = ({ outline }: Piece): string | null =>
  liesOverItself(outline) ? "laid flat it lies over itself: it cannot be cut from one piece of cloth" : null;

/** The width of the roll that each woven material comes on, mm. */
export function rollWidthsOf(materials: readonly Material[]): Map<string, number> {
  return new Map(
    materials.flatMap((each) => (each.kind === "woven" ? [[each.id, each.rollWidth] as const] : [])),
  );
}
