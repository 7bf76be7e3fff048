import type { Marker } from "../../packing/order.ts";
import { type LotCutting, type LotStock, leastStock } from "../../project/lot-schema.ts";
import { grouped } from "../grouped.ts";
import type { MaterialDemand } from "./demand.ts";
import type { MarkerSet } from "./markers.ts";
import { downToTenth } from "./rest-length.ts";
import type { StripPlan } from "./strips.ts";

/** What a lot takes of one entry of the stock. */
export interface StockUse {
  readonly material: string;
  /** Id of the entry; of the material where the lot lists no stock of it. */
  readonly stock: string;
  readonly kind: "roll" | "sheet" | "bar";
  readonly remnant: boolean;
  /** Rolls, sheets or bars that are cut into; those that are missing are not among them. */
  readonly number: number;
  /** Their length that is used up: of rolls to the last piece's end, of sheets and bars the whole, mm. */
  readonly lengthMm: number;
  /** The same as an area, mm². */
  readonly areaMm2: number;
  /** What that comes to at the stock's price; undefined without one. */
  readonly cost: number | undefined;
}

/** A cost as the lists show it: none for remnants that come free. */
export function shownCost({ remnant, cost }: StockUse): number | undefined {
  return remnant && cost === 0 ? undefined : cost;
}

/** How well a material is used. */
export interface MaterialUse {
  readonly material: string;
  readonly uses: readonly StockUse[];
  /** Area of the pieces that the stock gives, mm². */
  readonly piecesMm2: number;
  /** Area used up: what is cut into less what is kept, mm². */
  readonly usedMm2: number;
  /** Sum of the costs; undefined where some stock used has no price. */
  readonly cost: number | undefined;
}

type Entry = Omit<LotStock["rolls"][number], "width">;

/** What bars of a material are used for its strips. */
export function barUse(
  { material }: MaterialDemand,
  { plan }: StripPlan,
  bars: LotStock["bars"],
): MaterialUse {
  const width = material.kind === "strip" ? material.width : 0;
  const own = plan.bars.filter(({ lacking }) => !lacking);
  const uses = [...grouped(own, ({ stock }) => stock)].map(([stock, cuts]): StockUse => {
    const number = cuts.reduce((sum, { times }) => sum + times, 0);
    const entry = bars.find(({ id }) => id === stock);
    const lengthMm = number * cuts[0].lengthMm;
    return useOf(material.id, stock, "bar", entry, number, { lengthMm, widthMm: width }, number);
  });
  const sum = (figure: (cut: (typeof own)[number]) => number) =>
    width * own.reduce((total, cut) => total + cut.times * figure(cut), 0);
  return {
    material: material.id,
    uses,
    piecesMm2: sum(({ cuts }) => cuts.reduce((total, { lengthMm }) => total + lengthMm, 0)),
    usedMm2: sum(({ lengthMm, keep, restMm }) => lengthMm - (keep ? restMm : 0)),
    cost: costOf(uses),
  };
}

/** What rolls or sheets of a material are used for its pieces. */
export function markerUse(
  { material, pieces }: MaterialDemand,
  { plan, noStock }: MarkerSet,
  stock: LotStock["rolls"],
  cutting: LotCutting,
): MaterialUse {
  // What is not there is not used.
  const markers = noStock ? [] : plan.markers;
  const kind = material.kind === "sheet" ? "sheet" : "roll";
  const uses = [...grouped(markers, (marker) => marker.stock)].map(([id, own]): StockUse => {
    const entry = stock.find((each) => each.id === id);
    const used = (marker: Marker) => (kind === "roll" ? marker.usedMm : marker.lengthMm);
    const lengthMm = own.reduce((sum, marker) => sum + used(marker), 0);
    // Of a roll the rest goes on; a sheet is paid as a whole.
    const paid = kind === "sheet" ? own.length : lengthMm / own[0].lengthMm;
    const { widthMm } = own[0];
    return useOf(material.id, id, kind, entry, own.length, { lengthMm, widthMm }, paid);
  });
  const sum = (figure: (marker: Marker) => number) =>
    markers.reduce((total, each) => total + figure(each), 0);
  // As they are listed: an outline on a marker also holds the darts that are cut out of it.
  const areas = new Map(pieces.map(({ id, areaMm2 }) => [id, areaMm2]));
  return {
    material: material.id,
    uses,
    piecesMm2: sum(({ placements }) =>
      placements.reduce((all, { piece }) => all + (areas.get(piece) ?? 0), 0),
    ),
    usedMm2: sum(({ widthMm, lengthMm, usedMm }) => {
      const isKept = kind === "roll" || keptOf(kind, lengthMm, usedMm, cutting) > 0;
      return widthMm * (isKept ? usedMm : lengthMm);
    }),
    cost: costOf(uses),
  };
}

/** The rests of a material that are kept, as entries of the next lot's stock; alike ones are one entry. */
export function keptRests(
  { material }: MaterialDemand,
  plans: { readonly strips?: StripPlan; readonly markers?: MarkerSet },
  cutting: LotCutting,
): {
  readonly id: string;
  readonly material: string;
  readonly width?: number;
  readonly length: number;
  readonly count: number;
  readonly remnant: true;
}[] {
  const kind = material.kind === "sheet" ? "sheet" : "roll";
  const rests: { readonly width?: number; readonly length: number; readonly count: number }[] = [
    ...(plans.strips?.plan.bars ?? [])
      .filter(({ keep, lacking }) => keep && !lacking)
      .map(({ restMm, times }) => ({ length: downToTenth(restMm), count: times })),
    ...(plans.markers?.noStock ? [] : (plans.markers?.plan.markers ?? [])).flatMap(
      ({ widthMm, lengthMm, usedMm }) => {
        const length = keptOf(kind, lengthMm, usedMm, cutting);
        return length > 0 ? [{ width: widthMm, length, count: 1 }] : [];
      },
    ),
  ];
  const alike = grouped(rests, ({ width, length }) => `${width ?? ""} ${length}`);
  return [...alike.values()]
    .sort(([a], [b]) => b.length - a.length)
    .map((each, i) => ({
      id: `${material.id}-rest-${i + 1}`,
      material: material.id,
      ...(each[0].width !== undefined && { width: each[0].width }),
      length: each[0].length,
      count: each.reduce((sum, { count }) => sum + count, 0),
      remnant: true,
    }));
}

/** Length that is left of a roll or sheet and worth keeping, tenths of a mm rounded down; 0 when it is not. */
function keptOf(kind: "roll" | "sheet", lengthMm: number, usedMm: number, { keepFrom }: LotCutting): number {
  const rest = downToTenth(lengthMm - usedMm);
  return Number.isFinite(rest) && rest >= Math.max(keepFrom, leastStock[kind]) ? rest : 0;
}

function useOf(
  material: string,
  stock: string,
  kind: StockUse["kind"],
  entry: Entry | undefined,
  number: number,
  { lengthMm, widthMm }: { readonly lengthMm: number; readonly widthMm: number },
  paid: number,
): StockUse {
  const remnant = entry?.remnant === true;
  const price = entry?.price ?? (remnant ? 0 : undefined);
  return {
    material,
    stock,
    kind,
    remnant,
    number,
    lengthMm,
    areaMm2: lengthMm * widthMm,
    cost: price === undefined ? undefined : price * paid,
  };
}

function costOf(uses: readonly StockUse[]): number | undefined {
  return uses.reduce<number | undefined>(
    (sum, { cost }) => (sum === undefined || cost === undefined ? undefined : sum + cost),
    0,
  );
}
