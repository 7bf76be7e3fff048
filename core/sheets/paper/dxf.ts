import type { Drawing, Layer, Line, Words } from "./drawing.ts";
import { numberText as n } from "./number-text.ts";

/** A group code with its value; a pair a line of each in the file. */
type Group = readonly [code: number, value: string | number];

const layers = ["cut", "mark", "text"] as const;
type DxfLayer = (typeof layers)[number];
const isDxfLayer = (layer: Layer): layer is DxfLayer => layer !== "stock";

/**
 * A drawing as DXF of release 2000 (AC1015), in mm, for a cutting table: closed outlines on layer CUT, what is drawn on the piece on MARK,
 * words on TEXT; the outline of the stock is left out, since nothing is cut there. After the DXF Reference's chapters on header,
 * tables, blocks, entities and objects. Same drawing, same text. Throws an Error for panes, which only pages have.
 */
export function printDxf({ widthMm, heightMm, marks }: Drawing): string {
  const handles = handlesFrom(0x30);
  const entities = marks.flatMap((mark): Group[] => {
    if (mark.kind === "pane") throw new Error("a full-size drawing has no panes");
    const { layer } = mark;
    if (!isDxfLayer(layer)) return [];
    const common = (type: string): Group[] => [
      [0, type],
      [5, handles()],
      [330, MODEL],
      [100, "AcDbEntity"],
      [8, layer.toUpperCase()],
    ];
    return mark.kind === "line" ? lineGroups(mark, common) : wordGroups(mark, common);
  });
  const header: Group[] = [
    [9, "$ACADVER"],
    [1, "AC1015"],
    [9, "$HANDSEED"],
    [5, handles()],
    [9, "$INSUNITS"],
    [70, 4],
    [9, "$MEASUREMENT"],
    [70, 1],
    [9, "$EXTMIN"],
    ...point(10, 0, 0),
    [9, "$EXTMAX"],
    ...point(10, widthMm, heightMm),
  ];
  const groups: Group[] = [
    ...section("HEADER", header),
    ...section("CLASSES", []),
    ...section("TABLES", tables()),
    ...section("BLOCKS", [...block(MODEL, "*Model_Space", 0x22), ...block(PAPER, "*Paper_Space", 0x24)]),
    ...section("ENTITIES", entities),
    ...section("OBJECTS", [
      ...dictionary("A", "0", [
        [3, "ACAD_GROUP"],
        [350, "B"],
      ]),
      ...dictionary("B", "A", []),
    ]),
    [0, "EOF"],
  ];
  return groups.map(([code, value]) => `${String(code).padStart(3)}\r\n${value}\r\n`).join("");
}

/** Handles of what every file has: the record of each space, and those of each table below. */
const MODEL = "20";
const PAPER = "21";

function handlesFrom(first: number): () => string {
  let next = first;
  return () => (next++).toString(16).toUpperCase();
}

const section = (name: string, groups: readonly Group[]): Group[] => [
  [0, "SECTION"],
  [2, name],
  ...groups,
  [0, "ENDSEC"],
];

const point = (code: number, x: number, y: number): Group[] => [
  [code, n(x)],
  [code + 10, n(y)],
  [code + 20, "0"],
];

function lineGroups({ points, closed }: Line, common: (type: string) => Group[]): Group[] {
  const corners: Group[] = [];
  for (let i = 0; i + 1 < points.length; i += 2) corners.push([10, n(points[i])], [20, n(points[i + 1])]);
  return [
    ...common("LWPOLYLINE"),
    [100, "AcDbPolyline"],
    [90, corners.length / 2],
    [70, closed ? 1 : 0],
    ...corners,
  ];
}

const places = { left: 0, middle: 1, right: 2 } as const;

function wordGroups(
  { x, y, words, size, align, turnDeg }: Words,
  common: (type: string) => Group[],
): Group[] {
  const aligned: Group[] = align === "left" ? [] : [[72, places[align]], ...point(11, x, y)];
  return [
    ...common("TEXT"),
    [100, "AcDbText"],
    ...point(10, x, y),
    // The height is that of a capital.
    [40, n(size * 0.73)],
    [1, plainText(words)],
    ...(turnDeg === 0 ? [] : [[50, n(turnDeg)] as const]),
    ...aligned,
    [100, "AcDbText"],
  ];
}

