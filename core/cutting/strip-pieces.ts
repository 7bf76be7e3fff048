import type { LaidRibs, LaidStiffener, TapeMark } from "../layup/laid.ts";
import { listed } from "../project/allowed.ts";
import type { Material, ShopSpec } from "../project/schema.ts";
import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";
import { fixed } from "../units/print.ts";
import { divide } from "./joints.ts";
import type { CutDoubt, StripMark, StripPiece } from "./kit.ts";
import { letters } from "./letters.ts";

/** A bend of this much, rad, is as bad for a butt joint as can be told: 10°. Practice. */
const BENT = (10 * Math.PI) / 180;
/** The core is straight to this far on each side of a good butt joint, mm. */
const STRAIGHT_REACH = 75;

type StripMaterial = Material & { readonly kind: "strip" };

interface StripPieces {
  readonly strips: readonly StripPiece[];
  readonly doubts: readonly CutDoubt[];
}

/**
 * Strips of core of ribs or of a stiffener, named by zone and rib: `ribs-left/3`. What is longer than the stock is made of
 * pieces that butt on a straight stretch, from the top down `ribs-left/3a`, `ribs-left/3b`.
 */
export function stripPieces(
  zone: LaidRibs | LaidStiffener,
  material: StripMaterial,
  shop: ShopSpec,
): StripPieces {
  const wholes =
    zone.kind === "stiffener"
      ? [
          {
            name: zone.id,
            called: "it is",
            curve: zone.curve,
            cutLengthMm: zone.cutLengthMm,
            at: 0,
            alongMm: zone.lengthMm,
          },
        ]
      : zone.ribs.map((rib, i) => ({
          name: `${zone.id}/${rib.name}`,
          called: `rib ${rib.name}: it is`,
          curve: rib.curve,
          cutLengthMm: rib.cutLengthMm,
          at: 2 * i,
          alongMm: 0,
        }));
  const strips: StripPiece[] = [];
  const doubts: CutDoubt[] = [];
  for (const whole of wholes) {
    const butts = buttStations(whole.curve, whole.cutLengthMm, material.stockLength);
    const marks = [0, ...butts, whole.cutLengthMm];
    for (let i = 0; i + 1 < marks.length; i++) {
      const ends = [i === 0 ? "bevel" : "butt", i + 2 === marks.length ? "bevel" : "butt"] as const;
      const lengthMm = marks[i + 1] - marks[i];
      strips.push({
        name: partName(whole.name, zone.kind === "stiffener", i, butts.length),
        zone: zone.id,
        material: material.id,
        quantity: 1,
        lengthMm,
        ends,
        bevelDeg: shop.bevelDeg,
        tape: [marks[i], marks[i + 1]].map((mark) =>
          markAt(zone.tape.slice(whole.at, whole.at + 2), mark / whole.cutLengthMm, whole.alongMm),
        ) as [StripMark, StripMark],
        massKg: stripMass(material, lengthMm, ends.filter((end) => end === "bevel").length, shop.bevelDeg),
      });
    }
    if (butts.length > 0) {
      const at = butts.map((butt) => fixed(butt, 0));
      doubts.push({
        says:
          `${whole.called} ${fixed(whole.cutLengthMm, 0)} mm long, and the stock is ${material.stockLength} mm: ` +
          `${at.length === 1 ? `a butt joint at ${at}` : `butt joints at ${listed(at, "and")}`} mm`,
      });
    }
  }
  return { strips, doubts };
}

/** The mark at a part of a strip's length, between those of its two ends; `alongMm`: how far on along the rim the last one lies. */
function markAt([first, last]: readonly TapeMark[], part: number, alongMm: number): StripMark {
  const { from, downMm } = part === 1 ? last : first;
  if (part === 1) return { from, alongMm: last.alongMm, downMm };
  return {
    from,
    alongMm: first.alongMm === null ? null : first.alongMm + part * alongMm,
    downMm: downMm === null || last.downMm === null ? downMm : downMm + part * (last.downMm - downMm),
  };
}

function partName(name: string, isStiffener: boolean, part: number, butts: number): string {
  if (butts === 0) return name;
  return isStiffener ? `${name}/${letters(part)}` : `${name}${letters(part)}`;
}

/** Where a strip of core is butted, in cut lengths from its beginning, mm; empty when the stock is long enough. */
function buttStations(curve: SurfaceCurve, cutLengthMm: number, stockLength: number): number[] {
  const developed = Float64Array.from(curve.stations, (station) => (station * cutLengthMm) / curve.length);
  const ruler = { stations: developed, lines: [developed], length: cutLengthMm, closed: false };
  const bend = (at: number) => bendBetween(curve, at - STRAIGHT_REACH, at + STRAIGHT_REACH) / BENT;
  const rules = {
    longest: stockLength,
    lap: 0,
    stagger: 0,
    below: [],
    awkward: (from: number) => bend((from * curve.length) / cutLengthMm),
  };
  return divide(ruler, rules).joints.map((joint) => joint.at);
}

const start = new Float64Array(9);
const end = new Float64Array(9);

/** Angle between a curve's directions at two stations, rad. */
function bendBetween(curve: SurfaceCurve, from: number, to: number): number {
  curvePointAt(curve, from, start);
  curvePointAt(curve, to, end);
  return Math.acos(Math.min(1, start[3] * end[3] + start[4] * end[4] + start[5] * end[5]));
}

/** Mass of a strip with its bevels taken off: each takes a wedge of thickness² / (2 tan bevel) from its long face. */
function stripMass(material: StripMaterial, lengthMm: number, bevels: number, bevelDeg: number): number {
  const { width, thickness, kgPerM3 } = material;
  const wedge = thickness / (2 * Math.tan((bevelDeg * Math.PI) / 180));
  return (kgPerM3 / 1e9) * width * thickness * Math.max(0, lengthMm - bevels * wedge);
}
