/**
 * Bands laid by the whole kernel (figures → shell → mesh → transitions → strip) against Pappus's theorem: a curve that is
 * moved along a line sweeps its length times the way; turned round an axis, the turn times ∫ρ ds.
 */
import { describe, expect, it } from "vitest";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { findTransitions } from "../../core/shell/transitions.ts";
import type { SurfaceCurve } from "../../core/surface/curve.ts";
import { offsetField } from "../../core/surface/field.ts";
import { section } from "../../core/surface/section.ts";
import { layStrip } from "../../core/surface/strip.ts";
import { basinSpec, box, builtAsAsked, ell, type KnownOutline, kidney, round, stadium } from "./basins.ts";
import { partOff, printConvergence } from "./figures.ts";
import { footBand, lengthAt, middle, type SideFigures, sideProfile, sweptArea } from "./side-profile.ts";

const M2 = 1e6;
const quarterOf = (radius: number) => (radius * Math.PI) / 2;

/** A basin with plumb walls, its foot, and the stations of the foot at which the outline's parts begin. */
function basin(outline: KnownOutline, cove: number) {
  const figures: SideFigures = { depth: 1400, draftDeg: 0, cove, rim: 20, flange: 150, lip: 25 };
  const shell = builtAsAsked(basinSpec(outline, figures));
  const { d } = middle(sideProfile(figures).cove);
  const stationOf = (part: number) =>
    lengthAt({ parts: [...outline.lead, ...outline.parts.slice(0, part)], area: 0 }, d);
  return { shell, foot: footOf(shell), stationOf };
}

function footOf(shell: Shell, offset = 0): SurfaceCurve {
  const mesh = meshSurface(shell.field, { quality: "preview" });
  const foot = findTransitions(shell, mesh, offset).transitions.find((each) => each.id === "foot");
  if (!foot?.exact) throw new Error(`the foot was not found exactly: ${foot?.reason}`);
  return foot.curve;
}

/** A level line of a plumb or conical wall, run counter-clockwise from the shallow end. */
function levelLine(shell: Shell, z: number, x: number): SurfaceCurve {
  const plane = { origin: [0, 0, z], u: [1, 0, 0], v: [0, 1, 0] } as const;
  const line = section(shell.field, plane, [x, 0, z], { direction: [0, -1, 0] });
  if (line?.ended !== "closed") throw new Error("no closed level line");
  return line;
}

// The figures 0.235619 m²/m, 1.621812, 1.339069 and 0.136306 m² were computed on their own from Pappus's theorem,
// tube radius a, ring radius R, tube angle t from the outer equator, turn Φ: A = Φ·a·[R(t₂ − t₁) + a(sin t₂ − sin t₁)].
describe("bands over a cove of 150 mm about a ring of 1 m", () => {
  const cove = 150;
  const outline = box(8000, 4000, 1000 + cove);
  const made = () => basin(outline, cove);

  it("on a straight side: 0.235619 m² a metre for the whole quarter tube, within 0.02 %", () => {
    const { shell, foot, stationOf } = made();
    const [from, to] = [stationOf(0), stationOf(1)];
    const half = quarterOf(cove) / 2;
    const perMetre =
      (layStrip(shell.field, foot, { from, to }, [half, half]).areaMm2 / M2 / (to - from)) * 1000;
    expect(partOff("straight band, quarter tube", perMetre, 0.235619, "m²/m")).toBeLessThan(2e-4);
    const wide = layStrip(shell.field, foot, { from, to }, [300, 250]).areaMm2;
    expect(partOff("straight band, 300 + 250 mm", wide / M2, ((to - from) * 550) / M2, "m²")).toBeLessThan(
      2e-4,
    );
  });

  it("round a plan corner, tube angle 30° to 60°: 0.136306 m², within 0.1 %", () => {
    const { shell, foot, stationOf } = made();
    const half = (cove * Math.PI) / 12;
    for (const corner of [1, 3, 5]) {
      const stretch = { from: stationOf(corner), to: stationOf(corner + 1) };
      const band = layStrip(shell.field, foot, stretch, [half, half]).areaMm2;
      expect(partOff(`torus-corner band ${corner}`, band / M2, 0.136306, "m²")).toBeLessThan(1e-3);
    }
  });

  it("round the whole foot: four corners make the full turn of a quarter tube, 1.621812 m²", () => {
    const { shell, foot } = made();
    const half = quarterOf(cove) / 2;
    const straight = 2 * (8000 - 2300) + 2 * (4000 - 2300);
    const corners = layStrip(shell.field, foot, null, [half, half]).areaMm2 / M2 - straight * 0.235619449e-3;
    expect(partOff("four torus corners", corners, 1.621812, "m²")).toBeLessThan(1e-3);
  });

  it("round a reflex corner: a quarter of the inner half's 1.339069 m²", () => {
    const inner = ell([9000, 5000], [4000, 2000], 600, 1000 - cove);
    const { shell, foot, stationOf } = basin(inner, cove);
    const half = quarterOf(cove) / 2;
    const band = layStrip(shell.field, foot, { from: stationOf(5), to: stationOf(6) }, [half, half]).areaMm2;
    expect(partOff("reflex torus band", band / M2, 1.339069 / 4, "m²")).toBeLessThan(1e-3);
  });
});

