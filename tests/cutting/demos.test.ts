import { beforeAll, describe, expect, test } from "vitest";
import type { BandPieces } from "../../core/cutting/band-pieces.ts";
import { bandAsCut, cutKit } from "../../core/cutting/cut-kit.ts";
import type { Kit } from "../../core/cutting/kit.ts";
import { layProject } from "../../core/cutting/make-kit.ts";
import type { LaidBand, Layup } from "../../core/layup/laid.ts";
import type { Project } from "../../core/project/schema.ts";
import { demoNames } from "../project/demo-files.ts";
import { printLine } from "../published/figures.ts";
import { checkOutline } from "./check-outline.ts";
import { checkPieces } from "./check-pieces.ts";
import { demoKit } from "./demo-kits.ts";
import { layBandBack } from "./laid-back.ts";

const sum = (figures: readonly number[]) => figures.reduce((total, figure) => total + figure, 0);

describe.each(demoNames)("the kit of %s", (name) => {
  let project: Project;
  let layup: Layup;
  let kit: Kit;
  let stages: readonly string[];
  /** Of each band the pieces as they are cut, before those alike are made one. */
  let bands: { readonly zone: LaidBand; readonly cut: BandPieces }[];
  beforeAll(() => {
    ({ project, layup, kit, stages } = demoKit(name));
    bands = layup.zones
      .filter((zone): zone is LaidBand => zone.kind === "band" || zone.kind === "stroke")
      .map((zone) => ({ zone, cut: bandAsCut(zone, project) }));
  }, 120_000);
  const ownOf = <T extends { readonly zone: string }>(list: readonly T[], id: string) =>
    list.filter((each) => each.zone === id);

  test("has every zone of the project, cut or adrift", () => {
    expect(stages).toHaveLength(5);
    const cut = new Set([...kit.pieces, ...kit.strips, ...kit.sheets].map((each) => each.zone));
    const adrift = new Set(layup.adrift.map(({ id }) => id));
    for (const { id } of project.layup) expect(cut.has(id) !== adrift.has(id), id).toBe(true);
  });

  test("covers every band, ply by ply, by the shop's rules", () => {
    for (const { zone, cut } of bands) {
      checkPieces(zone, project.shop, cut);
      expect(sum(ownOf(kit.pieces, zone.id).map(({ quantity }) => quantity))).toBe(cut.pieces.length);
    }
  });

  test("has pieces of cloth whose outlines cross themselves nowhere", () => {
    for (const { cut } of bands) cut.pieces.forEach(checkOutline);
  });

  test("has pieces of cloth that lie down where they belong when they are laid back", () => {
    for (const { zone, cut } of bands) {
      // Every fifth of them; the campaign takes all.
      const { faults, pieces, unrolled, sheared } = layBandBack(zone, cut, 5);
      printLine(
        `${name}, ${zone.id}: ${pieces} pieces, laid back within ${unrolled.toFixed(2)} mm, ${sheared.toFixed(2)} mm where sheared`,
      );
      expect(faults).toEqual([]);
    }
  });

  test("loses no strip and no sheet", () => {
    for (const zone of layup.zones) {
      const strips = ownOf(kit.strips, zone.id);
      const sheets = ownOf(kit.sheets, zone.id);
      const lengths = sum(strips.map((strip) => strip.lengthMm));
      const areas = sum(sheets.map((sheet) => sheet.quantity * sheet.areaMm2));
      if (zone.kind === "rib" || zone.kind === "rib-row") {
        expect(lengths).toBeCloseTo(sum(zone.ribs.map((rib) => rib.cutLengthMm)), 6);
      }
      if (zone.kind === "stiffener") expect(lengths).toBeCloseTo(zone.cutLengthMm, 6);
      if (zone.kind === "gussets")
        expect(sum(sheets.map(({ quantity }) => quantity))).toBe(zone.gussets.length);
      // Equal shapes are cut as one: half a millimetre along an outline may be the difference.
      if (zone.kind === "gussets")
        expect(areas / sum(zone.gussets.map(({ shape }) => shape.areaMm2))).toBeCloseTo(1, 2);
      if (zone.kind === "pad")
        expect(areas / sum(zone.shapes.map(({ shape }) => shape.areaMm2))).toBeCloseTo(1, 2);
    }
  });

  test("keeps its names when zones go", () => {
    const kept = layup.zones.filter((_, i) => i % 3 !== 0);
    const fewer = cutKit(project, { ...layup, zones: kept }, 1);
    for (const { id } of kept) {
      expect(ownOf(fewer.pieces, id)).toEqual(ownOf(kit.pieces, id));
      expect(ownOf(fewer.strips, id)).toEqual(ownOf(kit.strips, id));
      expect(ownOf(fewer.sheets, id)).toEqual(ownOf(kit.sheets, id));
    }
  });
});

test("a kit cut again after all others, its zones the other way round, is the same to the last digit", {
  timeout: 120_000,
}, () => {
  const { project, kit } = demoKit(demoNames[0]);
  const laid = layProject(project);
  if (!laid.ok) throw new Error("It was laid up once, and not again.");
  const again = cutKit(project, { ...laid.layup, zones: [...laid.layup.zones].reverse() }, 1);
  for (const list of ["pieces", "strips", "sheets", "doubts"] as const) {
    expect(again[list]).toHaveLength(kit[list].length);
    for (const { id } of laid.layup.zones) {
      const ownOf = (of: Kit) => [...of[list]].filter(({ zone }) => zone === id);
      expect(ownOf(again), id).toEqual(ownOf(kit));
    }
  }
});
