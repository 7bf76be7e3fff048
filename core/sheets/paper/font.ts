/** TrueType fonts: what setting words and embedding them needs (OpenType 1.9, chapters cmap, glyf, head, hhea, hmtx, loca, maxp, OS/2). */

export interface Font {
  readonly name: string;
  readonly unitsPerEm: number;
  /** Height above and below the foot of the words, and box of all glyphs, in units of the em. */
  readonly ascent: number;
  readonly descent: number;
  readonly box: readonly [number, number, number, number];
  readonly capital: number;
  /** Number of glyphs with an advance of their own. */
  readonly advances: number;
  /** Whether places in `glyf` are 4 bytes each, not halves in 2. */
  readonly longPlaces: boolean;
  readonly tables: ReadonlyMap<string, DataView>;
  /** Glyph of a code point; 0, the empty box, where there is none. */
  readonly glyphs: ReadonlyMap<number, number>;
}

/** The two faces in which sheets are set. */
export interface Fonts {
  readonly plain: Font;
  readonly bold: Font;
}

/** Reads a font file; `name` is what it is called in the files that embed it. Throws an Error for one that is not TrueType. */
export function readFont(name: string, bytes: Uint8Array): Font {
  const file = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (file.getUint32(0) !== 0x00010000) throw new Error(`The font ${name} is no TrueType file.`);
  const tables = new Map<string, DataView>();
  for (let i = 0; i < file.getUint16(4); i++) {
    const at = 12 + 16 * i;
    const tag = String.fromCharCode(...bytes.subarray(at, at + 4));
    const begin = bytes.byteOffset + file.getUint32(at + 8);
    tables.set(tag, new DataView(bytes.buffer, begin, file.getUint32(at + 12)));
  }
  const table = (tag: string): DataView => {
    const found = tables.get(tag);
    if (!found) throw new Error(`The font ${name} has no table ${tag}.`);
    return found;
  };
  const head = table("head");
  const hhea = table("hhea");
  const os2 = table("OS/2");
  return {
    name,
    unitsPerEm: head.getUint16(18),
    ascent: hhea.getInt16(4),
    descent: hhea.getInt16(6),
    box: [head.getInt16(36), head.getInt16(38), head.getInt16(40), head.getInt16(42)],
    // Only from version 2 of the table on; else as of most fonts.
    capital: os2.getUint16(0) >= 2 ? os2.getInt16(88) : 0.73 * head.getUint16(18),
    advances: hhea.getUint16(34),
    longPlaces: head.getInt16(50) === 1,
    tables,
    glyphs: readCharacters(name, table("cmap")),
  };
}

/** How wide a glyph is set, in units of the em. */
export function advanceOf({ tables, advances }: Font, glyph: number): number {
  return (tables.get("hmtx") as DataView).getUint16(4 * Math.min(glyph, advances - 1));
}

export function glyphsOf(font: Font, text: string): number[] {
  return [...text].map((character) => font.glyphs.get(character.codePointAt(0) as number) ?? 0);
}

/** Width of words, in the unit of `size`. */
export function widthOf(font: Font, text: string, size: number): number {
  const units = glyphsOf(font, text).reduce((sum, glyph) => sum + advanceOf(font, glyph), 0);
  return (units * size) / font.unitsPerEm;
}

/** The words as they are when they fit a width, else their beginning with …; nothing where not even that fits. */
export function shortened(font: Font, text: string, size: number, width: number): string {
  if (fits(font, text, size, width)) return text;
  const characters = [...text];
  for (let length = characters.length - 1; length > 0; length--) {
    const short = `${characters.slice(0, length).join("").trimEnd()}…`;
    if (fits(font, short, size, width)) return short;
  }
  return "";
}

/** The words as they are when they fit a width, else their end after …; nothing where not even that fits. */
export function endOf(font: Font, text: string, size: number, width: number): string {
  if (fits(font, text, size, width)) return text;
  const characters = [...text];
  for (let from = 1; from < characters.length; from++) {
    const short = `…${characters.slice(from).join("").trimStart()}`;
    if (fits(font, short, size, width)) return short;
  }
  return "";
}

/** Words that were made just so small that they fit do so, whatever the rounding. */
function fits(font: Font, text: string, size: number, width: number): boolean {
  return widthOf(font, text, size) <= width + 1e-6;
}

/** The words in lines no wider than `width`, broken at spaces. */
export function broken(font: Font, text: string, size: number, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(font, `${last} ${word}`, size) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** The Unicode map of the first plane, format 4. */
function readCharacters(name: string, cmap: DataView): Map<number, number> {
  for (let i = 0; i < cmap.getUint16(2); i++) {
    const at = 4 + 8 * i;
    const start = cmap.getUint32(at + 4);
    if (cmap.getUint16(at) === 3 && cmap.getUint16(at + 2) === 1 && cmap.getUint16(start) === 4) {
      return readSegments(cmap, start);
    }
  }
  throw new Error(`The font ${name} has no Unicode map of format 4.`);
}

function readSegments(cmap: DataView, start: number): Map<number, number> {
  const glyphs = new Map<number, number>();
  const double = cmap.getUint16(start + 6);
  const ends = start + 14;
  const starts = ends + double + 2;
  const deltas = starts + double;
  const offsets = deltas + double;
  for (let i = 0; i < double; i += 2) {
    const offset = cmap.getUint16(offsets + i);
    const first = cmap.getUint16(starts + i);
    for (let code = first; code <= cmap.getUint16(ends + i) && code < 0xffff; code++) {
      const listed = offset === 0 ? code : cmap.getUint16(offsets + i + offset + 2 * (code - first));
      const glyph = offset > 0 && listed === 0 ? 0 : (listed + cmap.getUint16(deltas + i)) & 0xffff;
      if (glyph > 0) glyphs.set(code, glyph);
    }
  }
  return glyphs;
}
