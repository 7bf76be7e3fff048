import type { Drawing, Line, Mark, Pane, Words } from "./drawing.ts";
import { advanceOf, type Font, type Fonts, glyphsOf, widthOf } from "./font.ts";
import { subsetFont } from "./font-subset.ts";
import { numberText as n } from "./number-text.ts";
import { hex, latin, type PdfFile, pdfFile, pdfText, type Reference } from "./pdf-file.ts";

const POINTS_PER_MM = 72 / 25.4;
/** Distance between the lines of a hatching, mm. */
const HATCH = 2;
/** The longest side of a page that every reader takes, mm (ISO 32000-1:2008, annex C.2: 14,400 units). */
export const LONGEST_PAGE = 5080;

/**
 * Drawings as the pages of a PDF, true to size: a reader that heeds the file prints it unscaled. What the sheets say is text that can be
 * searched. Same drawings, same bytes. `onPage` is called before each page.
 */
export function printPdf(
  title: string,
  pages: readonly Drawing[],
  fonts: Fonts,
  onPage: (page: number) => void = () => {},
): Uint8Array {
  const file = pdfFile();
  const inks = { plain: ink(fonts.plain, "F1"), bold: ink(fonts.bold, "F2") };
  const tree = file.later();
  const resources = file.later();
  const kids = pages.map((page, i) => {
    onPage(i + 1);
    const content = `${n6(POINTS_PER_MM)} 0 0 ${n6(POINTS_PER_MM)} 0 0 cm 1 j 1 J\n${marksText(page.marks, inks)}`;
    const stream = file.stream(latin(content));
    const size = [page.widthMm, page.heightMm].map((mm) => n6(mm * POINTS_PER_MM)).join(" ");
    return file.add(
      `<< /Type /Page /Parent ${tree.at} /MediaBox [0 0 ${size}] /Resources ${resources.at} /Contents ${stream} >>`,
    );
  });
  const used = Object.values(inks).filter(({ numbers }) => numbers.size > 0);
  const named = used.map((each) => `/${each.name} ${embedded(file, each)}`);
  resources.fill(`<< /Font << ${named.join(" ")} >> >>`);
  tree.fill(`<< /Type /Pages /Count ${kids.length} /Kids [${kids.join(" ")}] >>`);
  const catalog = file.add(
    `<< /Type /Catalog /Pages ${tree.at} /Lang (en-GB) /ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >> >>`,
  );
  const info = file.add(`<< /Title ${pdfText(title)} /Producer (Ribband) >>`);
  return file.bytes(catalog, info);
}

/** A font with what has been set in it so far: the character of each glyph. */
interface Ink {
  readonly font: Font;
  readonly name: string;
  readonly numbers: Map<number, string>;
}

const ink = (font: Font, name: string): Ink => ({ font, name, numbers: new Map() });

interface Inks {
  readonly plain: Ink;
  readonly bold: Ink;
}

const n6 = (value: number) => value.toFixed(6).replace(/\.?0+$/, "");

function marksText(marks: readonly Mark[], inks: Inks): string {
  return marks
    .map((mark) => {
      if (mark.kind === "line") return lineText(mark);
      return mark.kind === "words" ? wordsText(mark, inks) : paneText(mark, inks);
    })
    .join("");
}

function pathText(points: ArrayLike<number>, closed: boolean): string {
  const parts: string[] = [];
  for (let i = 0; i + 1 < points.length; i += 2)
    parts.push(`${n(points[i])} ${n(points[i + 1])} ${i === 0 ? "m" : "l"}`);
  return `${parts.join(" ")}${closed ? " h" : ""}`;
}

function lineText({ points, closed, pen, fill }: Line): string {
  const path = pathText(points, closed);
  const stroke = pen ? `${n(pen.widthMm)} w [${(pen.dash ?? []).map(n).join(" ")}] 0 d\n` : "";
  if (fill === "hatched") {
    const lines = hatching(points);
    return `q ${path} W n 0.1 w [] 0 d\n${lines} S Q\n${pen ? `${stroke}${path} S\n` : ""}`;
  }
  const shade = fill === "paper" ? "1 g " : fill === "ink" ? "0 g " : "";
  const paint = fill ? (pen ? "B" : "f") : pen ? "S" : "n";
  return `${stroke}${shade}${path} ${paint}\n${fill === "paper" ? "0 g\n" : ""}`;
}

