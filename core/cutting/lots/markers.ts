import { type Cost, costOfPlan } from "../../packing/cost.ts";
import {
  faultOf,
  type MarkerOrder,
  type MarkerPiece,
  type MarkerPlan,
  type PieceSet,
  type Stock,
} from "../../packing/order.ts";
import { packMarker } from "../../packing/pack-marker.ts";
import { boxOf } from "../../packing/ring.ts";
import type { LotCutting, LotStock } from "../../project/lot-schema.ts";
import type { Material } from "../../project/schema.ts";
import { grouped } from "../grouped.ts";
import { alikeTogether } from "./alike-markers.ts";
import type { LotPiece, MaterialDemand } from "./demand.ts";
import { markersTake } from "./takes.ts";
import type { Watch } from "./watch.ts";

/** How the pieces of one material lie on its rolls or sheets. */
export interface MarkerSet {
  readonly material: string;
  readonly plan: MarkerPlan;
  /**
   * Whether the lot's stock lists nothing of the material: then the plan is for as much as is wanted of the project's
   * own size.
   */
  readonly noStock: boolean;
  /** Pieces with something wrong in their outline, laid out as the rectangles round them: a sentence each. */
  readonly faulty: readonly string[];
  /** Whether there are so many pieces that they were laid in groups: more time could improve all of them together. */
  readonly inGroups: boolean;
  /** Pieces that fit a sheet only across its core's direction. */
  readonly turned: readonly string[];
}

type Lists = LotStock["rolls"] | LotStock["sheets"];

/**
 * Lays the pieces of a material on its rolls or sheets, remnants first. `steps`: how many steps of improvement a plan
 * gets; the same steps give the same plan. Throws an Error for stock that is none, which the check of the lot lets
 * through by no means.
 */
export function planMarkers(
  { material, pieces }: MaterialDemand,
  stock: Lists,
  cutting: LotCutting,
  steps: number,
  watch: Watch,
): MarkerSet {
  const own = stock.filter((each) => each.material === material.id);
  const listed = own.map(({ id, width, length, count }): Stock => {
    return { id, widthMm: width, lengthMm: length, count: count ?? Number.POSITIVE_INFINITY };
  });
  const isRemnant = (id: string) => own.find((each) => each.id === id)?.remnant === true;
  // A remnant that the margins take up holds no piece.
  const usable = ({ widthMm, lengthMm }: Stock) => Math.min(widthMm, lengthMm) > 2 * cutting.margin;
  const order: MarkerOrder = {
    pieces: pieces.map((piece) => markerPiece(piece, material)),
    stock: (listed.length > 0
      ? listed.sort((a, b) => Number(isRemnant(b.id)) - Number(isRemnant(a.id)))
      : [assumedStock(material)]
    ).filter(usable),
    gapMm: cutting.gap,
    marginMm: cutting.margin,
    way: cutting.way,
    seed: cutting.seed,
    sets: setsOf(pieces),
  };
  const doing = `laying out ${material.id}`;
  watch.onStage(doing);
  const faults = order.pieces.map((piece) => faultOf({ ...order, pieces: [piece], stock: [] }));
  const sound = order.pieces.map((piece, i) => (faults[i] === null ? piece : boxed(piece)));
  const packed = packMarker(
    { ...order, pieces: sound },
    {
      until: (count) => {
        watch.onPart(doing);
        return count >= steps || watch.stop();
      },
      onBest: (plan) =>
        watch.onBetter({
          material: material.id,
          takes: markersTake(material, plan),
          cost: markersCost({ pieces }, plan),
        }),
    },
  );
  if (!packed.ok) throw new Error(packed.why);
  return {
    material: material.id,
    plan: { ...packed.plan, markers: alikeTogether(packed.plan.markers) },
    noStock: listed.length === 0,
    inGroups: packed.inGroups,
    faulty: faults.flatMap((fault) =>
      fault === null ? [] : [`${fault} It is laid out as the rectangle round it.`],
    ),
    turned: sound.filter(({ turns }) => turns[0] === 90).map(({ id }) => id),
  };
}

/** By what plans for the same pieces are told better from worse. */
export function markersCost({ pieces }: Pick<MaterialDemand, "pieces">, plan: MarkerPlan): Cost {
  const areas = new Map(pieces.map(({ id, areaMm2 }) => [id, areaMm2]));
  return costOfPlan(plan, (piece) => areas.get(piece) ?? 0);
}

/** A shop could cut project by project, and each of those shell by shell. */
function setsOf(pieces: readonly LotPiece[]): readonly PieceSet[] | undefined {
  const models = [...grouped(pieces, ({ model }) => model)].map(([model, [{ shells }]]): PieceSet => {
    const only = (quantity: (piece: LotPiece) => number) =>
      pieces.map((piece) => (piece.model === model ? quantity(piece) : 0));
    const shell = { times: shells, quantities: only((piece) => piece.quantity / shells) };
    return shells === 1 ? shell : { times: 1, quantities: only(({ quantity }) => quantity), sets: [shell] };
  });
  // One set of one is the order itself.
  if (models.length > 1) return models;
  return models[0]?.sets;
}

/** Warp and core are held: turned half round at the most, and not turned over. */
function markerPiece({ id, outline, quantity }: LotPiece, material: Material): MarkerPiece {
  const { width, height } = boxOf(outline);
  // A pad may have been divided for a sheet that lies the other way.
  const across =
    material.kind === "sheet" &&
    (width > material.length || height > material.width) &&
    fits(height, width, material);
  return { id, outline, quantity, turns: across ? [90, 270] : [0, 180], mirror: false };
}

/** A piece as the rectangle round its outline. */
function boxed(piece: MarkerPiece): MarkerPiece {
  const { left: x, low: y, width, height } = boxOf(piece.outline);
  return { ...piece, outline: [x, y, x + width, y, x + width, y + height, x, y + height] };
}

const fits = (length: number, width: number, sheet: Material & { readonly kind: "sheet" }) =>
  length <= sheet.length && width <= sheet.width;

/** A roll that never ends, or as many sheets as are wanted. */
function assumedStock(material: Material): Stock {
  const count = Number.POSITIVE_INFINITY;
  if (material.kind === "sheet") {
    return { id: material.id, widthMm: material.width, lengthMm: material.length, count };
  }
  const widthMm = material.kind === "woven" ? material.rollWidth : material.width;
  return { id: material.id, widthMm, lengthMm: Number.POSITIVE_INFINITY, count: 1 };
}
