import type { Kit } from "../../../core/cutting/kit.ts";
import { printArea } from "../../../core/units/area.ts";
import { type LengthStyle, printLength } from "../../../core/units/length.ts";
import { type Reinforcement, reinforcements } from "../../document/session.ts";
import { isImperial } from "../../parts/imperial.ts";
import { reinforcementOf } from "../../parts/reinforcement.ts";
import { words } from "../../words.ts";
import type { LaidZoneView } from "../../worker/results.ts";

type Zones = readonly Pick<LaidZoneView, "kind" | "spec" | "plies" | "lengthMm" | "allPliesMm2">[];

/** How many layers of woven cloth lie on the radius between floor and wall: everywhere at the least, and somewhere at the most. */
export function footLayers(zones: Zones): { readonly least: number; readonly most: number } {
  const arcs = zones.flatMap(({ spec, plies }) =>
    spec.kind === "band" && spec.on === "foot" ? [{ ...(spec.stretch ?? { from: 0, to: 1 }), plies }] : [],
  );
  const ends = [...new Set([0, 1, ...arcs.flatMap(({ from, to }) => [from, to])])].sort((a, b) => a - b);
  const layers = ends.slice(1).map((end, i) => {
    const at = (ends[i] + end) / 2;
    return arcs.reduce((sum, arc) => sum + (covers(arc, at) ? arc.plies : 0), 0);
  });
  return { least: Math.min(...layers), most: Math.max(...layers) };
}

/** A stretch of a loop may run past its start. */
const covers = ({ from, to }: { from: number; to: number }, at: number) =>
  from <= to ? from <= at && at <= to : at >= from || at <= to;

interface Present {
  readonly kind: Reinforcement;
  readonly amount: string;
}

/** The kinds of reinforcement that a project has, each with what there is of it; webs are counted as they are cut. */
export function presentKinds(zones: Zones, sheets: Kit["sheets"], lengths: LengthStyle): readonly Present[] {
  const imperial = isImperial(lengths);
  return reinforcements.flatMap((kind): Present[] => {
    const own = zones.filter((zone) => reinforcementOf[zone.kind] === kind);
    if (own.length === 0) return [];
    const sum = (figure: "allPliesMm2" | "lengthMm") => own.reduce((all, zone) => all + zone[figure], 0);
    if (kind === "gussets") {
      const webs = sheets.filter((sheet) => sheet.kind === "gusset");
      return [{ kind, amount: words.showroom.webs(webs.reduce((all, web) => all + web.quantity, 0)) }];
    }
    const amount =
      kind === "bands" || kind === "pads"
        ? printArea(sum("allPliesMm2") / 1e6, imperial ? "ft2" : "m2")
        : printLength(sum("lengthMm"), imperial ? lengths : "m");
    return [{ kind, amount }];
  });
}

/** The layers at the floor-to-wall radius in a buyer's words. */
export function layersInWords(zones: Zones): string {
  const { least, most } = footLayers(zones);
  const { allRound, inPlaces, upTo, none } = words.showroom.layers;
  if (most === 0) return none;
  if (least === 0) return inPlaces(most);
  return most > least ? upTo(least, most) : allRound(least);
}
