import { describe, expect, test } from "vitest";
import { cutKit } from "../../core/cutting/cut-kit.ts";
import type { Layup } from "../../core/layup/laid.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import type { ZoneSpec } from "../../core/project/schema.ts";
import { cutListFiles } from "../../core/sheets/cut-list-csv.ts";
import { kitReport } from "../../core/sheets/kit-report.ts";
import { kitTables } from "../../core/sheets/kit-tables.ts";
import type { Adjustment } from "../../core/shell/shell.ts";
import {
  bandOn,
  flatCurve,
  gussetsOf,
  padOf,
  ribsOf,
  roundedRectangle,
  stiffenerOf,
} from "../cutting/laid-by-hand.ts";
import { readTable } from "./read-csv.ts";

const project = defaultProject();
const foot = bandOn("foot", flatCurve(roundedRectangle(6000, 3000, 400), true), [200, 250], 2);
const layup: Layup = {
  zones: [
    {
      ...foot,
      doubts: ["its left side is cut short at 1200 mm"],
      tape: [{ what: "start", from: "deep-right", alongMm: -120.04, downMm: 1500 }],
    },
    bandOn("rise", flatCurve([{ length: 3100, turn: 0 }], false), [140, 140]),
    ribsOf("ribs", [1400, 1500, 1400, 2900]),
    stiffenerOf("stiffener", 1800),
    {
      ...gussetsOf("gussets", [
        [0, 0, 200, 0, 0, 200],
        [5, 5, 205, 5, 5, 205],
      ]),
      tape: [
        { what: "web 1", from: "deep centre", alongMm: 0, downMm: 410 },
        { what: "web 2", from: "deep centre", alongMm: 500, downMm: null },
      ],
    },
    padOf("pad", [[0, 0, 900, 0, 900, 3000, 0, 3000]]),
  ],
  adrift: [
    {
      id: "lost",
      spec: { kind: "band", id: "lost" } as ZoneSpec,
      why: "This shell has no transition wall|bench/top.",
      mend: "Did you mean wall|ledge/top?",
    },
  ],
};
const kit = cutKit(project, layup, 3);
const flaws = ["the surface is torn by 1.20 mm between wall and floor at (1, 2, 3)"];
const adjustments: Adjustment[] = [
  {
    id: "bench-1",
    what: "its end, carried on to the next wall",
    asked: 2000,
    used: 2160,
    unit: "mm",
    why: "what would be left is no tread",
  },
];
const told = { flaws, adjustments };
const report = kitReport("Knot 5", layup, kit, told);
const sum = (figures: readonly number[]) => figures.reduce((total, figure) => total + figure, 0);

describe("kit report", () => {
  test("has the keys that others read", () => {
    expect(Object.keys(report)).toEqual([
      "report",
      "version",
      "name",
      "shells",
      "zones",
      "pieces",
      "strips",
      "sheets",
      "totals",
      "adrift",
      "doubts",
      "flaws",
      "adjustments",
      "cannotBeCut",
    ]);
    expect(report).toMatchObject({ report: "kit", version: 1, name: "Knot 5", shells: 3 });
    for (const zone of report.zones) {
      for (const key of ["id", "kind", "areaM2", "lengthMm"]) expect(zone).toHaveProperty(key);
    }
    for (const piece of report.pieces) {
      const keys = [
        "name",
        "zone",
        "material",
        "quantity",
        "lengthMm",
        "widthMm",
        "areaM2",
        "flatAreaM2",
        "outlineMm",
        "darts",
        "notches",
        "shear",
        "places",
        "leftEdgeMm",
        "rightEdgeMm",
      ];
      for (const key of keys) expect(piece).toHaveProperty(key);
    }
    for (const strip of report.strips) {
      for (const key of ["name", "zone", "quantity", "lengthMm"]) expect(strip).toHaveProperty(key);
    }
  });

  test("is plain JSON: nothing is lost when it is written and read", () => {
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
    expect(JSON.stringify(report)).not.toContain("null,null");
  });

  test("figures are unrounded, and add up", () => {
    const rise = report.pieces.filter((piece) => piece.zone === "rise");
    expect(sum(rise.map((piece) => piece.quantity * piece.areaM2))).toBeCloseTo((280 * (3100 + 50)) / 1e6, 9);
    const [woven, strip, sheet] = report.totals;
    expect(woven.areaM2).toBeCloseTo(3 * sum(report.pieces.map((piece) => piece.areaM2 * piece.quantity)), 9);
    // Cloth is weighed as it is cut; on a flat shell that is what it covers, but for a tenth of a mm along its edge.
    const flat = 3 * sum(report.pieces.map((piece) => piece.flatAreaM2 * piece.quantity));
    expect(woven.massKg).toBeCloseTo(flat * 0.6, 9);
    expect(Math.abs(flat / woven.areaM2 - 1)).toBeLessThan(1e-3);
    expect(strip.pieces).toBe(3 * report.strips.length);
    expect(sheet.areaM2).toBeCloseTo(3 * (2 * 0.02 + 2.7), 9);
  });

  test("what is adrift and what is doubtful is all in it", () => {
    expect(report.adrift).toEqual([
      { id: "lost", kind: "band", why: layup.adrift[0].why, mend: layup.adrift[0].mend },
    ]);
    expect(report.doubts.map(({ zone }) => zone)).toEqual(["foot", "ribs", "pad"]);
  });
});

