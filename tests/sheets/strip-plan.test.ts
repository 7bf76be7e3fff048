import { expect, test } from "vitest";
import { cutLot } from "../../core/cutting/lots/cut-lot.ts";
import { unwatched } from "../../core/cutting/lots/watch.ts";
import { lotFiles } from "../../core/sheets/lot-csv.ts";
import { lotReport } from "../../core/sheets/lot-report.ts";
import { lotTables } from "../../core/sheets/lot-tables.ts";
import { stripPlanText, verdict } from "../../core/sheets/strip-plan.ts";
import { smallModels } from "../lots/small-models.ts";
import { readCsv } from "./read-csv.ts";

const stock = {
  rolls: [{ id: "roll", material: "woven-800", width: 1270, length: 75_000 }],
  sheets: [{ id: "sheet", material: "core-sheet", width: 1220, length: 2440 }],
  bars: [{ id: "bar", material: "rib-strip", length: 2440, count: 4 }],
};
const lot = cutLot(
  smallModels([2, 1]),
  { name: "Week 14", cutting: { way: "hand", kerf: 3, endTrim: 10 }, stock },
  { steps: 5, watch: unwatched },
);

test("the plan for the saw tells each bar, where its pieces begin, and its rest", () => {
  // Nine strips of 10.2 m in all: five bars of 2420 mm, one more than there are.
  const text = stripPlanText(lot.name, lot.strips, lot.demand);
  const lines = text.split("\n");
  expect(lines[0]).toBe("Week 14: strips from bars");
  expect(lines[2]).toBe("rib-strip: 5 bars (with 1 missing bar), proved to be the least");
  expect(text).toMatch(/bar, 2440 mm, missing/);
  expect(text).toMatch(/ends\n/);
  const strips = lot.models.flatMap(({ kit }) => kit.strips);
  expect(strips.some(({ ends }) => ends.includes("bevel"))).toBe(true);
  expect(text).toMatch(/Knot 5: ribs-left\/1 +[\d.]+ +1500\.\d {2}bevel \d+°\n/);
  for (const line of lines) expect([...line].length).toBeLessThanOrEqual(120);
  // By hand: the first bar is full of a strip of 1510.25 and one of 710.25, 10 mm of trim before and 3 mm of kerf between.
  const bar = lot.strips[0].plan.bars.find(({ cuts }) => cuts.length === 2 && cuts[0].lengthMm === 1510.25);
  expect(bar?.cuts.map(({ fromMm }) => fromMm)).toEqual([10, 1523.25]);
});

test("rests to keep have one length in every list, never more than there is", () => {
  const bars = [{ ...stock.bars[0], count: 9 }];
  const cutting = { way: "hand", kerf: 3, endTrim: 10, keepFrom: 200 } as const;
  const kept = cutLot(
    smallModels([2, 1]),
    { name: "x", cutting, stock: { ...stock, bars } },
    { steps: 5, watch: unwatched },
  );
  const told = kept.rests.bars.map(({ length }) => length.toFixed(1));
  // The lengths of the strips end in 0.25 mm: that of a rest with one or three of them is rounded.
  const exact = kept.strips[0].plan.bars.filter(({ keep }) => keep).map(({ restMm }) => restMm);
  expect(exact.some((mm) => Number(mm.toFixed(1)) > mm)).toBe(true);
  for (const mm of exact)
    expect(told.some((text) => mm - Number(text) >= 0 && mm - Number(text) < 0.1)).toBe(true);
  const files = lotFiles(kept);
  const inText = [...(files.get("strip-plan.txt") ?? "").matchAll(/rest, keep +[\d.]+ +([\d.]+)/g)];
  expect(new Set(inText.map(([, text]) => text))).toEqual(new Set(told));
  const [heads, ...rows] = readCsv(files.get("strip-plan.csv") ?? "");
  const inCsv = rows.filter((row) => row[heads.indexOf("keepRest")] === "yes");
  expect(new Set(inCsv.map((row) => Number(row[heads.indexOf("restMm")]).toFixed(1)))).toEqual(new Set(told));
  const tables = lotTables(kept, { leftOut: [], uncut: [], doubts: [] });
  for (const text of told) expect(tables).toMatch(new RegExp(`rib-strip +${text.replace(".", "\\.")} `));
});

