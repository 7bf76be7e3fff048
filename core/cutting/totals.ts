import type { Material, ShopSpec } from "../project/schema.ts";
import type { Kit, MaterialTotal } from "./kit.ts";

/** What all shells take of each material, in the order of the project's list; materials of which nothing is cut are left out. */
export function totalsOf(
  kit: Pick<Kit, "shells" | "pieces" | "strips" | "sheets">,
  materials: readonly Material[],
  shop: ShopSpec,
): MaterialTotal[] {
  const { shells } = kit;
  return materials.flatMap((material): MaterialTotal[] => {
    const { id, name, kind } = material;
    const cuts =
      material.kind === "woven"
        ? kit.pieces.map((piece) => ({ ...piece, massKg: piece.glassKg }))
        : material.kind === "strip"
          ? kit.strips.map((strip) => ({
              ...strip,
              areaMm2: material.width * strip.lengthMm,
              lengthMm: strip.lengthMm + shop.kerf,
            }))
          : kit.sheets.map((sheet) => ({ ...sheet, lengthMm: 0 }));
    const own = cuts.filter((cut) => cut.material === id);
    if (own.length === 0) return [];
    const sum = (figure: (cut: (typeof own)[number]) => number) =>
      shells * own.reduce((total, cut) => total + cut.quantity * figure(cut), 0);
    return [
      {
        material: id,
        name,
        kind,
        pieces: sum(() => 1),
        areaMm2: sum((cut) => cut.areaMm2),
        lengthMm: sum((cut) => cut.lengthMm),
        kerfMm: kind === "strip" ? sum(() => shop.kerf) : 0,
        massKg: sum((cut) => cut.massKg),
      },
    ];
  });
}