describe("cut lists", () => {
  const files = cutListFiles(kit);
  const table = (name: string) => readTable(files.get(name)!);

  test("have every piece under its name, to the tenth of a mm", () => {
    expect([...files.keys()]).toEqual(["cut-list.csv", "strips.csv", "sheets.csv", "totals.csv"]);
    const rows = table("cut-list.csv");
    expect(rows.map((row) => row.name)).toEqual(kit.pieces.map((piece) => piece.name));
    rows.forEach((row, i) => {
      expect(Math.abs(Number(row.lengthMm) - kit.pieces[i].lengthMm)).toBeLessThanOrEqual(0.05 + 1e-9);
      expect(Number(row.quantityForAll)).toBe(3 * kit.pieces[i].quantity);
      expect(row.corner).toBe(kit.pieces[i].corner ? "yes" : "no");
      const { material, flatAreaMm2 } = kit.pieces[i];
      const woven = project.materials.find(({ id }) => id === material)!;
      const gramsPerM2 = woven.kind === "woven" ? woven.gramsPerM2 : 0;
      // Weighed as it is cut: to half a cm² and half a gram.
      expect(Math.abs(Number(row.flatAreaM2) - flatAreaMm2 / 1e6)).toBeLessThanOrEqual(0.00005 + 1e-9);
      const kg = (gramsPerM2 / 1000) * Number(row.flatAreaM2);
      expect(Math.abs(Number(row.massKg) - kg)).toBeLessThanOrEqual(
        0.0005 + 0.00005 * (gramsPerM2 / 1000) + 1e-9,
      );
    });
    expect(table("strips.csv").map((row) => row.name)).toEqual(kit.strips.map((strip) => strip.name));
    expect(table("sheets.csv").map((row) => row.outlineMm)).toContain("0 0; 200 0; 0 200");
  });

  test("strips say where they go: along the rim from a mark, and down from it", () => {
    const rows = table("strips.csv");
    const places = ({
      firstFrom,
      firstAlongMm,
      firstDownMm,
      lastFrom,
      lastAlongMm,
      lastDownMm,
    }: (typeof rows)[number]) => [
      [firstFrom, firstAlongMm, firstDownMm],
      [lastFrom, lastAlongMm, lastDownMm],
    ];
    expect(places(rows[1])).toEqual([
      ["deep-left", "600", "60"],
      ["deep-left", "600", "1560"],
    ]);
    expect(places(rows[rows.length - 1])).toEqual([
      ["deep-left", "250", ""],
      ["shallow-left", "-250", ""],
    ]);
    expect(report.strips[1].tape[1]).toEqual({ from: "deep-left", alongMm: 600, downMm: 1560 });
  });

  test("cloth and sheets say in words where each of them goes", () => {
    const rows = table("cut-list.csv").filter(({ zone }) => zone === "foot");
    for (const row of rows) {
      expect(row.bandBegins).toBe("120 mm back from deep-right, 1500 mm down");
      const places = row.places.split("; ");
      expect(places).toHaveLength(Number(row.quantity));
      expect(places[0]).toBe(`${row.fromMm} to ${row.toMm}`);
      for (const at of places.flatMap((place) => place.match(/[\d.]+/g) ?? []))
        expect(Number(at)).toBeLessThanOrEqual(foot.lengthMm + 0.05);
    }
    expect(rows.map(({ places }) => places).join()).toContain(";");
    const [gussets] = table("sheets.csv");
    expect(gussets.places).toBe(
      "gussets/1: at deep centre, 410 mm down; gussets/2: 500 mm on from deep centre",
    );
    expect(report.sheets[0].places?.[1]).toEqual({
      name: "gussets/2",
      from: "deep centre",
      alongMm: 500,
      downMm: null,
    });
  });

  test("totals agree with the lists", () => {
    const totals = table("totals.csv");
    expect(totals.map((row) => row.material)).toEqual(["woven-600", "rib-strip", "core-sheet"]);
    const strips = table("strips.csv");
    expect(totals.map((row) => Number(row.kerfMm))).toEqual([0, 3 * strips.length * project.shop.kerf, 0]);
    const withKerf = sum(
      strips.map((row) => Number(row.quantityForAll) * (Number(row.lengthMm) + project.shop.kerf)),
    );
    expect(Math.abs(Number(totals[1].lengthMm) - withKerf)).toBeLessThan(0.1 * strips.length * 3);
  });

  test("of an empty kit are heads alone", () => {
    for (const text of cutListFiles(cutKit(project, { zones: [], adrift: [] }, 1)).values()) {
      expect(text).toMatch(/^[\w,]+\r\n$/);
    }
  });
});