test("what is cut from remnants without a price is listed without a cost", () => {
  const bars = [
    { id: "old", material: "rib-strip", length: 2440, count: 1, remnant: true },
    { id: "bar", material: "rib-strip", length: 2440, count: 9, price: 12 },
  ];
  const priced = cutLot(
    smallModels([2, 1]),
    { name: "x", cutting: { way: "hand" }, stock: { ...stock, bars } },
    { steps: 5, watch: unwatched },
  );
  const tables = lotTables(priced, { leftOut: [], uncut: [], doubts: [] });
  expect(tables).toMatch(/ old \(remnant\) +1 bar +2\.44 +0\.\d\d +[\d.]*\n/);
  expect(tables).toMatch(/ bar +4 bars +9\.76 +0\.\d\d +(?:[\d.]+ +)?48\.00\n/);
  const [heads, ...rows] = readCsv(lotFiles(priced).get("stock-use.csv") ?? "");
  const costs = rows.map((row) => [row[heads.indexOf("stock")], row[heads.indexOf("cost")]]);
  expect(Object.fromEntries(costs)).toMatchObject({ old: "", bar: "48" });
});

test("sheets that are used are told by their number and area, not in metres, and what their share is of is said", () => {
  const tables = lotTables(lot, { leftOut: [], uncut: [], doubts: [] });
  const [{ number }] = lot.use.flatMap(({ uses }) => uses).filter(({ kind }) => kind === "sheet");
  const area = (number * 1.22 * 2.44).toFixed(2);
  expect(tables).toMatch(new RegExp(`core-sheet +sheet +${number} sheets? +${area} +[\\d.]+\\n`));
  expect(tables).toContain("  Used %: m² of the pieces as in the demand, cloth as it lies on the shell;\n");
  const [heads, ...rows] = readCsv(lotFiles(lot).get("stock-use.csv") ?? "");
  const row = rows.find((each) => each[heads.indexOf("kind")] === "sheet") ?? [];
  expect(Number(row[heads.indexOf("areaM2")])).toBeCloseTo(Number(area), 2);
});

test("the demand says that its strips are without the kerfs which the totals of a kit have", () => {
  const tables = lotTables(lot, { leftOut: [], uncut: [], doubts: [] });
  expect(tables).toContain("Demand for the whole lot (length of strips without saw kerfs)\n");
  const metres = Number(/^ {2}Honeycomb strip .*? +9 +[\d.]+ +([\d.]+) +[\d.]+$/m.exec(tables)?.[1]);
  const [heads, ...rows] = readCsv(lotFiles(lot).get("demand.csv") ?? "");
  const at = (name: string) => heads.indexOf(name);
  const listed = rows.filter((row) => row[at("material")] === "rib-strip");
  const sum = listed.reduce(
    (mm, row) => mm + Number(row[at("quantityForAll")]) * Number(row[at("lengthMm")]),
    0,
  );
  expect(Math.abs(metres - sum / 1000)).toBeLessThan(0.006);
});

