import { describe, expect, test } from "vitest";
import { cutLot } from "../../core/cutting/lots/cut-lot.ts";
import { clashesWith } from "../../core/cutting/lots/demand.ts";
import { labelsFor } from "../../core/cutting/lots/lot-model.ts";
import { downToTenth } from "../../core/cutting/lots/rest-length.ts";
import { unwatched } from "../../core/cutting/lots/watch.ts";
import type { Lot } from "../../core/project/lot-schema.ts";
import { parseLot } from "../../core/project/parse-lot.ts";
import { checkLot } from "./check-lot.ts";
import { smallModels } from "./small-models.ts";

const options = { steps: 20, watch: unwatched };

const stock: Lot["stock"] = {
  rolls: [{ id: "roll", material: "woven-800", width: 1270, length: 75_000, count: 2, price: 300 }],
  sheets: [{ id: "sheet", material: "core-sheet", width: 1220, length: 2440, count: 9, price: 64 }],
  bars: [
    { id: "long", material: "rib-strip", length: 3000, count: 20, price: 11 },
    { id: "short", material: "rib-strip", length: 2400, price: 8 },
  ],
};

const lotOf = (change: Partial<Lot["stock"]> = {}, cutting: Lot["cutting"] = { way: "hand" }) => ({
  name: "Week 14",
  cutting,
  stock: { ...stock, ...change },
});

describe("a lot of two models", () => {
  test.each(["hand", "table"] as const)("is cut together, nothing lost and nothing twice: %s cut", (way) => {
    const lot = cutLot(smallModels([3, 2]), lotOf({}, { way }), options);
    checkLot(lot);
    expect(lot.findings).toEqual([]);
    expect(lot.demand.map(({ material, totals }) => [material.id, totals.pieces])).toEqual([
      ["woven-800", 10],
      ["rib-strip", 15],
      ["core-sheet", 10],
    ]);
    // Alike in both models, and still told apart.
    expect(lot.demand[2].pieces.map(({ id, quantity }) => [id, quantity])).toEqual([
      ["Knot 5: pad-1/1", 6],
      ["Dunnock 6: pad-1/1", 4],
    ]);
    // Ten pads of 800 × 300: sheets of 2440 × 1220 take twelve each. Cloth lies two abreast.
    expect(lot.use.map(({ uses }) => uses.map(({ stock: id, number }) => [id, number]))).toEqual([
      [["roll", 1]],
      expect.arrayContaining([]),
      [["sheet", 1]],
    ]);
    expect(lot.use[2].cost).toBe(64);
  });

  test("strips of both share their bars, and the plan is proved", () => {
    const [plan] = cutLot(smallModels([3, 2]), lotOf(), options).strips.map((each) => each.plan);
    expect(plan.measure).toBe("price");
    expect(plan.bound).toBe(plan.cost);
    const shared = plan.bars.filter(({ cuts }) => new Set(cuts.map(({ id }) => id.split(":")[0])).size === 2);
    expect(shared.length).toBeGreaterThan(0);
  });

  test("the saw of the lot is the widest of the projects' own, or the lot's", () => {
    const wide = smallModels([1, 1], (project) => ({ ...project, shop: { ...project.shop, kerf: 6 } }));
    expect(cutLot(wide, lotOf(), options).strips[0].kerfMm).toBe(6);
    expect(cutLot(wide, lotOf({}, { way: "hand", kerf: 2 }), options).strips[0].kerfMm).toBe(2);
  });

  test("the same lot gives the same plans", () => {
    const once = cutLot(smallModels([3, 2]), lotOf({}, { way: "table" }), options);
    expect(cutLot(smallModels([3, 2]), lotOf({}, { way: "table" }), options)).toEqual(once);
  });
});

describe("rests", () => {
  test("are entries for the stock of the next lot, which cuts from them first", () => {
    const first = cutLot(smallModels([1, 1]), lotOf(), options);
    const { rests } = first;
    expect(rests.sheets).toEqual([
      {
        id: "core-sheet-rest-1",
        material: "core-sheet",
        width: 1220,
        length: expect.any(Number),
        count: 1,
        remnant: true,
      },
    ]);
    expect(rests.bars.every(({ length, remnant }) => remnant && length >= 400)).toBe(true);
    const next = cutLot(
      smallModels([1, 1]),
      lotOf({ sheets: [...stock.sheets, ...(rests.sheets as never[])] }),
      options,
    );
    checkLot(next);
    expect(next.use[2].uses[0]).toMatchObject({ stock: "core-sheet-rest-1", remnant: true, cost: 0 });
  });
});

test("of bars with alike rests every rest is listed", () => {
  const lot = cutLot(smallModels([9, 4]), lotOf(), options);
  const kept = lot.strips.flatMap(({ plan }) => plan.bars).filter(({ keep, lacking }) => keep && !lacking);
  expect(Math.max(...kept.map(({ times }) => times))).toBeGreaterThan(1);
  const metres = (rests: readonly { length: number; count: number }[]) =>
    rests.reduce((sum, { length, count }) => sum + length * count, 0);
  expect(metres(lot.rests.bars)).toBeCloseTo(
    metres(kept.map(({ restMm, times }) => ({ length: downToTenth(restMm), count: times }))),
    6,
  );
});

