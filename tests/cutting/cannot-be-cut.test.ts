import { expect, test } from "vitest";
import { cannotBeCut, unfitness } from "../../core/cutting/band-doubts.ts";
import { cutKit } from "../../core/cutting/cut-kit.ts";
import type { FittedPart } from "../../core/cutting/fit-part.ts";
import type { Piece } from "../../core/cutting/kit.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import { kitReport, lookedAt } from "../../core/sheets/kit-report.ts";
import { kitTables } from "../../core/sheets/kit-tables.ts";
import { demoKit } from "./demo-kits.ts";
import { bandOn, flatCurve, woven } from "./laid-by-hand.ts";

const partWith = (fit: object | null) => ({ zone: { from: 0 }, fit }) as FittedPart;
/** What is listed of 800 g/m²: 1 m² of surface, and so much cloth. */
const listed = (flatAreaMm2: number) =>
  ({ areaMm2: 1e6, flatAreaMm2, glassKg: (0.8 * flatAreaMm2) / 1e6 }) as Piece;

test("a piece without cloth is told with what its outline and its mass are off", () => {
  const part = partWith(null);
  expect(cannotBeCut(part)).toBe(true);
  // 0.36 m² are missing, of 0.8 kg each.
  expect(unfitness(part, listed(640_000), woven)).toBe(
    "cloth folds on it however it is hung: its outline is only the band pulled straight, 0.640 m² for 1.000 m² of " +
      "surface, and its mass 0.29 kg too small",
  );
  expect(unfitness(part, listed(1_250_000), woven)).toMatch(/mass 0\.20 kg too large$/);
});

test("a piece that lies over itself cannot be cut, one past locking or rough can, by hand", () => {
  const shear = (degrees: number) => ({ shear: { most: (degrees * Math.PI) / 180, station: 0 } });
  const over = partWith({ overlaps: true, isRough: false, drape: shear(60) });
  expect(cannotBeCut(over)).toBe(true);
  expect(unfitness(over, listed(1e6), woven)).toMatch(/it cannot be cut from one piece of cloth$/);
  for (const [part, says] of [
    [{ overlaps: false, isRough: false, drape: shear(60) }, /turn by 60° .* slit it there/],
    [{ overlaps: false, isRough: true, drape: shear(10) }, /trimmed on the plug/],
  ] as const) {
    expect(cannotBeCut(partWith(part))).toBe(false);
    expect(unfitness(partWith(part), listed(1e6), woven)).toMatch(says);
  }
});

test("a band wider than its roll is a fault of the kit, told apart from what there is to look at", () => {
  const project = defaultProject();
  const wide = bandOn("wide", flatCurve([{ length: 3000, turn: 0 }], false), [800, 700]);
  const layup = { zones: [{ ...wide, doubts: ["it covers light-1"] }], adrift: [] };
  const kit = cutKit(project, layup, 1);
  const { looks, uncut } = lookedAt(layup, kit);
  expect(looks).toEqual([{ zone: "wide", says: "it covers light-1" }]);
  expect(uncut).toEqual([
    { zone: "wide", says: expect.stringMatching(/^1500 mm wide, and .* comes \d+ mm wide/) },
  ]);
  expect(kit.doubts.map(({ fault }) => fault)).toEqual(["wider than its roll"]);
  const report = kitReport("Wide", layup, kit, { flaws: [], adjustments: [] });
  expect([report.doubts, report.cannotBeCut]).toEqual([looks, uncut]);
  expect(kitTables("Wide", layup, kit, { flaws: [], adjustments: [] })).toMatch(
    /\nCannot be cut as it is listed\n {2}- wide: 1500 mm wide,[\s\S]*\nTo look at\n {2}- wide: it covers light-1\n$/,
  );
});

test("of a demo all can be cut", { timeout: 120_000 }, () => {
  const { layup, kit } = demoKit("dunlin-4");
  expect(lookedAt(layup, kit).uncut).toEqual([]);
});