test("the CSV has a row a piece, and as many of each as the lot wants", () => {
  const files = lotFiles(lot);
  const [heads, ...rows] = readCsv(files.get("strip-plan.csv") ?? "");
  const at = (name: string) => heads.indexOf(name);
  const cut = new Map<string, number>();
  for (const row of rows) {
    const id = `${row[at("project")]}: ${row[at("piece")]}`;
    cut.set(id, (cut.get(id) ?? 0) + Number(row[at("bars")]));
  }
  const wanted = lot.demand.find(({ material }) => material.id === "rib-strip")?.pieces ?? [];
  expect(Object.fromEntries(cut)).toEqual(
    Object.fromEntries(wanted.map(({ id, quantity }) => [id, quantity])),
  );
  const kits = new Map(
    lot.models.flatMap(({ label, kit }) => kit.strips.map((s) => [`${label}: ${s.name}`, s])),
  );
  for (const row of rows) {
    const strip = kits.get(`${row[at("project")]}: ${row[at("piece")]}`);
    expect([row[at("firstEnd")], row[at("lastEnd")]]).toEqual(strip?.ends);
    expect(Number(row[at("bevelDeg")])).toBe(strip?.bevelDeg);
  }
  const places = readCsv(files.get("markers.csv") ?? "").slice(1);
  expect(places).toHaveLength(6 + 6);
  expect([...files.keys()].filter((name) => name.startsWith("dunnock-6-"))).toHaveLength(4);
});

test("a project's name cannot command a spreadsheet, a terminal or a folder", () => {
  const models = smallModels([1, 1]).map((model, i) => ({
    ...model,
    label: i === 0 ? "=1+1" : "../\u001b[31m",
  }));
  const { cutting } = lot;
  const stock = { rolls: [], sheets: [], bars: [] };
  const odd = cutLot(models, { name: "x", cutting, stock }, { steps: 1, watch: unwatched });
  const files = lotFiles(odd);
  for (const name of files.keys()) expect(name).toMatch(/^[a-z0-9-]+\.(csv|txt)$/);
  expect(readCsv(files.get("demand.csv") ?? "")[1][1]).toBe("'=1+1");
  expect(lotTables(odd, { leftOut: [], uncut: [], doubts: [] }) + files.get("strip-plan.txt")).not.toContain(
    "\u001b",
  );
});

test("a gap that is left is told with its size", () => {
  const { plan } = lot.strips[0];
  expect(verdict({ ...plan, measure: "bars", cost: 12, bound: 11 })).toBe(
    "12 bars (with 1 missing bar); at least 11 bars are needed (gap 8.33 %)",
  );
  expect(verdict({ ...plan, measure: "mm", cost: 5000, bound: 5000 })).toBe(
    "5.00 m of bars (with 1 missing bar), proved to be the least",
  );
});

test("bars from remnants are told apart from new ones", () => {
  const { plan } = lot.strips[0];
  const [bar] = plan.bars;
  const bars = [{ ...bar, lacking: false, remnant: true, times: 2 }];
  expect(verdict({ ...plan, bars, cost: 0, bound: 0 })).toBe(
    "2 remnants and no new bar, proved to be the least",
  );
  const both = [...bars, { ...bar, lacking: false, remnant: false, times: 1 }];
  expect(verdict({ ...plan, bars: both, cost: 1, bound: 1 })).toBe(
    "1 bar and 2 remnants, proved to be the least",
  );
});

test("where all strips are too long for any bar, nothing is said to be proved", () => {
  const { plan } = lot.strips[0];
  const tooLong = [
    { id: "rib", lengthMm: 9000, quantity: 2, says: "too long" },
  ] as unknown as typeof plan.tooLong;
  expect(verdict({ ...plan, bars: [], cost: 0, bound: 0, tooLong })).toBe(
    "no strip is sawn: all are too long for any bar",
  );
});

test("the report is whole JSON, its figures unrounded", () => {
  const nothing = { leftOut: [], uncut: [], adrift: [], flaws: [], doubts: [] };
  const report = JSON.parse(JSON.stringify(lotReport(lot, nothing)));
  expect(report).toMatchObject({ report: "lot", version: 1, name: "Week 14", leftOut: [] });
  expect(
    report.demand.map(({ material, pieces }: { material: string; pieces: number }) => [material, pieces]),
  ).toEqual([
    ["woven-800", 6],
    ["rib-strip", 9],
    ["core-sheet", 6],
  ]);
  expect(report.strips[0].missing[0]).toMatchObject({ stock: "bar", bars: 1 });
  expect(report.findings).toEqual([expect.stringMatching(/^1 bar of bar \(2440 mm\) is missing, for /)]);
});
