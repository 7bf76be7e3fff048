import { describe, expect, test } from "vitest";
import type { Kit, Piece, SheetPiece, StripPiece } from "../../core/cutting/kit.ts";
import { type KitList, kitList } from "../../renderer/places/cutting-room/kit-lists.ts";
import { arranged, listOf } from "../../renderer/places/cutting-room/order.ts";

const piece = (name: string, figures: Partial<Piece> = {}): Piece => ({
  name,
  zone: name.split("/")[0],
  ply: 1,
  material: "woven-800",
  quantity: 1,
  lengthMm: 2000,
  widthMm: 600,
  leftEdgeMm: 2000,
  midMm: 2000,
  rightEdgeMm: 2000,
  corner: false,
  areaMm2: 1_200_000,
  flatAreaMm2: 1_200_000,
  glassKg: 0.96,
  fromMm: 0,
  toMm: 2000,
  outline: new Float64Array([0, 0, 2000, 0, 2000, 600, 0, 600]),
  darts: [],
  notches: [],
  shear: null,
  places: [{ fromMm: 0, toMm: 2000, hand: "as drawn" }],
  ...figures,
});
const strip: StripPiece = {
  name: "ribs-left/1",
  zone: "ribs-left",
  material: "strip",
  quantity: 2,
  lengthMm: 1598.14,
  ends: ["bevel", "butt"],
  bevelDeg: 45,
  massKg: 0.25,
  tape: [
    { from: "deep-left", alongMm: 300, downMm: 60 },
    { from: "deep-left", alongMm: 300, downMm: 1600 },
  ],
};
const sheet: SheetPiece = {
  name: "ledge-pad/1",
  zone: "ledge-pad",
  kind: "pad",
  material: "sheet",
  quantity: 3,
  lengthMm: 1200,
  widthMm: 400,
  areaMm2: 480_000,
  massKg: 0.77,
  outline: new Float64Array(8),
  places: [
    { name: "ledge-pad/1", from: "deep centre", alongMm: 0, downMm: 900.2 },
    { name: "ledge-pad/2", from: "deep-left", alongMm: -300, downMm: null },
    { name: "ledge-pad/5", from: "steps/tread-1", alongMm: 12, downMm: null },
  ],
};
const kit: Kit = {
  shells: 4,
  pieces: [
    piece("foot/10a"),
    piece("foot/2a", { lengthMm: 2400, leftEdgeMm: 2400, midMm: 2100, rightEdgeMm: 1800 }),
    piece("seat-foot/1a", { material: "woven-600", lengthMm: 900 }),
  ],
  strips: [strip],
  sheets: [sheet],
  totals: [
    {
      material: "woven-800",
      name: "Woven 800",
      kind: "woven",
      pieces: 8,
      areaMm2: 9.6e6,
      lengthMm: 17_600,
      kerfMm: 0,
      massKg: 7.68,
    },
    {
      material: "sheet",
      name: "Sheet 20",
      kind: "sheet",
      pieces: 12,
      areaMm2: 5.76e6,
      lengthMm: 0,
      kerfMm: 0,
      massKg: 9.24,
    },
  ],
  doubts: [],
};
const anything = { zone: null, material: null };
const texts = ({ rows }: Pick<KitList, "rows">, column: keyof KitList["rows"][number]["cells"]) =>
  rows.map(({ cells }) => cells[column]?.text);