/** Slanting lines over the box of an outline, always at the same places of the page. */
function hatching(points: ArrayLike<number>): string {
  const xs = Array.from(points).filter((_, i) => i % 2 === 0);
  const ys = Array.from(points).filter((_, i) => i % 2 === 1);
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const step = HATCH * Math.SQRT2;
  const lines: string[] = [];
  for (let at = Math.ceil((left - high) / step) * step; at < right - low; at += step)
    lines.push(pathText([at + low, low, at + high, high], false));
  return lines.join(" ");
}

function wordsText({ x, y, words, size, align, turnDeg, bold }: Words, inks: Inks): string {
  const { font, name, numbers } = bold ? inks.bold : inks.plain;
  const characters = [...words];
  const glyphs = glyphsOf(font, words);
  glyphs.forEach((glyph, i) => {
    if (!numbers.has(glyph)) numbers.set(glyph, characters[i]);
  });
  const width = align === "left" ? 0 : widthOf(font, words, size) * (align === "middle" ? 0.5 : 1);
  const turn = (turnDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const matrix = [n6(cos), n6(sin), n6(-sin), n6(cos), n(x - width * cos), n(y - width * sin)].join(" ");
  // Codes are the numbers of glyphs in the whole font: what is used of it is known only when all pages are written.
  return `BT /${name} ${n(size)} Tf ${matrix} Tm <${glyphs.map(hex).join("")}> Tj ET\n`;
}

function paneText({ x, y, width, height, dx, dy, marks }: Pane, inks: Inks): string {
  return `q ${n(x)} ${n(y)} ${n(width)} ${n(height)} re W n 1 0 0 1 ${n(dx)} ${n(dy)} cm\n${marksText(marks, inks)}Q\n`;
}

/** The font with the glyphs that were set, as a composite font (9.7.4): codes are the numbers of glyphs in the whole font. */
function embedded(file: PdfFile, { font, numbers }: Ink): Reference {
  const glyphs = [...numbers.keys()].sort((a, b) => a - b);
  const subset = subsetFont(font, glyphs);
  const scale = 1000 / font.unitsPerEm;
  const u = (units: number) => n(Math.round(units * scale));
  const program = file.stream(subset.bytes, `/Length1 ${subset.bytes.length} `);
  const name = `RIBAND+${font.name}`;
  // 32: the glyphs follow no character set of the standard's.
  const descriptor = file.add(
    `<< /Type /FontDescriptor /FontName /${name} /Flags 32 /FontBBox [${font.box.map(u).join(" ")}] /ItalicAngle 0 ` +
      `/Ascent ${u(font.ascent)} /Descent ${u(font.descent)} /CapHeight ${u(font.capital)} /StemV 80 /FontFile2 ${program} >>`,
  );
  const last = glyphs[glyphs.length - 1];
  const places = new DataView(new ArrayBuffer(2 * (last + 1)));
  for (const glyph of glyphs) places.setUint16(2 * glyph, subset.numbers.get(glyph) as number);
  const map = file.stream(new Uint8Array(places.buffer));
  const widths = glyphs.map((glyph) => `${glyph} [${u(advanceOf(font, glyph))}]`).join(" ");
  const cid = file.add(
    `<< /Type /Font /Subtype /CIDFontType2 /BaseFont /${name} /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) ` +
      `/Supplement 0 >> /FontDescriptor ${descriptor} /W [${widths}] /CIDToGIDMap ${map} >>`,
  );
  const unicode = file.stream(latin(unicodeMap(numbers)));
  return file.add(
    `<< /Type /Font /Subtype /Type0 /BaseFont /${name} /Encoding /Identity-H /DescendantFonts [${cid}] /ToUnicode ${unicode} >>`,
  );
}

/** Which character each code stands for (9.10.3), in the blocks of at most 100 that the format asks for. */
function unicodeMap(numbers: ReadonlyMap<number, string>): string {
  const lines = [...numbers]
    .sort(([a], [b]) => a - b)
    .map(([glyph, character]) => {
      const units = Array.from({ length: character.length }, (_, i) => hex(character.charCodeAt(i))).join("");
      return `<${hex(glyph)}> <${units}>`;
    });
  const blocks: string[] = [];
  for (let i = 0; i < lines.length; i += 100) {
    const block = lines.slice(i, i + 100);
    blocks.push(`${block.length} beginbfchar\n${block.join("\n")}\nendbfchar`);
  }
  return [
    "/CIDInit /ProcSet findresource begin 12 dict begin begincmap",
    "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
    "/CMapName /Adobe-Identity-UCS def /CMapType 2 def",
    "1 begincodespacerange <0000> <FFFF> endcodespacerange",
    ...blocks,
    "endcmap CMapName currentdict /CMap defineresource pop end end",
  ].join("\n");
}
