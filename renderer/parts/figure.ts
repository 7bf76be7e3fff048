import type { z } from "zod";
import { measures } from "../../core/project/figures.ts";
import { type LengthStyle, printLength, readLength } from "../../core/units/length.ts";
import { fixed } from "../../core/units/print.ts";
import type { Reading } from "../../core/units/quantity.ts";

/** What a figure of the project measures, and with it how it is written, read and stepped. */
export interface Measure {
  readonly kind: "length" | "angle" | "part" | "count" | "other";
  /** Written behind the figure; lengths bring their own. */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  /** One step of a drag or an arrow key, in the project's own unit. */
  readonly step: number;
}

const kinds: Readonly<Record<string, Pick<Measure, "kind" | "unit" | "step">>> = {
  "a length in mm": { kind: "length", unit: "", step: 10 },
  "an angle in degrees": { kind: "angle", unit: "°", step: 0.5 },
  "a proportion": { kind: "part", unit: " %", step: 0.01 },
  "a whole number": { kind: "count", unit: "", step: 1 },
  "a fall in mm a metre": { kind: "other", unit: " mm/m", step: 1 },
  "a weight in g/m²": { kind: "other", unit: " g/m²", step: 10 },
  "a density in kg/m³": { kind: "other", unit: " kg/m³", step: 5 },
  "a number": { kind: "other", unit: "", step: 0.05 },
};

/** What a number of the schema measures, with the limits that the schema sets. */
export function measureOf(schema: z.ZodNumber): Measure {
  const told = measures.get(schema)?.measure ?? "a number";
  const known = kinds[told];
  if (!known) throw new Error(`No way yet to write ${told}.`);
  const { minValue, maxValue } = schema;
  return { ...known, min: minValue ?? -Infinity, max: maxValue ?? Infinity };
}

/** Decimals that a person sees at most, of percents fewer; the project keeps them all. */
const DECIMALS = 3;
const PERCENT_DECIMALS = 1;
const plain = (value: number, decimals = DECIMALS) => String(Number(fixed(value, decimals)));

/** A figure as it stands in its field. */
export function printFigure(value: number, measure: Measure, lengths: LengthStyle): string {
  if (measure.kind === "part") return `${plain(value * 100, PERCENT_DECIMALS)} %`;
  if (measure.kind !== "length") return `${plain(value)}${measure.unit}`;
  // Whole millimetres are not enough for a figure that has a fraction of one.
  return lengths === "mm" ? `${plain(value)} mm` : printLength(value, lengths);
}

const bareUnit = { mm: "mm", m: "m", in: "in", "ft-in": "in" } as const;

/** Reads what a person typed into the field of a figure; lengths without a unit take the one that is shown. */
export function readFigure(text: string, measure: Measure, lengths: LengthStyle): Reading {
  if (measure.kind === "length") return readLength(text, bareUnit[lengths]);
  const unit = measure.unit.trim();
  const bare = text
    .trim()
    .replace(/−/g, "-")
    .replace(/\s*(deg|degrees)$/i, "");
  const number = unit !== "" && bare.endsWith(unit) ? bare.slice(0, -unit.length) : bare;
  if (!/^\s*[+-]?\s*\d*\.?\d+(\s*[+-]\s*\d*\.?\d+)*\s*$/.test(number)) {
    const example = measure.kind === "part" ? "35 or 50-15" : "3 or 4.5-1";
    return { ok: false, problem: `Cannot read "${text}" as a number. Write for example ${example}.` };
  }
  const sum = [...number.replaceAll(/\s/g, "").matchAll(/[+-]?[\d.]+/g)].reduce(
    (all, [term]) => all + Number(term),
    0,
  );
  return { ok: true, value: Number((measure.kind === "part" ? sum / 100 : sum).toPrecision(12)) };
}

/** Brings a stepped value onto whole steps and within its limits. */
export function steppedTo(value: number, { min, max, step, kind }: Measure, fine: boolean): number {
  const grain = fine && kind !== "count" ? step / 10 : step;
  const onGrain = Number((Math.round(value / grain) * grain).toPrecision(12));
  return Math.min(max, Math.max(min, onGrain));
}
