import { beforeAll, expect, test } from "vitest";
import { kitForLot } from "../../core/cutting/lot.ts";
import { type CutLot, cutLot } from "../../core/cutting/lots/cut-lot.ts";
import type { LotModel } from "../../core/cutting/lots/lot-model.ts";
import { unwatched } from "../../core/cutting/lots/watch.ts";
import { demoKit } from "../cutting/demo-kits.ts";
import { checkLot } from "./check-lot.ts";

/** The lot of six Whimbrel 9 and four Turnstone 7, on stock that is large enough for it. */
let lot: CutLot;

beforeAll(() => {
  const models = [
    ["whimbrel-9", 6],
    ["turnstone-7", 4],
  ].map(([name, shells]): LotModel => {
    const { project, kit } = demoKit(`${name}`);
    return { label: project.name, project, kit: kitForLot(project, kit, Number(shells)) };
  });
  lot = cutLot(
    models,
    {
      name: "Week 14",
      cutting: { way: "hand" },
      stock: {
        rolls: ["woven-600", "woven-800"].map((material) => ({
          id: material,
          material,
          width: 1270,
          length: 75_000,
        })),
        sheets: [{ id: "sheet", material: "core-sheet", width: 1220, length: 2440 }],
        bars: [
          { id: "rest", material: "rib-strip", length: 1650, count: 12, remnant: true },
          { id: "bar", material: "rib-strip", length: 2400 },
        ],
      },
    },
    { steps: 20, watch: unwatched },
  );
}, 240_000);

test("nothing is lost, nothing is cut twice, counts and masses are the sums of the kits", () => {
  checkLot(lot);
  const pieces = lot.models.flatMap(({ kit }) =>
    [...kit.pieces, ...kit.strips, ...kit.sheets].map(({ quantity }) => quantity * kit.shells),
  );
  const sum = (numbers: readonly number[]) => numbers.reduce((total, each) => total + each, 0);
  expect(sum(lot.demand.map(({ totals }) => totals.pieces))).toBe(sum(pieces));
});

test("the strips take the fewest bars, proved, and the remnants are used first", () => {
  const [{ plan }] = lot.strips;
  expect(plan.missing).toEqual([]);
  expect(plan.bound).toBe(plan.cost);
  expect(plan.use[0]).toEqual({ stock: "rest", lengthMm: 1650, bars: 12 });
  const { barsMm, piecesMm, sawMm, keptMm, wasteMm } = plan.lengths;
  expect(piecesMm + sawMm + keptMm + wasteMm).toBeCloseTo(barsMm, 6);
});
