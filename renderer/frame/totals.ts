import type { Kit } from "../../core/cutting/kit.ts";
import { printArea } from "../../core/units/area.ts";
import { type LengthStyle, printLength } from "../../core/units/length.ts";
import { printMass } from "../../core/units/mass.ts";
import { isImperial } from "../parts/imperial.ts";

/** The four totals of a kit, as they are written on top: cloth, strips, sheet, glass. */
export interface Totals {
  readonly woven: string;
  readonly ribs: string;
  readonly pads: string;
  readonly glass: string;
}

export function totalsOf(kit: Kit, lengths: LengthStyle): Totals {
  const sum = (kind: "woven" | "strip" | "sheet", figure: "areaMm2" | "lengthMm" | "massKg") =>
    kit.totals.filter((total) => total.kind === kind).reduce((all, total) => all + total[figure], 0);
  const imperial = isImperial(lengths);
  const area = (mm2: number) => printArea(mm2 / 1e6, imperial ? "ft2" : "m2");
  return {
    woven: area(sum("woven", "areaMm2")),
    ribs: printLength(sum("strip", "lengthMm"), imperial ? "ft-in" : "m"),
    pads: area(sum("sheet", "areaMm2")),
    glass: printMass(sum("woven", "massKg"), imperial ? "lb" : "kg"),
  };
}