describe("the lists of a kit", () => {
  test("give for one shell and for the lot, with the units at their heads", () => {
    const list = kitList("sheets", kit, "mm");
    expect(list.columns.map(({ name, unit }) => `${name} ${unit}`.trim())).toEqual([
      "name",
      "zone",
      "kind",
      "material",
      "number",
      "ofLot",
      "length mm",
      "width mm",
      "area m²",
      "mass kg",
      "lies",
    ]);
    expect(Object.values(list.rows[0].cells).map(({ text }) => text)).toEqual([
      "ledge-pad/1",
      "ledge pad",
      "pad",
      "Sheet 20",
      "3",
      "12",
      "1200",
      "400",
      "0.480",
      "0.77",
      "no. 1: at deep centre, 900 mm down; no. 2: 300 mm before deep left; no. 5: 12 mm past steps, tread 1",
    ]);
    expect(kitList("sheets", { ...kit, shells: 1 }, "mm").columns.map(({ name }) => name)).not.toContain(
      "ofLot",
    );
  });

  test("tell both edges of a piece only where they differ", () => {
    const list = kitList("pieces", kit, "mm");
    expect(texts(list, "left")).toEqual([undefined, "2400", undefined]);
    expect(texts(list, "middle")).toEqual([undefined, "2100", undefined]);
    expect(texts(list, "right")).toEqual([undefined, "1800", undefined]);
  });

  test("tell every place of a piece, as cut along its band and as a tape reads it", () => {
    const places = [
      { fromMm: 29_105.2, toMm: 2224.9, hand: "as drawn" as const },
      { fromMm: 26_905.3, toMm: 25, hand: "turned over" as const },
    ];
    const begins = { from: "shallow centre", alongMm: 0, downMm: 288.1 };
    const corner = { ...kit, pieces: [piece("foot/1a", { quantity: 2, places, begins })] };
    expect(texts(kitList("pieces", corner, "mm"), "lies")).toEqual([
      "29105 mm to 2225 mm; 26905 mm to 25 mm turned over; its band begins at shallow centre, 288 mm down",
    ]);
    expect(texts(kitList("strips", kit, "mm"), "lies")).toEqual([
      "300 mm past deep left, 60 mm to 1600 mm down",
    ]);
    const level = {
      ...strip,
      tape: [strip.tape[0], { from: "deep-right", alongMm: -40, downMm: null }] as const,
    };
    expect(texts(kitList("strips", { ...kit, strips: [level] }, "ft-in"), "lies")).toEqual([
      `from 11 13/16" past deep left, 2 3/8" down to 1 9/16" before deep right`,
    ]);
  });

  test("write figures as they are chosen: strips to the tenth of a mm, feet and pounds together", () => {
    expect(texts(kitList("strips", kit, "mm"), "length")).toEqual(["1598.1"]);
    expect(texts(kitList("strips", kit, "m"), "length")).toEqual(["1.598"]);
    const feet = kitList("strips", kit, "ft-in");
    // 1598.14 mm = 62.919 in = 5 ft 2.919 in, to the nearest sixteenth 2 15/16.
    expect(texts(feet, "length")).toEqual([`5' 2 15/16"`]);
    expect(feet.columns.find(({ name }) => name === "mass")?.unit).toBe("lb");
    // 0.25 kg ÷ 0.45359237 kg a pound.
    expect(texts(feet, "mass")).toEqual(["0.55"]);
    expect(texts(feet, "ends")).toEqual(["bevelled, square"]);
  });

  test("have no running length for sheets", () => {
    expect(texts(kitList("totals", kit, "mm"), "run")).toEqual(["17.60", undefined]);
  });
});

describe("a list in order", () => {
  const list = kitList("pieces", kit, "mm");

  test("counts the numbers in names, and stands as the kit gives it before it is ordered", () => {
    expect(texts({ rows: arranged(list, anything, null) }, "name")).toEqual([
      "foot/10a",
      "foot/2a",
      "seat-foot/1a",
    ]);
    const by = arranged(list, anything, { column: "name", direction: "ascending" });
    expect(texts({ rows: by }, "name")).toEqual(["foot/2a", "foot/10a", "seat-foot/1a"]);
  });

  test("goes by figures, not by what they look like, and keeps empty cells last", () => {
    const down = arranged(list, anything, { column: "length", direction: "descending" });
    expect(texts({ rows: down }, "length")).toEqual(["2400", "2000", "900"]);
    for (const direction of ["ascending", "descending"] as const) {
      expect(texts({ rows: arranged(list, anything, { column: "left", direction }) }, "left")).toEqual([
        "2400",
        undefined,
        undefined,
      ]);
    }
  });

  test("lets through one zone and one material", () => {
    expect(arranged(list, { zone: "foot", material: null }, null)).toHaveLength(2);
    expect(arranged(list, { zone: "foot", material: "woven-600" }, null)).toHaveLength(0);
    expect(arranged(list, { zone: null, material: "woven-600" }, null).map(({ id }) => id)).toEqual([
      "seat-foot/1a",
    ]);
  });

  test("leaves the list itself as it was", () => {
    const before = list.rows.map(({ id }) => id);
    arranged(list, anything, { column: "mass", direction: "descending" });
    expect(list.rows.map(({ id }) => id)).toEqual(before);
  });

  test("of a zone is that in which its pieces stand", () => {
    const all = {
      pieces: list,
      strips: kitList("strips", kit, "mm"),
      sheets: kitList("sheets", kit, "mm"),
      totals: kitList("totals", kit, "mm"),
    };
    expect(["foot", "ribs-left", "ledge-pad", "nowhere"].map((zone) => listOf(zone, all))).toEqual([
      "pieces",
      "strips",
      "sheets",
      null,
    ]);
  });
});