describe("a band on the foot, past both tangent lines", () => {
  const widths = [230, 200] as const;
  const outlines: readonly [string, KnownOutline][] = [
    ["box", box(7000, 3500, 700)],
    ["stadium", stadium(8000, 3600)],
    ["kidney of four arcs", kidney(1500, 1200, 3500, 4500, 2500)],
    ["L with a reflex corner", ell([9000, 5000], [4000, 2000], 700, 600)],
  ];
  it.each(outlines)(
    "%s: over torus corners and cones of 3° draft, on the gel coat and 6 mm further out",
    (name, outline) => {
      for (const offset of [0, 6]) {
        const figures = { depth: 1400, draftDeg: 3, cove: 150, rim: 20, flange: 150, lip: 25, offset };
        const shell = builtAsAsked(basinSpec(outline, figures));
        const band = layStrip(offsetField(shell.field, offset), footOf(shell, offset), null, widths);
        const exact = sweptArea(outline, footBand(sideProfile(figures), ...widths));
        expect(
          partOff(`${name}, foot band at ${offset} mm`, band.areaMm2 / M2, exact / M2, "m²"),
        ).toBeLessThan(2e-4);
        expect(band.cutShort).toEqual([]);
      }
    },
  );
});

describe("convergence", () => {
  it("a foot band round a kidney, as the samples draw together", () => {
    const outline = kidney(1500, 1200, 3500, 4500, 2500);
    const { shell, foot } = basin(outline, 150);
    const widths = [230, 200] as const;
    const figures: SideFigures = { depth: 1400, draftDeg: 0, cove: 150, rim: 20, flange: 150, lip: 25 };
    const exact = sweptArea(outline, footBand(sideProfile(figures), ...widths));
    const steps = [200, 100, 50, 25];
    const errors = steps.map((step) => {
      const band = layStrip(shell.field, foot, null, widths, { alongMm: step, acrossMm: step });
      return 100 * Math.abs(band.areaMm2 / exact - 1);
    });
    printConvergence("foot band round a kidney, 230 + 200 mm", steps, errors, "%");
    for (let i = 1; i < steps.length; i++) expect(errors[i]).toBeLessThan(errors[i - 1]);
    expect(errors[1]).toBeLessThan(2e-3);
    expect(errors[3]).toBeLessThan(errors[0] / 50);
  });
});

// Numbers computed on their own from the surfaces' unrollings: cylinder R·α × L, cone frustum π(r₁ + r₂)·s.
describe("bands on walls that unroll", () => {
  it("a quarter of a cylinder of 1.5 m, 2 m high: 4.712389 m²", () => {
    const spec = basinSpec(stadium(7000, 3000), {
      depth: 2500,
      draftDeg: 0,
      cove: 150,
      rim: 20,
      flange: 150,
      lip: 25,
    });
    const shell = builtAsAsked(spec);
    const stretch = { from: 0, to: quarterOf(1500) };
    const band = layStrip(shell.field, levelLine(shell, -1250, 0), stretch, [1000, 1000]);
    expect(partOff("quarter cylinder", band.areaMm2 / M2, 4.712389, "m²")).toBeLessThan(2e-4);
  });

  it("a cone frustum of radii 2 and 1.2 m, 1.1 m high: 13.673690 m²", () => {
    const [top, bottom, height, above] = [2000, 1200, 1100, 100];
    const perDepth = (top - bottom) / height;
    const draftDeg = (Math.atan(perDepth) * 180) / Math.PI;
    const figures = { depth: 1400, draftDeg, cove: 100, rim: 20, flange: 150, lip: 25 };
    const shell = builtAsAsked(basinSpec(round(top + above * perDepth), figures));
    const z = -above - height / 2;
    const line = levelLine(shell, z, -z * perDepth);
    const half = Math.hypot(height, top - bottom) / 2;
    const band = layStrip(shell.field, line, null, [half, half]);
    expect(partOff("cone frustum", band.areaMm2 / M2, 13.67369, "m²")).toBeLessThan(2e-4);
  });
});
