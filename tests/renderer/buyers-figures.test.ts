import { describe, expect, test } from "vitest";
import type { SheetPiece } from "../../core/cutting/kit.ts";
import type { ZoneSpec } from "../../core/project/schema.ts";
import { footLayers, layersInWords, presentKinds } from "../../renderer/places/showroom/buyers-figures.ts";

type Band = Extract<ZoneSpec, { kind: "band" }>;

const zoneOf = (spec: ZoneSpec, plies: number, lengthMm: number, allPliesMm2: number) => ({
  kind: spec.kind,
  spec,
  plies,
  lengthMm,
  allPliesMm2,
});
const band = (plies: number, stretch?: Band["stretch"], on = "foot") =>
  zoneOf(
    { kind: "band", id: "b", on, ...(stretch && { stretch }), halfWidths: [200, 200], plies, material: "w" },
    plies,
    20_000,
    8e6 * plies,
  );
const stiffener = zoneOf({ kind: "stiffener", id: "s", run: "side", margin: 0, material: "m" }, 1, 5000, 5e5);
const gussets = zoneOf(
  { kind: "gussets", id: "g", under: "ledge", pitch: 400, margin: 50, reach: 200, drop: 200, material: "m" },
  1,
  800,
  4e4,
);

describe("the layers where floor meets wall", () => {
  test("add up, band on band, and those on other lines do not count", () => {
    expect(footLayers([band(2), band(1), band(4, undefined, "wall|ledge/top")])).toEqual({
      least: 3,
      most: 3,
    });
    expect(layersInWords([band(2)])).toBe("2 all round");
  });

  test("are told apart where a band covers a part only", () => {
    expect(footLayers([band(2), band(1, { from: 0.2, to: 0.6 })])).toEqual({ least: 2, most: 3 });
    expect(layersInWords([band(2), band(1, { from: 0.2, to: 0.6 })])).toBe("2 all round, up to 3");
    expect(layersInWords([band(3, { from: 0.2, to: 0.6 })])).toBe("up to 3 in places");
    expect(layersInWords([])).toBe("none");
  });

  test("go round the start of the loop: two halves make a whole", () => {
    expect(footLayers([band(1, { from: 0.75, to: 0.25 }), band(1, { from: 0.25, to: 0.75 })])).toEqual({
      least: 1,
      most: 1,
    });
    expect(footLayers([band(1, { from: 0.9, to: 0.1 })])).toEqual({ least: 0, most: 1 });
  });
});

describe("the kinds of reinforcement", () => {
  test("are only those that are there, with what there is of each", () => {
    const web: SheetPiece = {
      name: "g/1",
      zone: "g",
      kind: "gusset",
      material: "m",
      quantity: 5,
      lengthMm: 200,
      widthMm: 200,
      areaMm2: 2e4,
      massKg: 0.1,
      outline: new Float64Array(6),
    };
    const zones = [stiffener, band(2), gussets];
    const sheets = [web, { ...web, kind: "pad" as const }];
    expect(presentKinds(zones, sheets, "mm")).toEqual([
      { kind: "bands", amount: "16.000 m²" },
      { kind: "gussets", amount: "5 webs" },
      { kind: "stiffeners", amount: "5.000 m" },
    ]);
    // 5000 mm = 16 ft 4.8504 in; 16 m² ÷ 0.09290304 m² a square foot.
    expect(presentKinds(zones, sheets, "ft-in").map(({ amount }) => amount)).toEqual([
      "172.22 ft²",
      "5 webs",
      `16' 4 7/8"`,
    ]);
    expect(presentKinds([], [], "mm")).toEqual([]);
  });
});
