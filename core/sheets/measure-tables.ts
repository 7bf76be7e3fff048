import type { Measure } from "../shell/measure.ts";
import { fixed } from "../units/print.ts";
import { adjustmentSentence } from "./adjustment-sentence.ts";
import { harmless } from "./harmless.ts";
import { findings, printTable, section } from "./table.ts";

/** A shell's measures for people: areas in m², volumes in m³, lengths in mm. */
export function measureTables(name: string, measure: Measure): string {
  const parts = [
    `${harmless(name)}: measures of the gel-coat surface\n`,
    section("Shell", shellTable(measure)),
    section("Faces", faceTable(measure)),
    section("Transitions", transitionTable(measure)),
    findings("Adjusted, so that the shell can be built", measure.adjustments.map(adjustmentSentence)),
    findings("The surface failed its self-check", measure.flaws),
    findings("To look at", measure.doubts),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

const m2 = (mm2: number) => fixed(mm2 / 1e6, 3);
const m3 = (mm3: number) => fixed(mm3 / 1e9, 3);

function shellTable(measure: Measure): string {
  return printTable(
    [{ head: "measure" }, { head: "figure", align: "right" }, { head: "unit" }],
    [
      ["area, coping included", m2(measure.areaMm2), "m²"],
      ["volume to the rim", m3(measure.volumeToRimMm3), "m³"],
      ["volume to the water line", m3(measure.volumeToWaterMm3), "m³"],
      ["rim, as drawn", fixed(measure.rimLengthMm, 1), "mm"],
      ...measure.transitions
        .filter(({ id }) => id === "rim")
        .map(({ lengthMm }) => ["rim, halfway round its radius", fixed(lengthMm, 1), "mm"]),
    ],
  );
}

function faceTable({ faces }: Measure): string {
  return printTable(
    [{ head: "face" }, { head: "kind" }, { head: "area m²", align: "right" }],
    faces.map(({ id, kind, areaMm2 }) => [id, kind, m2(areaMm2)]),
  );
}

function transitionTable({ transitions }: Measure): string {
  if (transitions.length === 0) return "";
  return printTable(
    [{ head: "transition" }, { head: "between" }, { head: "length mm", align: "right" }, { head: "runs" }],
    transitions.map(({ id, between, lengthMm, closed }) => [
      id,
      id.startsWith(between.join("|")) ? "" : between.join(" | "),
      fixed(lengthMm, 1),
      closed ? "all round" : "open",
    ]),
  );
}