describe("kit tables", () => {
  const tables = kitTables("Knot 5", layup, kit, told);

  test("read well in 80 columns", () => {
    for (const line of tables.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  test("name areas of a ply and of all plies apart, and tell what is in a length", () => {
    const heads = tables.split("\n").filter((line) => line.includes("m²") && !line.includes("─"));
    expect(heads.map((line) => line.match(/m²[^ ]*(?: \w+)*/)?.[0])).toEqual(
      expect.arrayContaining(["m² a ply", "m² in all"]),
    );
    expect(tables).not.toContain("area m²");
    expect(tables).toContain("Totals for 3 shells (length of strips with a saw kerf for each)\n");
    expect(tables).toContain(
      "\n  Cloth: m² as it lies on the shell, mass of its pieces as cut, laid flat;\n  length that of its pieces added up, not of roll.\n",
    );
    const noCloth = { ...kit, totals: kit.totals.filter(({ kind }) => kind !== "woven") };
    expect(kitTables("Knot 5", layup, noCloth, told)).not.toContain("Cloth: ");
  });

  test("say what the length of a zone is that runs along no one line", () => {
    expect(tables).toContain(
      "\n  Length: of a rib row, its ribs added up, bevels included;\n  of a stiffener, without its bevels;\n  of a pad, round its outline.\n",
    );
    const bands = { ...layup, zones: [foot] };
    expect(kitTables("Knot 5", bands, kit, told)).not.toContain("Length: ");
  });

  test("show every piece, strips that are cut alike together", () => {
    for (const { name } of kit.pieces) expect(tables).toContain(`  ${name} `);
    expect(tables).toMatch(/ {2}ribs\/1, 3 .* 2 +1400\.0 {2}bevel\n/);
    expect(tables).toMatch(/ {2}ribs\/4a .* 1 +\d+\.\d {2}bevel, butt\n/);
    for (const { name } of kit.sheets) expect(tables).toContain(`  ${name} `);
  });

  test("say what is adrift and what to look at, a flaw of the surface before all", () => {
    expect(tables).toMatch(/failed its self-check\n {2}- the surface is torn by 1\.20 mm/);
    expect(tables).toContain("Adjusted, so that the shell can be built\n  - bench-1: its end, carried on");
    expect(tables).toContain("asked 2000 mm, used 2160 mm");
    expect(tables.indexOf("self-check")).toBeLessThan(tables.indexOf("Adrift"));
    expect(tables).toContain("- lost: This shell has no transition wall|bench/top. Did you mean");
    expect(tables).toContain("- foot: its left side is cut short at 1200 mm");
    expect(tables).toContain("Totals for 3 shells");
  });

  test("of nothing are the heading alone", () => {
    const empty = { zones: [], adrift: [] };
    expect(kitTables("Bare", empty, cutKit(project, empty, 1), { flaws: [], adjustments: [] })).toBe(
      "Bare: kit for 1 shell\n",
    );
  });
});
