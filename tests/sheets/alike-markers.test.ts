import { expect, test } from "vitest";
import { alikeMarkers, alikeTogether } from "../../core/cutting/lots/alike-markers.ts";
import type { Marker } from "../../core/packing/order.ts";
import { cuttingFiles } from "../../core/sheets/cutting-files.ts";
import { lotFiles } from "../../core/sheets/lot-csv.ts";
import { lotReport } from "../../core/sheets/lot-report.ts";
import { fonts } from "./paper/fonts.ts";
import { readDxf } from "./paper/read-dxf.ts";
import { readCsv } from "./read-csv.ts";
import { sampleLot, sampleModel } from "./sample-lot.ts";

/** Six shells, each with a pad that has a sheet to itself, and two small ones that share sheets. */
function sixShells() {
  const model = sampleModel("Whimbrel 9", 6);
  const [gusset, pad] = model.kit.sheets;
  const large = {
    ...pad,
    lengthMm: 2400,
    widthMm: 1200,
    outline: Float64Array.of(0, 0, 2400, 0, 2400, 1200, 0, 1200),
  };
  const kit = { ...model.kit, pieces: [], strips: [], sheets: [large, { ...gusset, quantity: 2 }] };
  return sampleLot([{ ...model, kit }], "hand");
}

const lot = sixShells();
const [{ plan }] = lot.markers;

test("sheets that are cut alike are drawn once, with their number, and all are counted", () => {
  const files = cuttingFiles(lot, { fonts, paper: "a4", templates: "full", labels: "a4-14" });
  const groups = alikeMarkers(plan.markers);
  const six = groups.find(({ times }) => times === 6);
  if (!six) throw new Error("six sheets with a large pad each");
  const drawn = [...files.keys()].filter((name) => name.startsWith("markers/") && name.endsWith(".dxf"));
  expect(drawn).toHaveLength(groups.length);
  const name = `core-sheet-${six.first}-to-${six.first + 5}`;
  expect(drawn).toContain(`markers/${name}.dxf`);
  const dxf = files.get(`markers/${name}.dxf`);
  if (typeof dxf !== "string") throw new Error("a drawing as text");
  expect(readDxf(dxf).entities.filter(({ layer }) => layer === "CUT")).toHaveLength(1);
  expect(dxf).toMatch(/\n(×|\\U\+00D7) 6\r?\n/);
  expect(files.get(`markers/${name}.svg`)).toContain(
    `6 × Honeycomb sheet 1220 × 2440 × 20, sheets ${six.first}–${six.first + 5} of ${plan.markers.length}`,
  );
  expect(files.get(`markers/${name}.svg`)).toContain("× 6<");
});

test("the list has them once with their number, other programs' file each of them: as many pieces as are wanted", () => {
  const [heads, ...rows] = readCsv(lotFiles(lot).get("markers.csv") ?? "");
  const at = (name: string) => heads.indexOf(name);
  const listed = new Map<string, number>();
  for (const row of rows) {
    const piece = row[at("piece")];
    listed.set(piece, (listed.get(piece) ?? 0) + Number(row[at("number")]));
  }
  expect(Object.fromEntries(listed)).toEqual({ "pad-seat/1": 6, "gussets/1": 12 });
  expect(rows.length).toBeLessThan(18);
  const told = { leftOut: [], uncut: [], adrift: [], flaws: [], doubts: [] };
  const { markers } = lotReport(lot, told);
  expect(markers[0].markers.flatMap(({ placements }) => placements)).toHaveLength(18);
});

test("alike ones stand together, and the last one stays the last", () => {
  const marker = (piece: string, usedMm: number): Marker => ({
    stock: "sheet",
    widthMm: 1220,
    lengthMm: 2440,
    usedMm,
    areaMm2: 1,
    placements: [{ piece, turnDeg: 0, mirrored: false, xMm: 0, yMm: 0, outline: Float64Array.of() }],
    cuts: [],
  });
  const all = [marker("a", 2440), marker("b", 2440), marker("a", 2440), marker("c", 900), marker("b", 900)];
  const names = alikeTogether(all).map(({ usedMm, placements: [{ piece }] }) => `${piece} ${usedMm}`);
  expect(names).toEqual(["b 2440", "a 2440", "a 2440", "c 900", "b 900"]);
  expect(alikeMarkers(alikeTogether(all)).map(({ first, times }) => [first, times])).toEqual([
    [1, 1],
    [2, 2],
    [4, 1],
    [5, 1],
  ]);
});
