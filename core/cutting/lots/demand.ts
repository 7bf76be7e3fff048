import type { Material } from "../../project/schema.ts";
import { grouped } from "../grouped.ts";
import type { Kit, StripPiece } from "../kit.ts";
import type { LotModel } from "./lot-model.ts";

/** What a lot wants of one material: pieces of all its models, each under its own name, and their sums. */
export interface MaterialDemand {
  readonly material: Material;
  readonly pieces: readonly LotPiece[];
  readonly totals: DemandTotals;
}

/** A piece of a lot; alike pieces of two models are two. */
export interface LotPiece {
  /** `Whimbrel 9: foot/1a`. */
  readonly id: string;
  /** Label of the model. */
  readonly model: string;
  /** Name in the model's kit. */
  readonly name: string;
  /** For all shells of the model. */
  readonly quantity: number;
  /** So many of the model are built. */
  readonly shells: number;
  /** Cut length and width, mm. */
  readonly lengthMm: number;
  readonly widthMm: number;
  /** Flat outline, closed, x y pairs, mm, x along the warp or the core; of a strip its rectangle. */
  readonly outline: Float64Array;
  /** Of one piece, mm² and kg. */
  readonly areaMm2: number;
  readonly massKg: number;
  /** Of a strip: how its ends are cut. */
  readonly saw?: Pick<StripPiece, "ends" | "bevelDeg">;
}

/** Sums for all shells. */
export interface DemandTotals {
  readonly pieces: number;
  readonly areaMm2: number;
  /** Of cloth and strips, kerfs not counted; 0 for sheets, mm. */
  readonly lengthMm: number;
  readonly massKg: number;
}

/** A material that two projects of a lot mean differently: what is cut of it cannot be put together. */
export interface MaterialClash {
  readonly material: string;
  readonly says: string;
}

/** The demand of all models by material, in the order in which the projects list them. */
export function demandOf(models: readonly LotModel[]): MaterialDemand[] {
  const pieces = models.flatMap((model) => piecesOf(model));
  const byMaterial = grouped(pieces, ({ material }) => material);
  const materials = new Map<string, Material>();
  for (const { project } of models) {
    for (const material of project.materials)
      if (!materials.has(material.id)) materials.set(material.id, material);
  }
  return [...materials.values()].flatMap((material): MaterialDemand[] => {
    const own = byMaterial.get(material.id)?.map(({ piece }) => piece) ?? [];
    if (own.length === 0) return [];
    return [{ material, pieces: own, totals: totalsOf(own, material) }];
  });
}

/** What a project says of a material otherwise than an earlier one of the lot, in a sentence each. */
export function clashesWith(
  earlier: readonly Pick<LotModel, "label" | "project">[],
  { label, project }: Pick<LotModel, "label" | "project">,
): MaterialClash[] {
  return project.materials.flatMap((material): MaterialClash[] => {
    for (const other of earlier) {
      const same = other.project.materials.find(({ id }) => id === material.id);
      if (!same || makeOf(same) === makeOf(material)) continue;
      const says =
        `material ${material.id} is ${makeOf(material)} in ${label} and ${makeOf(same)} in ${other.label}; ` +
        "in one lot an id stands for one material";
      return [{ material: material.id, says }];
    }
    return [];
  });
}

/** What makes a material the same stuff, whatever size it comes in. */
function makeOf(material: Material): string {
  if (material.kind === "woven") return `woven cloth of ${material.gramsPerM2} g/m²`;
  if (material.kind === "sheet") return `sheet ${material.thickness} mm thick of ${material.kgPerM3} kg/m³`;
  return `strip ${material.width} × ${material.thickness} mm of ${material.kgPerM3} kg/m³`;
}

function piecesOf({ label, project, kit }: LotModel): { material: string; piece: LotPiece }[] {
  const piece = (
    { name, quantity, lengthMm }: Kit["pieces" | "strips" | "sheets"][number],
    rest: Pick<LotPiece, "widthMm" | "outline" | "areaMm2" | "massKg" | "saw">,
  ): LotPiece => ({
    id: `${label}: ${name}`,
    model: label,
    name,
    quantity: quantity * kit.shells,
    shells: kit.shells,
    lengthMm,
    ...rest,
  });
  const widthOf = (id: string) => {
    const material = project.materials.find((each) => each.id === id);
    return material?.kind === "strip" ? material.width : 0;
  };
  return [
    ...kit.pieces.map((each) => {
      const { material, widthMm, outline, areaMm2, glassKg } = each;
      return { material, piece: piece(each, { widthMm, outline, areaMm2, massKg: glassKg }) };
    }),
    ...kit.strips.map((each) => {
      const { material, lengthMm, massKg, ends, bevelDeg } = each;
      const widthMm = widthOf(material);
      const outline = rectangle(lengthMm, widthMm);
      const areaMm2 = widthMm * lengthMm;
      return { material, piece: piece(each, { widthMm, outline, areaMm2, massKg, saw: { ends, bevelDeg } }) };
    }),
    ...kit.sheets.map((each) => {
      const { material, widthMm, outline, areaMm2, massKg } = each;
      return { material, piece: piece(each, { widthMm, outline, areaMm2, massKg }) };
    }),
  ];
}

function rectangle(lengthMm: number, widthMm: number): Float64Array {
  return Float64Array.of(0, 0, lengthMm, 0, lengthMm, widthMm, 0, widthMm);
}

function totalsOf(pieces: readonly LotPiece[], { kind }: Material): DemandTotals {
  const sum = (figure: (piece: LotPiece) => number) =>
    pieces.reduce((total, piece) => total + piece.quantity * figure(piece), 0);
  return {
    pieces: sum(() => 1),
    areaMm2: sum(({ areaMm2 }) => areaMm2),
    lengthMm: kind === "sheet" ? 0 : sum(({ lengthMm }) => lengthMm),
    massKg: sum(({ massKg }) => massKg),
  };
}
