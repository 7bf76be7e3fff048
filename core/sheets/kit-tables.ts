import type { Kit, StripPiece } from "../cutting/kit.ts";
import type { Layup } from "../layup/laid.ts";
import { counted } from "../units/counted.ts";
import { fixed } from "../units/print.ts";
import { adjustmentSentence } from "./adjustment-sentence.ts";
import { CLOTH_NOTE } from "./cloth-note.ts";
import { harmless } from "./harmless.ts";
import { lookedAt, type ToldOfShell } from "./kit-report.ts";
import { findings, printTable, section } from "./table.ts";

/** Lines of a piece that differ by less than this are not worth a figure each, mm. */
const SAME_EDGE = 0.5;

/**
 * The kit for people: zones, pieces, strips, sheets, totals, and what to look at first; lengths in mm.
 */
export function kitTables(name: string, layup: Layup, kit: Kit, { flaws, adjustments }: ToldOfShell): string {
  const { looks, uncut } = lookedAt(layup, kit);
  const shells = counted(kit.shells, "shell");
  const parts = [
    `${harmless(name)}: kit for ${shells}\n`,
    section("Zones", zoneTable(layup)),
    section("Cloth, for one shell (mm; edges and middle where they differ)", pieceTable(kit)),
    section("Strips, for one shell (mm, bevels included)", stripTable(kit)),
    section("Sheets, for one shell (mm)", sheetTable(kit)),
    section(`Totals for ${shells}${sawn(kit)}`, totalTable(kit)),
    findings("Do not cut yet: the shell's surface failed its self-check", flaws),
    findings("Adjusted, so that the shell can be built", adjustments.map(adjustmentSentence)),
    findings(
      "Adrift: these zones find no place on this shell",
      layup.adrift.map(({ id, why, mend }) => `${id}: ${why} ${mend}`),
    ),
    findings(
      "Cannot be cut as it is listed",
      uncut.map(({ zone, says }) => `${zone}: ${says}`),
    ),
    findings(
      "To look at",
      looks.map(({ zone, says }) => `${zone}: ${says}`),
    ),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

/** What the lengths of strips in the totals hold beside the strips. */
function sawn({ totals }: Kit): string {
  return totals.some(({ kerfMm }) => kerfMm > 0) ? " (length of strips with a saw kerf for each)" : "";
}

const mm = (length: number) => fixed(length, 0);
const m2 = (mm2: number) => fixed(mm2 / 1e6, 3);

/** Kinds as people say them, where that is not the file's word. */
const kindWords: Readonly<Record<string, string>> = { stroke: "free band", "rib-row": "rib row" };

function zoneTable({ zones }: Layup): string {
  if (zones.length === 0) return "";
  const table = printTable(
    [
      { head: "zone" },
      { head: "kind" },
      { head: "material" },
      { head: "plies", align: "right" },
      { head: "length mm", align: "right" },
      { head: "m² a ply", align: "right" },
    ],
    zones.map((zone) => [
      zone.id,
      kindWords[zone.kind] ?? zone.kind,
      zone.material.id,
      `${zone.plies}`,
      mm(zone.lengthMm),
      m2(zone.areaMm2),
    ]),
  );
  return table + lengthNote(zones);
}

/** What the length of a zone is that runs along no one line, or with what, a line each. */
function lengthNote(zones: Layup["zones"]): string {
  const has = (kind: string) => zones.some((zone) => zone.kind === kind);
  const says = [
    ...(has("rib-row") ? ["of a rib row, its ribs added up, bevels included"] : []),
    ...(has("stiffener") ? ["of a stiffener, without its bevels"] : []),
    ...(has("pad") ? ["of a pad, round its outline"] : []),
  ];
  return says.length > 0 ? `  Length: ${says.join(";\n  ")}.\n` : "";
}

function pieceTable({ pieces }: Kit): string {
  if (pieces.length === 0) return "";
  return printTable(
    [
      { head: "piece" },
      { head: "material" },
      { head: "no.", align: "right" },
      { head: "length", align: "right" },
      { head: "width", align: "right" },
      { head: "left", align: "right" },
      { head: "middle", align: "right" },
      { head: "right", align: "right" },
      { head: "m²", align: "right" },
    ],
    pieces.map((piece) => {
      const lines = [piece.leftEdgeMm, piece.midMm, piece.rightEdgeMm];
      const differ = Math.max(...lines) - Math.min(...lines) > SAME_EDGE;
      return [
        piece.name,
        piece.material,
        `${piece.quantity}`,
        mm(piece.lengthMm),
        mm(piece.widthMm),
        ...lines.map((length) => (differ ? mm(length) : "")),
        m2(piece.areaMm2),
      ];
    }),
  );
}

function stripTable({ strips }: Kit): string {
  if (strips.length === 0) return "";
  return printTable(
    [
      { head: "strip" },
      { head: "material" },
      { head: "number", align: "right" },
      { head: "length", align: "right" },
      { head: "ends" },
    ],
    alike(strips).map((group) => {
      const [first] = group;
      const number = group.reduce((sum, { quantity }) => sum + quantity, 0);
      const [start, end] = first.ends;
      const ends = start === end ? start : `${start}, ${end}`;
      return [namesTogether(group), first.material, `${number}`, fixed(first.lengthMm, 1), ends];
    }),
  );
}

/** Strips of one zone that are cut alike, to the tenth of a mm, each under its own name. */
function alike(strips: readonly StripPiece[]): StripPiece[][] {
  const groups = new Map<string, StripPiece[]>();
  for (const strip of strips) {
    const key = [strip.zone, strip.material, fixed(strip.lengthMm, 1), ...strip.ends].join(" ");
    groups.set(key, [...(groups.get(key) ?? []), strip]);
  }
  return [...groups.values()];
}

/** `ribs-left/1, 2, 3`: the zone once. */
function namesTogether(group: readonly StripPiece[]): string {
  const [first, ...others] = group;
  const short = others.map(({ name }) => name.slice(name.lastIndexOf("/") + 1));
  return [first.name, ...short].join(", ");
}

function sheetTable({ sheets }: Kit): string {
  if (sheets.length === 0) return "";
  return printTable(
    [
      { head: "sheet piece" },
      { head: "kind" },
      { head: "material" },
      { head: "number", align: "right" },
      { head: "length", align: "right" },
      { head: "width", align: "right" },
      { head: "m²", align: "right" },
    ],
    sheets.map((sheet) => [
      sheet.name,
      sheet.kind,
      sheet.material,
      `${sheet.quantity}`,
      mm(sheet.lengthMm),
      mm(sheet.widthMm),
      m2(sheet.areaMm2),
    ]),
  );
}

function totalTable({ totals }: Kit): string {
  if (totals.length === 0) return "";
  const table = printTable(
    [
      { head: "material" },
      { head: "pieces", align: "right" },
      { head: "m² in all", align: "right" },
      { head: "length m", align: "right" },
      { head: "mass kg", align: "right" },
    ],
    totals.map((total) => [
      total.name,
      `${total.pieces}`,
      m2(total.areaMm2),
      total.lengthMm > 0 ? fixed(total.lengthMm / 1000, 2) : "",
      fixed(total.massKg, 2),
    ]),
  );
  return totals.some(({ kind }) => kind === "woven") ? table + CLOTH_NOTE : table;
}