test("a remnant that the margins take up is not cut from, and not in the way", () => {
  const scrap = { id: "scrap", material: "core-sheet", width: 60, length: 2440, count: 3, remnant: true };
  const lot = lotOf({ sheets: [scrap, ...stock.sheets] }, { way: "hand", margin: 30 });
  const cut = cutLot(smallModels([1, 1]), lot, options);
  checkLot(cut);
  expect(cut.findings).toEqual([]);
  expect(cut.use[2].uses.map(({ stock: id }) => id)).toEqual(["sheet"]);
  const alone = cutLot(smallModels([1, 1]), lotOf({ sheets: [scrap] }, { way: "hand", margin: 30 }), options);
  expect(alone.findings.join(" ")).toMatch(/too large for every sheet/);
  // What it is too large with.
  const says = /is (\d+) × (\d+) mm and wants (\d+) × (\d+) mm with the margin of 30 mm, too large/;
  const [long, wide, ...wanted] = says.exec(alone.findings.join(" "))?.slice(1).map(Number) ?? [];
  expect(wanted).toEqual([long + 60, wide + 60]);
});

test("a rest too short for a stock to list is not kept, however short rests are kept", () => {
  // Two pads of 800 × 300 leave 40 mm of these sheets; a roll of its piece's length leaves nothing worth a line.
  const sheets = [{ id: "short", material: "core-sheet", width: 610, length: 846, count: 9 }];
  const { rests } = cutLot(smallModels([1, 1]), lotOf({ sheets }, { way: "hand", keepFrom: 0 }), options);
  const text = JSON.stringify({
    ...{ format: "ribband-lot", version: 1, name: "Week 15" },
    ...{ models: [{ project: "knot-5.ribband.json", shells: 1 }], cutting: { way: "hand" }, stock: rests },
  });
  expect(rests.sheets).toEqual([]);
  expect(parseLot(text)).toMatchObject({ ok: true });
});

describe("what a lot lacks is told in sentences, and the rest is cut", () => {
  test("no stock of a material", () => {
    const lot = cutLot(smallModels([1, 1]), lotOf({ bars: [], sheets: [], rolls: [] }), options);
    checkLot(lot);
    expect(lot.use.flatMap(({ uses }) => uses)).toEqual([]);
    expect(lot.rests).toEqual({ rolls: [], sheets: [], bars: [] });
    expect(lot.findings).toEqual([
      expect.stringMatching(
        /^No roll of woven-800 is in the lot's stock: \d\.\d m, 1270 mm wide, are wanted\.$/,
      ),
      "No bar of rib-strip is in the lot's stock.",
      expect.stringMatching(
        /^4 bars of rib-strip \(2400 mm\) are missing, for Dunnock 6: ribs-left\/1, Dunnock/,
      ),
      "No sheet of core-sheet is in the lot's stock: 1 sheet of 2440 × 1220 mm is wanted.",
    ]);
  });

  test("stock that runs out, pieces too large for it, a slip of the pen", () => {
    const lot = cutLot(
      smallModels([3, 2]),
      lotOf({
        rolls: [
          { id: "narrow", material: "woven-800", width: 400, length: 9000, count: 1 },
          { id: "other", material: "woven-80", width: 400, length: 9000, count: 1 },
        ],
        bars: [{ id: "bar", material: "rib-strip", length: 1505, count: 7 }],
        sheets: [{ id: "sheet", material: "core-sheet", width: 650, length: 900, count: 3 }],
      }),
      options,
    );
    checkLot(lot);
    expect(lot.findings[0]).toBe(
      'stock.rolls[1].material (other) is "woven-80", which is no woven material of the lot\'s projects: it is not used. Did you mean woven-800?',
    );
    expect(lot.findings).toContain(
      "Piece Knot 5: foot/1a (3 of them) is 1900 × 500 mm, too large for every roll of woven-800 (400 mm wide).",
    );
    expect(lot.findings).toContain(
      "Piece Knot 5: ribs-left/1 is 1500.3 mm long; the longest bar, bar, gives 1495 mm.",
    );
    // Which of two alike go without is the packer's to choose.
    expect(lot.findings.at(-1)).toMatch(
      /^What is left of the sheets of core-sheet is too small, or nothing is: 4 pieces go without, .*(Knot 5|Dunnock 6): pad-1\/1\.$/,
    );
  });
});

test("models of one name are told apart", () => {
  expect(labelsFor(["Knot 5", "Dunnock 6", "Knot 5", "Knot 5"])).toEqual([
    "Knot 5",
    "Dunnock 6",
    "Knot 5 (2)",
    "Knot 5 (3)",
  ]);
});

test("a material that two projects mean differently is a clash", () => {
  const [first, second] = smallModels([1, 1], (project) => ({
    ...project,
    materials: project.materials.map((each) => (each.kind === "strip" ? { ...each, width: 75 } : each)),
  }));
  expect(clashesWith([first], second).map(({ says }) => says)).toEqual([
    "material rib-strip is strip 75 × 20 mm of 80 kg/m³ in Dunnock 6 and strip 100 × 20 mm of 80 kg/m³ in Knot 5; in one lot an id stands for one material",
  ]);
  expect(clashesWith([first], { ...second, project: first.project })).toEqual([]);
});

test("pieces that fit a sheet only across its core are named in a sentence", () => {
  // The pads are 800 × 300 mm, the core along their length.
  const models = smallModels([1, 1]).map((model) => {
    const materials = model.project.materials.map((each) =>
      each.kind === "sheet" ? { ...each, length: 700, width: 900 } : each,
    );
    return { ...model, project: { ...model.project, materials } };
  });
  const sheets = [{ id: "narrow", material: "core-sheet", width: 900, length: 700, count: 9 }];
  expect(cutLot(models, lotOf({ sheets }), options).doubts).toContain(
    "These fit a sheet only when turned across its core: Knot 5: pad-1/1, Dunnock 6: pad-1/1.",
  );
});
