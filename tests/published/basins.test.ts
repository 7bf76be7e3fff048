/**
 * Whole shells over flat floors, from their figures through field, mesh and measures to transitions, against closed forms:
 * Steiner's and Pappus's formulas for a profile of lines and arcs swept along an outline of lines and arcs.
 */
import { describe, expect, it } from "vitest";
import { measureShell } from "../../core/shell/measure.ts";
import { findTransitions } from "../../core/shell/transitions.ts";
import { basinSpec, box, builtAsAsked, ell, type KnownOutline, kidney, stadium } from "./basins.ts";
import { mmOff, partOff, printConvergence } from "./figures.ts";
import { ledgeForms } from "./ledge-forms.ts";
import { measureAt } from "./measure-at.ts";
import { type BasinForms, basinForms, lengthAt, type SideFigures } from "./side-profile.ts";

const figures: SideFigures = { depth: 1400, draftDeg: 0, cove: 150, rim: 20, flange: 150, lip: 25 };
const outlines: readonly (readonly [string, KnownOutline])[] = [
  ["box", box(7000, 3500, 600)],
  ["stadium", stadium(8000, 3600)],
  ["kidney of four arcs", kidney(1500, 1200, 3500, 4500, 2500)],
  ["L with a reflex corner", ell([9000, 5000], [4000, 2000], 600, 600)],
];
const cases = outlines.flatMap(([name, outline]) => [0, 3].map((draftDeg) => ({ name, outline, draftDeg })));

/** The bounds: area within 0.01 %, volume within 0.005 %. */
function expectMeasures(
  what: string,
  measured: { areaMm2: number; volumeMm3: number },
  exact: { area: number; volume: number },
): void {
  const area = partOff(`${what}: area`, measured.areaMm2 / 1e6, exact.area / 1e6, "m²");
  const volume = partOff(`${what}: volume to the rim`, measured.volumeMm3 / 1e9, exact.volume / 1e9, "m³");
  expect(area).toBeLessThan(1e-4);
  expect(volume).toBeLessThan(5e-5);
}

/** Within 0.1 mm: the foot in the middle of the cove, the lines in the middle of the rim's and the lip's rounds. */
function expectTransitions(
  what: string,
  found: readonly { id: string; lengthMm: number; exact: boolean; closed: boolean }[],
  exact: BasinForms,
): void {
  const lengths = { "coping/top|coping/lip": exact.lip, foot: exact.foot, rim: exact.rim };
  expect(found.map(({ id }) => id).sort()).toEqual([...Object.keys(lengths), "wall|floor"]);
  for (const [id, length] of Object.entries({ ...lengths, "wall|floor": exact.foot })) {
    const line = found.find((each) => each.id === id);
    expect(line).toMatchObject({ exact: true, closed: true });
    expect(mmOff(`${what}: ${id}`, line?.lengthMm ?? 0, length)).toBeLessThan(0.1);
  }
}

describe.each(cases)("$name, walls of $draftDeg° draft", ({ name, outline, draftDeg }) => {
  const made: SideFigures = { ...figures, draftDeg };
  const spec = basinSpec(outline, made);

  it("measures what its closed form says", () => {
    const what = `${name}, ${draftDeg}°`;
    const measured = measureShell(builtAsAsked(spec));
    expectMeasures(what, { ...measured, volumeMm3: measured.volumeToRimMm3 }, basinForms(outline, made));
    expectTransitions(what, measured.transitions, basinForms(outline, made));
    expect(mmOff(`${what}: rim length`, measured.rimLengthMm, lengthAt(outline, 0))).toBeLessThan(1e-6);
    expect([...measured.flaws, ...measured.doubts]).toEqual([]);
  });

  it("measures it on the laminate 6 mm further out as well", () => {
    const what = `${name}, ${draftDeg}°, 6 mm out`;
    const shell = builtAsAsked(spec);
    const measured = measureAt(shell, 6, { quality: "full" });
    const exact = basinForms(outline, { ...made, offset: 6 });
    expectMeasures(what, measured, exact);
    expectTransitions(what, findTransitions(shell, measured.mesh, 6).transitions, exact);
  });
});

describe("other edges", () => {
  it.each(outlines)("%s with a flat flange, cut off square to the outline", (name, outline) => {
    const made: SideFigures = { ...figures, draftDeg: 3, lip: 0 };
    const measured = measureAt(builtAsAsked(basinSpec(outline, made)), 0, { quality: "full" });
    expectMeasures(`${name}, flat flange`, measured, basinForms(outline, made));
  });

  it("a ledge over the deep end: octants of a sphere (πr²/2) where wall, riser and floor meet", () => {
    const size = { length: 7000, width: 3500, corner: 600, depth: 1500 };
    const ledge = { ...figures, ...size, top: 500, reach: 1800, nose: 40 };
    const base = basinSpec(box(ledge.length, ledge.width, ledge.corner), ledge);
    const shell = builtAsAsked({
      ...base,
      radii: { cove: ledge.cove, step: ledge.cove, nose: ledge.nose, pairs: [] },
      features: [
        {
          kind: "ledge",
          id: "ledge",
          place: { kind: "end", end: "deep" },
          depth: ledge.top,
          reach: ledge.reach,
        },
      ],
    });
    expectMeasures("box with a ledge", measureAt(shell, 0, { quality: "full" }), ledgeForms(ledge));
  });
});

describe("convergence", () => {
  it("of area and volume as the mesh grows finer", () => {
    const outline = kidney(1500, 1200, 3500, 4500, 2500);
    const made: SideFigures = { ...figures, draftDeg: 3 };
    const shell = builtAsAsked(basinSpec(outline, made));
    const exact = basinForms(outline, made);
    const edges = [160, 80, 40];
    const found = edges.map((edgeMm) =>
      measureAt(shell, 0, { quality: "full", edgeMm, chordMm: 6 * (edgeMm / 120) ** 2 }),
    );
    const area = found.map(({ areaMm2 }) => 100 * Math.abs(areaMm2 / exact.area - 1));
    const volume = found.map(({ volumeMm3 }) => 100 * Math.abs(volumeMm3 / exact.volume - 1));
    printConvergence("area, edges of", edges, area, "%");
    printConvergence("volume, edges of", edges, volume, "%");
    expect(area[2]).toBeLessThan(area[0] / 4);
    expect(area[2]).toBeLessThan(0.01);
    expect(volume[2]).toBeLessThan(0.005);
  });
});
