/** Results as tables of 80 columns. */
import type { Comparison } from "./against.ts";
import type { Row } from "./stage.ts";

const nameWidth = 40;
const figureWidth = 10;

function line(name: string, figures: readonly string[]): string {
  const first = name.length > nameWidth ? `${name.slice(0, nameWidth - 1)}…` : name.padEnd(nameWidth);
  return first + figures.map((figure) => figure.padStart(figureWidth)).join("");
}

/** Three significant figures from 0.01 ms up. */
export function milliseconds(ms: number): string {
  if (ms >= 100) return ms.toFixed(0);
  return ms >= 10 ? ms.toFixed(1) : ms.toFixed(ms >= 1 ? 2 : 3);
}

/** Min, median and max of each stage, in ms; a note stands below its row. */
export function timesTable(rows: readonly Row[]): string {
  return [
    line("stage (ms)", ["min", "median", "max", "runs"]),
    "-".repeat(80),
    ...rows.flatMap((row) => [
      line(row.name, [...[row.minMs, row.medianMs, row.maxMs].map(milliseconds), `${row.runs}`]),
      ...(row.note ? [`  ${row.note}`] : []),
    ]),
  ].join("\n");
}

/** Here against there: medians in ms, and the ratios here ÷ there of medians and of minima (under 1: faster here). */
export function ratiosTable({ pairs, onlyHere, onlyThere }: Comparison): string {
  return [
    line("stage (median ms)", ["here", "there", "ratio", "of minima"]),
    "-".repeat(80),
    ...pairs.map(({ here, there, ratio, ratioOfMinima }) =>
      line(here.name, [
        milliseconds(here.medianMs),
        milliseconds(there.medianMs),
        ratio.toFixed(3),
        ratioOfMinima.toFixed(3),
      ]),
    ),
    ...onlyHere.map((name) => `${name}: only here`),
    ...onlyThere.map((name) => `${name}: only there`),
  ].join("\n");
}