/** Words in the one-byte characters of the release; others by their number, control characters not at all. */
function plainText(words: string): string {
  return Array.from({ length: words.length }, (_, i) => words.charCodeAt(i))
    .map((code) => {
      if (code < 0x20 || code === 0x7f) return " ";
      return code < 0x7f
        ? String.fromCharCode(code)
        : `\\U+${code.toString(16).toUpperCase().padStart(4, "0")}`;
    })
    .join("");
}

function tables(): Group[] {
  const record = (
    type: string,
    handle: string,
    owner: string,
    subclass: string,
    rest: readonly Group[],
  ): Group[] => [
    [0, type],
    [type === "DIMSTYLE" ? 105 : 5, handle],
    [330, owner],
    [100, "AcDbSymbolTableRecord"],
    [100, subclass],
    ...rest,
  ];
  const table = (name: string, handle: string, records: readonly Group[][]): Group[] => [
    [0, "TABLE"],
    [2, name],
    [5, handle],
    [330, "0"],
    [100, "AcDbSymbolTable"],
    [70, records.length],
    ...(name === "DIMSTYLE" ? [[100, "AcDbDimStyleTable"] as const] : []),
    ...records.flat(),
    [0, "ENDTAB"],
  ];
  const lineType = (handle: string, name: string): Group[] =>
    record("LTYPE", handle, "2", "AcDbLinetypeTableRecord", [
      [2, name],
      [70, 0],
      [3, ""],
      [72, 65],
      [73, 0],
      [40, "0"],
    ]);
  // 7: black on white, or white on black, as the screen wants it.
  const layer = (handle: string, name: string): Group[] =>
    record("LAYER", handle, "3", "AcDbLayerTableRecord", [
      [2, name],
      [70, 0],
      [62, 7],
      [6, "Continuous"],
    ]);
  const space = (handle: string, name: string): Group[] =>
    record("BLOCK_RECORD", handle, "9", "AcDbBlockTableRecord", [[2, name]]);
  return [
    ...table("VPORT", "1", []),
    ...table("LTYPE", "2", [
      lineType("10", "ByBlock"),
      lineType("11", "ByLayer"),
      lineType("12", "Continuous"),
    ]),
    ...table("LAYER", "3", [
      layer("13", "0"),
      ...layers.map((name, i) => layer((0x14 + i).toString(16).toUpperCase(), name.toUpperCase())),
    ]),
    ...table("STYLE", "4", [
      record("STYLE", "17", "4", "AcDbTextStyleTableRecord", [
        [2, "Standard"],
        [70, 0],
        [40, "0"],
        [41, "1"],
        [50, "0"],
        [71, 0],
        [42, "2.5"],
        [3, "txt"],
        [4, ""],
      ]),
    ]),
    ...table("VIEW", "5", []),
    ...table("UCS", "6", []),
    ...table("APPID", "7", [
      record("APPID", "18", "7", "AcDbRegAppTableRecord", [
        [2, "ACAD"],
        [70, 0],
      ]),
    ]),
    ...table("DIMSTYLE", "8", [
      record("DIMSTYLE", "19", "8", "AcDbDimStyleTableRecord", [
        [2, "Standard"],
        [70, 0],
      ]),
    ]),
    ...table("BLOCK_RECORD", "9", [space(MODEL, "*Model_Space"), space(PAPER, "*Paper_Space")]),
  ];
}

function block(owner: string, name: string, first: number): Group[] {
  const handles = handlesFrom(first);
  const begin = (type: string, subclass: string): Group[] => [
    [0, type],
    [5, handles()],
    [330, owner],
    [100, "AcDbEntity"],
    [8, "0"],
    [100, subclass],
  ];
  return [
    ...begin("BLOCK", "AcDbBlockBegin"),
    [2, name],
    [70, 0],
    ...point(10, 0, 0),
    [3, name],
    [1, ""],
    ...begin("ENDBLK", "AcDbBlockEnd"),
  ];
}

const dictionary = (handle: string, owner: string, entries: readonly Group[]): Group[] => [
  [0, "DICTIONARY"],
  [5, handle],
  [330, owner],
  [100, "AcDbDictionary"],
  [281, 1],
  ...entries,
];
