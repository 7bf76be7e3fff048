import type { Font } from "./font.ts";

/** What a composite glyph says of each of its parts (OpenType 1.9, glyf, component flags). */
const WORDS = 0x0001;
const SCALE = 0x0008;
const MORE = 0x0020;
const TWO_SCALES = 0x0040;
const MATRIX = 0x0080;

export interface Subset {
  /** A TrueType file without what only setting words needs. */
  readonly bytes: Uint8Array;
  /** Number in the subset of each of the glyphs, and of those that they are made of. */
  readonly numbers: ReadonlyMap<number, number>;
}

/** A font file with these glyphs only, and the empty box as number 0. The same glyphs in any order give the same bytes. */
export function subsetFont(font: Font, glyphs: Iterable<number>): Subset {
  const kept = withParts(font, glyphs);
  const numbers = new Map(kept.map((glyph, i) => [glyph, i]));
  const outlines = kept.map((glyph) => renumbered(glyphData(font, glyph), numbers));
  const places = new DataView(new ArrayBuffer(4 * (kept.length + 1)));
  let length = 0;
  outlines.forEach((outline, i) => {
    length += padded(outline.length);
    places.setUint32(4 * (i + 1), length);
  });
  const glyf = new Uint8Array(length);
  outlines.forEach((outline, i) => {
    glyf.set(outline, places.getUint32(4 * i));
  });
  const metrics = new DataView(new ArrayBuffer(4 * kept.length));
  const hmtx = font.tables.get("hmtx") as DataView;
  kept.forEach((glyph, i) => {
    metrics.setUint16(4 * i, hmtx.getUint16(4 * Math.min(glyph, font.advances - 1)));
    const bearing = glyph < font.advances ? 4 * glyph + 2 : 4 * font.advances + 2 * (glyph - font.advances);
    metrics.setInt16(4 * i + 2, hmtx.getInt16(bearing));
  });
  const tables = new Map<string, Uint8Array>();
  // Hints are left as they are, with what they call.
  for (const tag of ["cvt ", "fpgm", "prep"]) if (font.tables.has(tag)) tables.set(tag, copyOf(font, tag));
  tables.set("glyf", glyf);
  tables.set("head", changed(copyOf(font, "head"), 50, 1));
  tables.set("hhea", changed(copyOf(font, "hhea"), 34, kept.length));
  tables.set("hmtx", new Uint8Array(metrics.buffer));
  tables.set("loca", new Uint8Array(places.buffer));
  tables.set("maxp", changed(copyOf(font, "maxp"), 4, kept.length));
  return { bytes: fontFile(tables), numbers };
}

/** The glyphs with all that they are made of, rising, the empty box first. */
function withParts(font: Font, glyphs: Iterable<number>): number[] {
  const kept = new Set([0]);
  const waiting = [...glyphs];
  for (let glyph = waiting.pop(); glyph !== undefined; glyph = waiting.pop()) {
    if (kept.has(glyph)) continue;
    kept.add(glyph);
    for (const { part } of partsOf(glyphData(font, glyph))) waiting.push(part);
  }
  return [...kept].sort((a, b) => a - b);
}

function glyphData(font: Font, glyph: number): Uint8Array {
  const loca = font.tables.get("loca") as DataView;
  const glyf = font.tables.get("glyf") as DataView;
  const place = (i: number) => (font.longPlaces ? loca.getUint32(4 * i) : 2 * loca.getUint16(2 * i));
  return new Uint8Array(glyf.buffer, glyf.byteOffset + place(glyph), place(glyph + 1) - place(glyph));
}

/** The parts of a composite glyph, each with the place at which its number stands. */
function partsOf(data: Uint8Array): { readonly at: number; readonly part: number }[] {
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  if (data.length === 0 || view.getInt16(0) >= 0) return [];
  const parts = [];
  let flags = MORE;
  for (let at = 10; flags & MORE; ) {
    flags = view.getUint16(at);
    parts.push({ at: at + 2, part: view.getUint16(at + 2) });
    at += flags & WORDS ? 8 : 6;
    at += flags & SCALE ? 2 : flags & TWO_SCALES ? 4 : flags & MATRIX ? 8 : 0;
  }
  return parts;
}

function renumbered(data: Uint8Array, numbers: ReadonlyMap<number, number>): Uint8Array {
  const copy = data.slice();
  for (const { at, part } of partsOf(data)) changed(copy, at, numbers.get(part) as number);
  return copy;
}

const padded = (length: number) => (length + 3) & ~3;

function copyOf(font: Font, tag: string): Uint8Array {
  const { buffer, byteOffset, byteLength } = font.tables.get(tag) as DataView;
  return new Uint8Array(buffer, byteOffset, byteLength).slice();
}

function changed(bytes: Uint8Array, at: number, value: number): Uint8Array {
  new DataView(bytes.buffer, bytes.byteOffset).setUint16(at, value);
  return bytes;
}

/** Tables in the order of their names, each with its checksum; that of the whole file is not asked for in an embedded font. */
function fontFile(tables: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const names = [...tables.keys()].sort();
  let at = 12 + 16 * names.length;
  const bytes = new Uint8Array(names.reduce((sum, name) => sum + padded(tables.get(name)!.length), at));
  const view = new DataView(bytes.buffer);
  const power = Math.floor(Math.log2(names.length));
  view.setUint32(0, 0x00010000);
  view.setUint16(4, names.length);
  view.setUint16(6, 16 * 2 ** power);
  view.setUint16(8, power);
  view.setUint16(10, 16 * (names.length - 2 ** power));
  names.forEach((name, i) => {
    const table = tables.get(name) as Uint8Array;
    bytes.set(table, at);
    let sum = 0;
    for (let word = at; word < at + padded(table.length); word += 4) sum = (sum + view.getUint32(word)) >>> 0;
    for (let k = 0; k < 4; k++) view.setUint8(12 + 16 * i + k, name.charCodeAt(k));
    view.setUint32(12 + 16 * i + 4, sum);
    view.setUint32(12 + 16 * i + 8, at);
    view.setUint32(12 + 16 * i + 12, table.length);
    at += padded(table.length);
  });
  return bytes;
}
