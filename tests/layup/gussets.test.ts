import { describe, expect, it } from "vitest";
import { signedArea } from "../../core/layup/flat-shape.ts";
import type { ZoneSpec } from "../../core/project/schema.ts";
import { basin, basinProject, groundOf, laid, ledge, openGround } from "./ground.ts";

type GussetSpec = Extract<ZoneSpec, { kind: "gussets" }>;

const t = 6;
const nose = 30 - t;
const spec: GussetSpec = {
  kind: "gussets",
  id: "webs",
  under: "ledge/top",
  pitch: 500,
  margin: 150,
  reach: 300,
  drop: 250,
  material: "core-sheet",
};
const lay = (draftDeg: number, more: Partial<GussetSpec> = {}) =>
  laid(openGround(groundOf(basinProject({ features: [ledge], draftDeg }))), { ...spec, ...more });

describe("gussets under a ledge", () => {
  it.each([0, 3])("are triangles less the nose's radius, at %d° of draft, within 0.05 %", (draftDeg) => {
    const { gussets } = lay(draftDeg);
    // The backs of tread and riser meet at 90° + draft, for the riser leans out.
    const angle = Math.PI / 2 + (draftDeg * Math.PI) / 180;
    const rounded = nose ** 2 * (1 / Math.tan(angle / 2) - (Math.PI - angle) / 2);
    const exact = (300 * 250 * Math.sin(angle)) / 2 - rounded;
    for (const { shape } of gussets) {
      expect(Math.abs(shape.areaMm2 / exact - 1)).toBeLessThan(5e-4);
      expect(signedArea(shape.points)).toBeGreaterThan(0);
    }
  });

  it("clear the surface: no point of a web lies in the laminate", () => {
    const site = openGround(groundOf(basinProject({ features: [ledge], draftDeg: 3 })));
    for (const { shape, origin, xDirection, yDirection } of laid(site, spec).gussets) {
      for (let i = 0; i < shape.points.length; i += 2) {
        const [a, b] = shape.points.subarray(i, i + 2);
        const [x, y, z] = [0, 1, 2].map((k) => origin[k] + a * xDirection[k] + b * yDirection[k]);
        expect(site.field.evaluate(x, y, z)).toBeGreaterThan(-1e-3);
      }
    }
  });

  it("stand at the pitch, evenly about the middle, clear of the margins", () => {
    const { gussets, tape, lengthMm } = lay(0);
    const along = gussets.map(({ alongMm }) => alongMm);
    const gaps = along.slice(1).map((at, i) => at - along[i]);
    for (const gap of gaps) expect(gap).toBeCloseTo(500, 6);
    const line = lengthMm + 300;
    expect(along[0]).toBeCloseTo(line - along[along.length - 1], 6);
    expect(along[0]).toBeGreaterThanOrEqual(150);
    expect(along[0]).toBeLessThan(150 + 250);
    expect(gussets.map(({ name }) => name)).toEqual(["1", "2", "3", "4", "5"].slice(0, gussets.length));
    expect(tape.map(({ what }) => what)).toEqual(gussets.map(({ name }) => `web ${name}`));
    // Planes square to the riser, which runs across the pool.
    for (const { xDirection } of gussets) expect(xDirection[0]).toBeCloseTo(-1, 9);
  });

  it("end where the radii at the back of the ledge and at the foot of the riser begin, and say so", () => {
    const { gussets, doubts } = lay(0, { reach: 1500, drop: 1500 });
    // Measured from the corner of the two backs, which the laminate has moved in under the ledge and down.
    const reach = 1500 - t - 50;
    const drop = basin.depth - 400 - t - 50;
    const exact = (reach * drop) / 2 - nose ** 2 * (1 - Math.PI / 4);
    // The middle web; those beside it meet the plan corners at the back of the ledge sooner.
    const { shape } = gussets[gussets.length >> 1];
    expect(Math.abs(shape.areaMm2 / exact - 1)).toBeLessThan(5e-4);
    expect(doubts.join()).toMatch(/the webs reach only \d+ mm instead of 1500 mm/);
    expect(doubts.join()).toMatch(/drop only 844 mm instead of 1500 mm/);
  });
});
