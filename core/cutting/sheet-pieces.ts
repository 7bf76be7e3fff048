import type { FlatShape, LaidGussets, LaidPad } from "../layup/laid.ts";
import { boxOf } from "../packing/ring.ts";
import type { Material } from "../project/schema.ts";
import { fixed } from "../units/print.ts";
import { cutAcross } from "./cut-across.ts";
import type { CutDoubt, SheetPiece, StripMark } from "./kit.ts";
import { letters } from "./letters.ts";
import { readingAt } from "./on-tape.ts";
import { sameShape } from "./same-shape.ts";

/** Shapes that differ by no more than this are cut as one, mm: less than a saw's own play. What the shop calls alike is of cloth, which gives way; core butts. */
const SAME = 0.5;

type Sheet = Material & { readonly kind: "sheet" };

interface SheetPieces {
  readonly sheets: readonly SheetPiece[];
  readonly doubts: readonly CutDoubt[];
}

/**
 * Gusset webs of a zone. Equal ones are one entry with their number, under the name of the first: `gussets-seat/1`.
 */
export function gussetPieces(zone: LaidGussets, material: Sheet): SheetPieces {
  const shapes = zone.gussets.map(({ name, shape }, n) => ({
    name: `${zone.id}/${name}`,
    shape,
    at: readingAt(zone, n),
  }));
  const sheets = grouped(shapes).map((group) => makePiece(zone, "gusset", material, group));
  const doubts = sheets
    .filter((sheet) => !fitsSheet(sheet.lengthMm, sheet.widthMm, material))
    .map(({ name, lengthMm, widthMm }) => ({
      says: `${name}: it is ${size(lengthMm, widthMm)}, larger than a sheet of ${size(material.length, material.width)}`,
    }));
  return { sheets, doubts };
}

/**
 * Pads of a zone, one for each patch of the face: `pad-ledge/1`. What is larger than a sheet is cut in the fewest parts of
 * equal length and width that fit, which butt: `pad-ledge/1a`, `pad-ledge/1b`, …
 */
export function padPieces(zone: LaidPad, material: Sheet): SheetPieces {
  const doubts: CutDoubt[] = [];
  const shapes = zone.shapes.flatMap(({ shape }, patch) => {
    const name = `${zone.id}/${patch + 1}`;
    const parts = partsFor(shape, material);
    const at = readingAt(zone, patch);
    if (parts.length === 1) return [{ name, shape, at }];
    const box = boxOf(shape.points);
    doubts.push({
      says:
        `${zone.shapes.length > 1 ? `patch ${patch + 1}: ` : ""}it is ${size(box.width, box.height)}, larger than a sheet of ${size(material.length, material.width)}: ` +
        `cut in ${parts.length} parts that butt`,
    });
    return parts.map((part, i) => ({ name: name + letters(i), shape: part, at }));
  });
  const sheets = grouped(shapes).map((group) => makePiece(zone, "pad", material, group));
  return { sheets, doubts };
}

interface Named {
  readonly name: string;
  readonly shape: FlatShape;
  readonly at: StripMark | null;
}

interface Group extends Named {
  readonly all: readonly Named[];
}

function grouped(shapes: readonly Named[]): Group[] {
  const groups: Group[] = [];
  for (const each of shapes) {
    const i = groups.findIndex((group) => sameShape(group.shape.points, each.shape.points, SAME));
    if (i < 0) groups.push({ ...each, all: [each] });
    else groups[i] = { ...groups[i], all: [...groups[i].all, each] };
  }
  return groups;
}

function makePiece(
  zone: LaidGussets | LaidPad,
  kind: SheetPiece["kind"],
  material: Sheet,
  { name, shape, all }: Group,
): SheetPiece {
  const { left: x, low: y, width, height } = boxOf(shape.points);
  return {
    name,
    zone: zone.id,
    kind,
    material: material.id,
    quantity: all.length,
    lengthMm: Math.max(width, height),
    widthMm: Math.min(width, height),
    areaMm2: shape.areaMm2,
    massKg: (material.kgPerM3 / 1e9) * material.thickness * shape.areaMm2,
    outline: shape.points.map((value, i) => value - (i % 2 === 0 ? x : y)),
    places: all.flatMap((each) => (each.at ? [{ name: each.name, ...each.at }] : [])),
  };
}

/** The shape cut by an even grid so that every part fits a sheet laid one way; the way that needs fewer cuts. */
function partsFor(shape: FlatShape, sheet: Sheet): FlatShape[] {
  const box = boxOf(shape.points);
  const grid = (along: number, across: number) => ({
    columns: partsOf(box.width, along),
    rows: partsOf(box.height, across),
  });
  const lengthwise = grid(sheet.length, sheet.width);
  const crosswise = grid(sheet.width, sheet.length);
  const { columns, rows } =
    lengthwise.columns * lengthwise.rows <= crosswise.columns * crosswise.rows ? lengthwise : crosswise;
  const slabs = cutEvenly(shape, 0, box.left, box.width, columns);
  return slabs.flatMap((slab) => cutEvenly(slab, 1, box.low, box.height, rows));
}

function cutEvenly(shape: FlatShape, axis: 0 | 1, start: number, extent: number, parts: number): FlatShape[] {
  let rest = [shape];
  const done: FlatShape[] = [];
  for (let i = 1; i < parts; i++) {
    const cuts = rest.map((each) => cutAcross(each, axis, start + (extent * i) / parts));
    done.push(...cuts.flatMap(([below]) => below));
    rest = cuts.flatMap(([, above]) => above);
  }
  return [...done, ...rest];
}

/** How many parts of a length fit the most; a thousandth of a mm over is none. */
const partsOf = (length: number, most: number) => Math.max(1, Math.ceil((length - 1e-3) / most));

const fitsSheet = (length: number, width: number, sheet: Sheet) =>
  Math.max(length, width) <= Math.max(sheet.length, sheet.width) &&
  Math.min(length, width) <= Math.min(sheet.length, sheet.width);

const size = (length: number, width: number) => `${fixed(length, 0)} × ${fixed(width, 0)} mm`;
