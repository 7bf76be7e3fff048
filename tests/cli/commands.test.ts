import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readTable } from "../sheets/read-csv.ts";
import { type Ran, ribband, root, withoutProgress } from "./ribband.ts";
import { lostZone, smallProject } from "./small-project.ts";

let place: string;
let file: string;
let kit: Ran;
let again: Ran;
let measure: Ran;
let adrift: Ran;

const sum = (figures: readonly number[]) => figures.reduce((total, figure) => total + figure, 0);
/** All files of a folder and of those in it, byte by byte. */
const contents = (folder: string) =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => {
        const path = join(parentPath, name);
        return [relative(folder, path), readFileSync(path, "latin1")];
      }),
  );

const isList = (name: string) => /^[a-z-]+\.(csv|xlsx)$|^kit\.json$/.test(name);

beforeAll(async () => {
  place = mkdtempSync(join(tmpdir(), "ribband-commands-"));
  file = join(place, "knot-5.ribband.json");
  const lost = join(place, "lost.ribband.json");
  writeFileSync(file, JSON.stringify(smallProject()));
  writeFileSync(lost, JSON.stringify(smallProject([lostZone])));
  [kit, measure] = await Promise.all([
    ribband("kit", file, "--shells", "3", "--json", "--out", join(place, "out/one")),
    ribband("measure", file, "--json"),
  ]);
  [again, adrift] = await Promise.all([
    ribband("kit", file, "--shells", "3", "--lists-only", "--out", join(place, "out/two")),
    ribband("kit", lost, "--lists-only", "--out", join(place, "out/lost")),
  ]);
});
afterAll(() => {
  rmSync(place, { recursive: true, force: true });
});

describe("measure", () => {
  test("prints one JSON object whose figures add up", () => {
    expect([measure.code, measure.err]).toEqual([0, ""]);
    const report = JSON.parse(measure.out);
    expect(report).toMatchObject({ report: "measure", version: 1, name: "Knot 5" });
    const { shell, faces, transitions, mesh } = report;
    expect(Object.keys(shell)).toEqual(["areaM2", "volumeToRimM3", "volumeToWaterM3", "rimLengthMm"]);
    expect(sum(faces.map((face: { areaM2: number }) => face.areaM2))).toBeCloseTo(shell.areaM2, 9);
    // Straight sides and four quarter circles.
    expect(shell.rimLengthMm).toBeCloseTo(2 * (3800 + 1400) + 2 * Math.PI * 600, 6);
    const planM2 = (5000 * 2600 - (4 - Math.PI) * 600 ** 2) / 1e6;
    // Between water line and rim the wall leans by its draft: the prism less a little.
    const top = shell.volumeToRimM3 - shell.volumeToWaterM3;
    expect(top).toBeLessThan(planM2 * 0.12 * 1.005);
    expect(top).toBeGreaterThan(planM2 * 0.12 * 0.98);
    expect(shell.volumeToRimM3).toBeLessThan(planM2 * 1.3);
    expect(shell.volumeToRimM3).toBeGreaterThan(planM2 * 1.3 * 0.9);
    expect(transitions.find(({ id }: { id: string }) => id === "foot")).toMatchObject({
      closed: true,
      between: ["wall", "below"],
    });
    expect(mesh.triangles).toBeGreaterThan(10_000);
    expect(mesh.openEdges).toBeGreaterThan(100);
    expect(report.adjustments).toEqual([]);
  });
});

