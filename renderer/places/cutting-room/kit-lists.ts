import type { Kit, Piece, StripPiece } from "../../../core/cutting/kit.ts";
import { m2PerSquareFoot } from "../../../core/units/area.ts";
import { type LengthStyle, printLength } from "../../../core/units/length.ts";
import { kgPerPound } from "../../../core/units/mass.ts";
import { fixed } from "../../../core/units/print.ts";
import { isImperial } from "../../parts/imperial.ts";
import { zoneName } from "../../parts/names.ts";
import { words } from "../../words.ts";
import { pieceLies, sheetLies, stripLies } from "./where-it-lies.ts";

/** The kit as lists: cloth, strips, sheets, and the totals by material. */
export const listNames = ["pieces", "strips", "sheets", "totals"] as const;
export type ListName = (typeof listNames)[number];

export type ColumnName = keyof typeof words.cutting.columns;

export interface Column {
  readonly name: ColumnName;
  /** Written at the head, where its figures do not bring their own. */
  readonly unit: string;
  /** Figures stand at the right. */
  readonly figures: boolean;
}

/** What a cell shows, and what it is ordered by. */
export interface Cell {
  readonly text: string;
  readonly by: number | string;
}

export interface Row {
  readonly id: string;
  /** The zone that it is cut for; null in the totals. */
  readonly zone: string | null;
  readonly material: string;
  readonly cells: Readonly<Partial<Record<ColumnName, Cell>>>;
}

export interface KitList {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

/** Edges of a piece that differ by less than this are one length, mm. */
const SAME_EDGE = 0.5;

/** One list of a kit, its figures written in these lengths and what goes with them. */
export function kitList(name: ListName, kit: Kit, lengths: LengthStyle): KitList {
  const write = figuresIn(lengths);
  const { shells } = kit;
  const number = (quantity: number): Row["cells"] => ({
    number: write.count(quantity),
    ...(shells > 1 && { ofLot: write.count(quantity * shells) }),
  });
  const material = (id: string) => word(kit.totals.find((total) => total.material === id)?.name ?? id);
  const rows: Row[] = [];
  if (name === "pieces") {
    for (const piece of kit.pieces) {
      rows.push(
        rowOf(piece, {
          name: word(piece.name),
          zone: word(zoneName(piece.zone)),
          ply: write.count(piece.ply),
          material: material(piece.material),
          ...number(piece.quantity),
          length: write.length(piece.lengthMm, 0),
          width: write.length(piece.widthMm, 0),
          ...edges(piece, (mm) => write.length(mm, 0)),
          area: write.area(piece.areaMm2),
          mass: write.mass(piece.glassKg),
          lies: { text: pieceLies(piece, lengths), by: piece.fromMm },
        }),
      );
    }
  } else if (name === "strips") {
    for (const strip of kit.strips) {
      rows.push(
        rowOf(strip, {
          name: word(strip.name),
          zone: word(zoneName(strip.zone)),
          material: material(strip.material),
          ...number(strip.quantity),
          length: write.length(strip.lengthMm, 1),
          ends: word(endsOf(strip)),
          mass: write.mass(strip.massKg),
          lies: word(stripLies(strip, lengths)),
        }),
      );
    }
  } else if (name === "sheets") {
    for (const sheet of kit.sheets) {
      rows.push(
        rowOf(sheet, {
          name: word(sheet.name),
          zone: word(zoneName(sheet.zone)),
          kind: word(words.cutting.sheetKinds[sheet.kind]),
          material: material(sheet.material),
          ...number(sheet.quantity),
          length: write.length(sheet.lengthMm, 0),
          width: write.length(sheet.widthMm, 0),
          area: write.area(sheet.areaMm2),
          mass: write.mass(sheet.massKg),
          lies: word(sheetLies(sheet, lengths)),
        }),
      );
    }
  } else {
    for (const total of kit.totals) {
      rows.push({
        id: total.material,
        zone: null,
        material: total.material,
        cells: {
          material: word(total.name),
          pieces: write.count(total.pieces),
          area: write.area(total.areaMm2),
          ...(total.kind !== "sheet" && { run: write.run(total.lengthMm) }),
          mass: write.mass(total.massKg),
        },
      });
    }
  }
  return { columns: columnsOf(name, shells, write.units), rows };
}

const columnNames: Readonly<Record<ListName, readonly ColumnName[]>> = {
  pieces: [
    "name",
    "zone",
    "ply",
    "material",
    "number",
    "ofLot",
    "length",
    "width",
    "left",
    "middle",
    "right",
    "area",
    "mass",
    "lies",
  ],
  strips: ["name", "zone", "material", "number", "ofLot", "length", "ends", "mass", "lies"],
  sheets: ["name", "zone", "kind", "material", "number", "ofLot", "length", "width", "area", "mass", "lies"],
  totals: ["material", "pieces", "area", "run", "mass"],
};
const wordColumns: ReadonlySet<ColumnName> = new Set(["name", "zone", "material", "kind", "ends", "lies"]);

function columnsOf(list: ListName, shells: number, units: Partial<Record<ColumnName, string>>): Column[] {
  return columnNames[list]
    .filter((name) => name !== "ofLot" || shells > 1)
    .map((name) => ({ name, unit: units[name] ?? "", figures: !wordColumns.has(name) }));
}

const rowOf = (cut: { name: string; zone: string; material: string }, cells: Row["cells"]): Row => ({
  id: cut.name,
  zone: cut.zone,
  material: cut.material,
  cells,
});

const word = (text: string): Cell => ({ text, by: text });

function endsOf({ ends: [first, last] }: StripPiece): string {
  const { ends } = words.cutting;
  return first === last ? ends[first] : `${ends[first]}, ${ends[last]}`;
}

/** Both edges and the middle of a piece that goes round a corner; a straight one has its length only. */
function edges(
  { leftEdgeMm, midMm, rightEdgeMm }: Piece,
  write: (mm: number) => Cell,
): Pick<Row["cells"], "left" | "middle" | "right"> {
  const all = [leftEdgeMm, midMm, rightEdgeMm];
  if (Math.max(...all) - Math.min(...all) <= SAME_EDGE) return {};
  return { left: write(leftEdgeMm), middle: write(midMm), right: write(rightEdgeMm) };
}

/** How figures are written in a table: bare where the head of the column has the unit. */
function figuresIn(lengths: LengthStyle) {
  const imperial = isImperial(lengths);
  const length = imperial ? "" : lengths;
  const area = imperial ? "ft²" : "m²";
  const mass = imperial ? "lb" : "kg";
  const units: Partial<Record<ColumnName, string>> = {
    length,
    width: length,
    left: length,
    middle: length,
    right: length,
    run: imperial ? "" : "m",
    area,
    mass,
  };
  const inFeet = (mm: number) => ({ text: printLength(mm, lengths), by: mm });
  return {
    units,
    count: (n: number): Cell => ({ text: String(n), by: n }),
    length: (mm: number, decimals: number): Cell =>
      imperial ? inFeet(mm) : { text: lengths === "mm" ? fixed(mm, decimals) : fixed(mm / 1000, 3), by: mm },
    run: (mm: number): Cell => (imperial ? inFeet(mm) : { text: fixed(mm / 1000, 2), by: mm }),
    area: (mm2: number): Cell => ({
      text: imperial ? fixed(mm2 / 1e6 / m2PerSquareFoot, 2) : fixed(mm2 / 1e6, 3),
      by: mm2,
    }),
    mass: (kg: number): Cell => ({ text: fixed(imperial ? kg / kgPerPound : kg, 2), by: kg }),
  };
}
