import type { LotStock } from "../../project/lot-schema.ts";
import type { Material } from "../../project/schema.ts";

/** As much of every material as is wanted, in the project's own sizes: what a single project is cut from when no stock is told. */
export function ownStock(materials: readonly Material[]): LotStock {
  return {
    rolls: materials.flatMap((each) =>
      each.kind === "woven"
        ? [{ id: each.id, material: each.id, width: each.rollWidth, length: Number.POSITIVE_INFINITY }]
        : [],
    ),
    sheets: materials.flatMap((each) =>
      each.kind === "sheet"
        ? [{ id: each.id, material: each.id, width: each.width, length: each.length }]
        : [],
    ),
    bars: materials.flatMap((each) =>
      each.kind === "strip" ? [{ id: each.id, material: each.id, length: each.stockLength }] : [],
    ),
  };
}
