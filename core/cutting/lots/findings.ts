import type { MarkerPlan } from "../../packing/order.ts";
import { boxOf } from "../../packing/ring.ts";
import type { LotCutting, LotStock } from "../../project/lot-schema.ts";
import { nearestWord } from "../../project/nearest-word.ts";
import { ownedField } from "../../project/problem.ts";
import type { Material } from "../../project/schema.ts";
import { counted } from "../../units/counted.ts";
import { fixed } from "../../units/print.ts";
import type { MaterialDemand } from "./demand.ts";
import type { LotModel } from "./lot-model.ts";
import type { MarkerSet } from "./markers.ts";
import type { StripPlan } from "./strips.ts";

/** Pieces named one by one before the others are only counted. */
const NAMED = 6;

/** What is missing or does not fit among the strips of a material, a sentence each. */
export function stripFindings({ material, plan, noStock }: StripPlan): string[] {
  return [
    ...(noStock ? [`No bar of ${material} is in the lot's stock.`] : []),
    ...plan.tooLong.map(({ says }) => says),
    ...plan.missing.map(({ says }) => says),
  ];
}

/**
 * What is missing or does not fit among the pieces of a material that are cut from rolls or sheets, a sentence each.
 */
export function markerFindings(
  { material, pieces }: MaterialDemand,
  { plan, noStock }: MarkerSet,
  stock: LotStock["rolls"],
  { margin }: Pick<LotCutting, "margin">,
): string[] {
  const called = material.kind === "sheet" ? "sheet" : "roll";
  const own = stock.filter((each) => each.material === material.id);
  const sizes = [
    ...new Set(own.map(({ width, length }) => (called === "roll" ? `${width}` : `${length} × ${width}`))),
  ];
  const widest = sizes.length > 0 ? ` (${sizes.join(", ")} mm${called === "roll" ? " wide" : ""})` : "";
  const tooBig = plan.missing.filter(({ reason }) => reason === "too big");
  const without = plan.missing.filter(({ reason }) => reason === "no stock left");
  const number = without.reduce((sum, { quantity }) => sum + quantity, 0);
  return [
    ...(noStock
      ? [`No ${called} of ${material.id} is in the lot's stock: ${wanted(material, plan)} wanted.`]
      : []),
    ...tooBig.map(({ piece, quantity }) => {
      const outline = pieces.find(({ id }) => id === piece)?.outline ?? new Float64Array();
      const { width, height } = boxOf(outline);
      const size = `${fixed(width, 0)} × ${fixed(height, 0)} mm`;
      const room = [width, height].map((side) => fixed(side + 2 * margin, 0)).join(" × ");
      const wants =
        margin > 0 ? ` and wants ${room} mm with the margin of ${Number(fixed(margin, 1))} mm` : "";
      return `Piece ${piece} (${quantity} of them) is ${size}${wants}, too large for every ${called} of ${material.id}${widest}.`;
    }),
    ...(number > 0
      ? [
          `What is left of the ${called}s of ${material.id} is too small, or nothing is: ${number} ${number === 1 ? "piece goes" : "pieces go"} without, ` +
            `${listed(without.map(({ piece, quantity }) => (quantity > 1 ? `${quantity} × ${piece}` : piece)))}.`,
        ]
      : []),
  ];
}

/** What to look at in a marker that holds all its pieces, a sentence each. */
export function markerDoubts({ faulty, turned }: MarkerSet): string[] {
  return [
    ...faulty,
    ...(turned.length > 0 ? [`These fit a sheet only when turned across its core: ${listed(turned)}.`] : []),
  ];
}

/** How much of a material of which there is no stock a plan takes, in sizes of the project's own, with its verb. */
function wanted(material: Material, { markers }: MarkerPlan): string {
  if (material.kind === "sheet") {
    const number = markers.length;
    return `${counted(number, "sheet")} of ${material.length} × ${material.width} mm ${number === 1 ? "is" : "are"}`;
  }
  const metres = markers.reduce((sum, { usedMm }) => sum + usedMm, 0) / 1000;
  return `${fixed(metres, 1)} m, ${markers[0]?.widthMm ?? 0} mm wide, are`;
}

/** Entries of the stock that are of no material of the lot: most likely a slip of the pen. */
export function strayStock(stock: LotStock, models: readonly LotModel[]): string[] {
  const kinds = { rolls: "woven", sheets: "sheet", bars: "strip" } as const;
  return (["rolls", "sheets", "bars"] as const).flatMap((list) => {
    const known = models
      .flatMap(({ project }) => project.materials)
      .filter(({ kind }) => kind === kinds[list]);
    const ids = [...new Set(known.map(({ id }) => id))];
    return stock[list].flatMap(({ id, material }, i) => {
      if (ids.includes(material)) return [];
      const nearest = nearestWord(material, ids);
      const hint = nearest ? ` Did you mean ${nearest}?` : "";
      return [
        `${ownedField(`stock.${list}[${i}].material`, id)} is ${JSON.stringify(material)}, which is no ${kinds[list]} material of the lot's projects: it is not used.${hint}`,
      ];
    });
  });
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, NAMED).join(", ");
  return names.length > NAMED ? `${shown} and ${names.length - NAMED} more` : shown;
}
