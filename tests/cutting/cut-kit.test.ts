import { fc, test as propertyTest } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { cutKit } from "../../core/cutting/cut-kit.ts";
import type { Kit } from "../../core/cutting/kit.ts";
import type { LaidZone } from "../../core/layup/laid.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import {
  bandOn,
  flatCurve,
  gussetsOf,
  padOf,
  ribsOf,
  roundedRectangle,
  stiffenerOf,
  stripStock,
  usualShop,
} from "./laid-by-hand.ts";

const project = defaultProject();
const zones: readonly LaidZone[] = [
  bandOn("foot", flatCurve(roundedRectangle(6000, 3000, 400), true), [200, 250], 2),
  bandOn("rise", flatCurve([{ length: 3100, turn: 0 }], false), [140, 140]),
  bandOn("rise-2", flatCurve([{ length: 6100, turn: 0.4 }], false), [140, 140]),
  ribsOf("ribs", [1400, 1500, 2900]),
  stiffenerOf("stiffener", 5000),
  gussetsOf("gussets", [
    [0, 0, 200, 0, 0, 200],
    [5, 5, 205, 5, 5, 205],
    [0, 0, 300, 0, 0, 200],
  ]),
  padOf("pad", [[0, 0, 900, 0, 900, 3000, 0, 3000]]),
];
const kitOf = (laid: readonly LaidZone[], shells = 1): Kit =>
  cutKit(project, { zones: laid, adrift: [] }, shells);
const kit = kitOf(zones);

test("every zone is in the kit, and every name once", () => {
  const all = [...kit.pieces, ...kit.strips, ...kit.sheets];
  expect(new Set(all.map((each) => each.zone))).toEqual(new Set(zones.map((zone) => zone.id)));
  expect(new Set(all.map((each) => each.name)).size).toBe(all.length);
});

test("whoever waits hears each zone by its name, and of a band at every piece of cloth that is tried", () => {
  const parts: string[] = [];
  // A zone cut before is remembered.
  const fresh = zones.map((zone) => ({ ...zone }));
  cutKit(project, { zones: fresh, adrift: [] }, 1, (part) => parts.push(part));
  expect([...new Set(parts)]).toEqual(zones.map(({ id }) => `cutting ${id}`));
  const foot = kit.pieces.filter(({ zone }) => zone === "foot");
  expect(parts.filter((part) => part === "cutting foot").length).toBeGreaterThan(foot.length);
});

propertyTest.prop([fc.subarray([...zones], { minLength: 1 }), fc.boolean()], { numRuns: 30 })(
  "a zone is cut the same, under the same names, whatever other zones there are",
  (some, backwards) => {
    const cut = kitOf(backwards ? some.toReversed() : some);
    for (const zone of some) {
      for (const list of ["pieces", "strips", "sheets"] as const) {
        const own = (from: Kit) => from[list].filter((each) => each.zone === zone.id);
        expect(own(cut)).toEqual(own(kit));
      }
    }
  },
);

describe("totals", () => {
  const totalFor = (of: Kit, kind: string) => of.totals.find((total) => total.kind === kind)!;
  const sum = <T>(list: readonly T[], figure: (each: T) => number) =>
    list.reduce((total, each) => total + figure(each), 0);

  test("are the sums of what is cut, nothing lost", () => {
    const woven = totalFor(kit, "woven");
    expect(woven.pieces).toBe(sum(kit.pieces, (piece) => piece.quantity));
    expect(woven.areaMm2).toBeCloseTo(
      sum(kit.pieces, (piece) => piece.quantity * piece.areaMm2),
      3,
    );
    expect(woven.massKg).toBeCloseTo(
      sum(kit.pieces, (piece) => piece.quantity * piece.glassKg),
      9,
    );
    const strip = totalFor(kit, "strip");
    expect(strip.pieces).toBe(kit.strips.length);
    const lengths = sum(kit.strips, (each) => each.lengthMm);
    expect(lengths).toBeCloseTo(1400 + 1500 + 2900 + 5000, 6);
    expect(strip.lengthMm).toBeCloseTo(lengths + kit.strips.length * usualShop.kerf, 6);
    expect(strip.areaMm2).toBeCloseTo(lengths * stripStock.width, 3);
    const sheet = totalFor(kit, "sheet");
    expect(sheet.pieces).toBe(3 + 2);
    expect(sheet.areaMm2).toBeCloseTo(2 * 20000 + 30000 + 2700000, 3);
    expect(sheet.massKg).toBeCloseTo(sheet.areaMm2 * 20 * 80e-9, 9);
  });

  test("of N shells are N times those of one; pieces stay those of one shell", () => {
    for (const shells of [2, 7]) {
      const lot = kitOf(zones, shells);
      expect(lot.pieces).toEqual(kit.pieces);
      expect(lot.strips).toEqual(kit.strips);
      expect(lot.sheets).toEqual(kit.sheets);
      lot.totals.forEach((total, i) => {
        const one = kit.totals[i];
        expect(total.pieces).toBe(shells * one.pieces);
        for (const figure of ["areaMm2", "lengthMm", "massKg"] as const) {
          expect(total[figure]).toBeCloseTo(shells * one[figure], 3);
        }
      });
    }
  });

  test("leave out what is not cut, and stand in the order of the project's list", () => {
    expect(kit.totals.map((total) => total.material)).toEqual(["woven-600", "rib-strip", "core-sheet"]);
    expect(kitOf([zones[1]]).totals.map((total) => total.material)).toEqual(["woven-600"]);
    expect(kitOf([]).totals).toEqual([]);
  });
});

test("doubts name their zone", () => {
  expect(kit.doubts.map((doubt) => doubt.zone)).toEqual(["ribs", "stiffener", "pad"]);
});

test.each([0, -1, 1.5, Number.NaN])("%d shells are refused", (shells) => {
  expect(() => kitOf(zones, shells)).toThrow(RangeError);
});