describe("kit", () => {
  test("prints one JSON object whose figures add up", () => {
    expect(kit.code).toBe(0);
    const report = JSON.parse(kit.out);
    expect(report).toMatchObject({ report: "kit", version: 1, name: "Knot 5", shells: 3, adrift: [] });
    const { zones, pieces, strips, totals } = report;
    expect(zones.map(({ id }: { id: string }) => id)).toEqual(["foot", "ribs-left", "stiffener-left"]);
    type Figures = Record<string, number> & { zone: string; ply: number };
    for (const ply of [1, 2]) {
      const own = pieces.filter((piece: Figures) => piece.zone === "foot" && piece.ply === ply);
      const places = own.flatMap((piece: { places: { fromMm: number; toMm: number }[] }) => piece.places);
      const round = zones[0].lengthMm;
      // A piece over the beginning of the ring ends at a lesser station than it begins at.
      for (const { fromMm, toMm } of places) expect(Math.max(fromMm, toMm)).toBeLessThanOrEqual(round + 1e-6);
      const laps = sum(places.map(({ fromMm, toMm }: Figures) => (toMm - fromMm + round) % round)) - round;
      // As many laps as pieces in a ring; each at least as long as the shop's.
      expect(laps).toBeGreaterThan(places.length * 50 - 0.01);
      const area = sum(own.map((piece: Figures) => piece.quantity * piece.areaM2));
      expect(area).toBeGreaterThan(zones[0].plyAreasM2[ply - 1]);
      expect(area).toBeLessThan(zones[0].plyAreasM2[ply - 1] * (1 + (2 * laps) / zones[0].lengthMm));
    }
    const woven = totals.find(({ kind }: { kind: string }) => kind === "woven");
    expect(woven.areaM2).toBeCloseTo(
      3 * sum(pieces.map((piece: Figures) => piece.quantity * piece.areaM2)),
      9,
    );
    // Cloth is weighed as it is cut: sheared cloth covers less than it measures.
    expect(woven.massKg).toBeCloseTo(
      3 * sum(pieces.map((piece: Figures) => piece.quantity * piece.flatAreaM2 * 0.8)),
      9,
    );
    expect(woven.massKg).toBeGreaterThanOrEqual(woven.areaM2 * 0.8 * 0.999);
    const strip = totals.find(({ kind }: { kind: string }) => kind === "strip");
    expect(strip.lengthMm).toBeCloseTo(3 * sum(strips.map((each: Figures) => each.lengthMm + 3)), 6);
  });

  test("writes the cut lists whole, and says where", () => {
    const folder = join(place, "out/one");
    expect(kit.err).toBe(`The files were written to ${folder}/\n`);
    const files = contents(folder);
    const names = Object.keys(files);
    for (const name of ["cut-list.csv", "sheets.csv", "strips.csv", "totals.csv", "kit.json"])
      expect(names).toContain(name);
    for (const name of ["cut-list.xlsx", "labels.pdf", "strips.pdf"]) expect(names).toContain(name);
    for (const kind of ["dxf", "svg", "pdf"]) expect(names).toContain(`markers/woven-800-1.${kind}`);
    expect(names.filter((name) => name.startsWith("templates/")).length).toBeGreaterThan(0);
    expect(Buffer.from(files["kit.json"], "latin1").toString("utf8")).toBe(kit.out);
    const lot = JSON.parse(files["lot.json"]);
    expect(lot).toMatchObject({ report: "lot", name: "Knot 5", findings: [], doubts: [], leftOut: [] });
    expect(lot.markers.map(({ material }: { material: string }) => material)).toContain("woven-800");
    const report = JSON.parse(kit.out);
    expect(readTable(files["cut-list.csv"]).map((row) => row.name)).toEqual(
      report.pieces.map((piece: { name: string }) => piece.name),
    );
    expect(readTable(files["strips.csv"]).every((row) => row.quantityForAll === "3")).toBe(true);
  });

  test("writes the same lists alone, byte by byte", () => {
    const lists = Object.entries(contents(join(place, "out/two")));
    const all = contents(join(place, "out/one"));
    expect(lists.map(([name]) => name).sort()).toEqual(Object.keys(all).filter(isList).sort());
    for (const [name, content] of lists) expect(content).toBe(all[name]);
  });

  test("prints tables of 80 columns with every piece, and the folder last", () => {
    expect([again.code, again.err]).toEqual([0, ""]);
    expect(again.out.startsWith("Knot 5: kit for 3 shells\n")).toBe(true);
    const lines = again.out.trimEnd().split("\n");
    expect(lines.pop()).toBe(`The files were written to ${join(place, "out/two")}/`);
    for (const line of lines) expect([...line].length).toBeLessThanOrEqual(80);
    for (const { name } of JSON.parse(kit.out).pieces) expect(again.out).toContain(`  ${name} `);
  });

  test("a zone adrift is told, and ends in exit code 2; the rest is written", () => {
    expect(adrift.code).toBe(2);
    expect(adrift.out).toMatch(/Adrift: these zones find no place on this shell\n {2}- bench-rise: /);
    const report = JSON.parse(contents(join(place, "out/lost"))["kit.json"]);
    expect(Object.keys(contents(join(place, "out/lost"))).sort()).toEqual([
      "cut-list.csv",
      "cut-list.xlsx",
      "kit.json",
      "sheets.csv",
      "strips.csv",
      "totals.csv",
    ]);
    expect(report.adrift).toMatchObject([{ id: "bench-rise", kind: "band" }]);
    expect(report.pieces).toEqual(JSON.parse(kit.out).pieces);
  });

  test("a folder that cannot be written is told, and nothing is printed", async () => {
    const { code, out, err } = await ribband("kit", file, "--out", join(file, "inside"));
    expect([code, out]).toEqual([1, ""]);
    expect(err).toMatch(
      /^The folder .*inside cannot be written: a part of its path is a file, not a folder\.\n$/,
    );
  });

  test.each([
    [
      ["--labels", "a4-24", "--lists-only"],
      ["--lists-only", "--labels"],
    ],
    [["--way", "table"], ["--way"]],
  ])("%j without a folder is told, and nothing is printed", async (options, told) => {
    const { code, out, err } = await ribband("kit", file, ...options);
    expect([code, out]).toEqual([1, ""]);
    expect(err).toBe(
      told
        .map((option) => `${option} is for the files that --out writes: name a folder with --out.\n`)
        .join(""),
    );
  });

  test("a reader that has seen enough is no error, and all files are written the same, byte by byte", async () => {
    const folder = join(place, "out/piped");
    const child = spawn(
      process.execPath,
      ["electron/launch/command.mjs", "kit", file, "--json", "--shells", "3", "--out", folder],
      { cwd: root },
    );
    child.stdout.destroy();
    let err = "";
    child.stderr.on("data", (data) => {
      err += data;
    });
    const code = await new Promise((done) => child.once("close", done));
    expect(code).toBe(0);
    expect(withoutProgress(err)).toBe(`The files were written to ${folder}/\n`);
    expect(contents(folder)).toEqual(contents(join(place, "out/one")));
  });
});
