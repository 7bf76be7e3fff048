import { expect, test } from "vitest";
import { cannotBeCut, rollWidthsOf } from "../../core/cutting/cannot-be-cut.ts";
import type { Piece } from "../../core/cutting/kit.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import { demoKit } from "./demo-kits.ts";

const square = [0, 0, 800, 0, 800, 800, 0, 800];

/** A piece of 800 g/m² that covers 1 m² of the surface. */
function pieceOf(name: string, outline: readonly number[], change: Partial<Piece> = {}): Piece {
  return {
    name,
    zone: name.split("/")[0],
    ply: 1,
    material: "woven-800",
    quantity: 1,
    lengthMm: 800,
    widthMm: 800,
    leftEdgeMm: 800,
    rightEdgeMm: 800,
    midMm: 800,
    corner: false,
    areaMm2: 1e6,
    flatAreaMm2: 640_000,
    glassKg: 0.512,
    fromMm: 0,
    toMm: 800,
    outline: Float64Array.from(outline),
    darts: [],
    notches: [],
    shear: { most: 0.1, mean: 0.05 },
    places: [],
    ...change,
  };
}

const rolls = new Map([["woven-800", 1270]]);

test("a piece without cloth is told with what its figures lack", () => {
  const [found] = cannotBeCut({ pieces: [pieceOf("foot/1a", square, { shear: null })] }, rolls);
  expect(found.zone).toBe("foot");
  // 0.36 m² are missing, of 0.8 kg each.
  expect(found.says).toMatch(
    /^foot\/1a: cloth folds on it .*, 0\.640 m² of cloth for 1\.000 m² of surface: 0\.29 kg of glass too little$/,
  );
  const more = pieceOf("foot/1b", square, { shear: null, areaMm2: 400_000 });
  expect(cannotBeCut({ pieces: [more] }, rolls)[0].says).toContain("0.19 kg of glass too much");
});

test("a piece that lies over itself is told, one that is only crooked is not", () => {
  const crooked = [0, 0, 800, 0, 800, 800, 400, 300, 0, 800];
  expect(cannotBeCut({ pieces: [pieceOf("foot/1a", crooked)] }, rolls)).toEqual([]);
  // Round one and a quarter times.
  const ring = Array.from({ length: 26 }, (_, i) => [(i * Math.PI) / 10, i] as const);
  const round = (radius: number) =>
    ring.map(([angle]) => [radius * Math.cos(angle), radius * Math.sin(angle)]);
  const over = [...round(700), ...round(400).reverse()].flat();
  expect(cannotBeCut({ pieces: [pieceOf("seat/1a", over)] }, rolls)).toEqual([
    {
      zone: "seat",
      says: "seat/1a: laid flat it lies over itself: it cannot be cut from one piece of cloth",
    },
  ]);
});

test("pieces wider than their roll are told together, and not where the roll is the lot's", () => {
  const pieces = [1200, 1271, 3090].map((widthMm, i) =>
    pieceOf(`foot/1${"abc"[i]}`, square, { widthMm, quantity: i + 1 }),
  );
  expect(cannotBeCut({ pieces }, rolls)).toEqual([
    {
      zone: "foot",
      says: "5 of its 6 pieces are wider than the roll of woven-800, 1270 mm: up to 3090 mm",
    },
  ]);
  expect(cannotBeCut({ pieces }, new Map())).toEqual([]);
});

test("of a demo all can be cut", { timeout: 60_000 }, () => {
  const { project, kit } = demoKit("dunlin-4");
  expect(rollWidthsOf(project.materials).size).toBeGreaterThan(0);
  expect(rollWidthsOf(defaultProject().materials).get("woven-800")).toBe(1270);
  expect(cannotBeCut(kit, rollWidthsOf(project.materials))).toEqual([]);
});
