import type { KitDoubt } from "../cutting/kit.ts";
import type { CutLot } from "../cutting/lots/cut-lot.ts";
import type { AdriftZone } from "../layup/laid.ts";
import type { Adjustment } from "../shell/shell.ts";
import { adjustmentSentence } from "./adjustment-sentence.ts";
import type { ModelWords } from "./lot-tables.ts";

/** What there is to say of the models of a lot, beside what is cut of them. */
export interface ToldOfModels {
  /** Those that could not be cut at all, and why. */
  readonly leftOut: readonly ModelWords[];
  /** What of their cloth cannot be cut as it is listed. */
  readonly uncut: readonly ModelWords[];
  readonly adrift: readonly ModelWords[];
  /** What their surfaces fail in the self-check. */
  readonly flaws: readonly ModelWords[];
  readonly doubts: readonly ModelWords[];
}

/** What there is to say of one model that is cut, by its name in the lot. */
export function toldOfModel(
  model: string,
  its: {
    readonly uncut: readonly KitDoubt[];
    readonly adrift: readonly Pick<AdriftZone, "id" | "why">[];
    readonly flaws: readonly string[];
    readonly adjustments: readonly Adjustment[];
    readonly doubts: readonly KitDoubt[];
  },
): Omit<ToldOfModels, "leftOut"> {
  const words = (says: string): ModelWords => ({ model, says });
  const ofZone = ({ zone, says }: KitDoubt) => words(`${zone}: ${says}`);
  return {
    uncut: its.uncut.map(ofZone),
    adrift: its.adrift.map(({ id, why }) => words(`zone ${id} is adrift: ${why}`)),
    flaws: its.flaws.map(words),
    doubts: [
      ...its.adjustments.map((each) =>
        words(`adjusted, so that it can be built: ${adjustmentSentence(each)}`),
      ),
      ...its.doubts.map(ofZone),
    ],
  };
}

/**
 * What `ribband kit LOT --json` prints and `lot.json` holds: figures unrounded, units in the names of the keys.
 * `rests` are in the words of a lot file, for the stock of the next lot.
 */
export function lotReport(lot: CutLot, { leftOut, uncut, adrift, flaws, doubts }: ToldOfModels) {
  return {
    report: "lot",
    version: 1,
    name: lot.name,
    models: lot.models.map(({ label, kit }) => ({ label, shells: kit.shells })),
    leftOut,
    cutting: lot.cutting,
    demand: lot.demand.map(({ material, pieces, totals }) => ({
      material: material.id,
      name: material.name,
      kind: material.kind,
      pieces: totals.pieces,
      areaM2: totals.areaMm2 / 1e6,
      lengthMm: totals.lengthMm,
      massKg: totals.massKg,
      list: pieces.map(({ model, name, quantity, lengthMm, widthMm, massKg, areaMm2 }) => ({
        ...{ model, name, quantity, lengthMm, widthMm, massKg },
        areaM2: areaMm2 / 1e6,
      })),
    })),
    strips: lot.strips.map(({ material, kerfMm, plan }) => ({ material, kerfMm, ...plan })),
    markers: lot.markers.map(({ material, plan }) => ({
      material,
      markers: plan.markers.map(({ areaMm2, placements, cuts, ...marker }) => ({
        ...marker,
        // A roll without an end.
        lengthMm: Number.isFinite(marker.lengthMm) ? marker.lengthMm : null,
        areaM2: areaMm2 / 1e6,
        placements: placements.map(({ outline, ...placement }) => ({
          ...placement,
          outlineMm: pairs(outline),
        })),
        cuts,
      })),
      missing: plan.missing,
    })),
    use: lot.use.map(({ material, uses, piecesMm2, usedMm2, cost }) => ({
      material,
      stock: uses.map(({ material: _, areaMm2, cost: paid, ...use }) => ({
        ...use,
        areaM2: areaMm2 / 1e6,
        cost: paid ?? null,
      })),
      piecesM2: piecesMm2 / 1e6,
      usedM2: usedMm2 / 1e6,
      cost: cost ?? null,
    })),
    rests: lot.rests,
    findings: lot.findings,
    cannotBeCut: uncut,
    adrift,
    flaws,
    doubts: lot.doubts,
    doubtsOfModels: doubts,
  };
}

function pairs(outline: ArrayLike<number>): [number, number][] {
  return Array.from({ length: outline.length / 2 }, (_, i) => [outline[2 * i], outline[2 * i + 1]]);
}
