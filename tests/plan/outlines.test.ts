import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildOutline } from "../../core/plan/build-outline.ts";
import { chainBounds } from "../../core/plan/chain-bounds.ts";
import { kinks } from "../../core/plan/make-chain.ts";
import { reflexCornerOfEll } from "../../core/plan/outlines/ell.ts";
import { pointAt } from "../../core/plan/point-at.ts";
import { signedArea } from "../../core/plan/signed-area.ts";
import type { OutlineSpec } from "../../core/project/schema.ts";
import { anyOutline, anySpec, built } from "./arbitrary-outlines.ts";

const ids = (spec: OutlineSpec) => built(spec).runs.map((run) => run.id);

describe("every outline", () => {
  test("is smooth, counter-clockwise, and lies in its box from x = 0, centred on y = 0", () => {
    fc.assert(
      fc.property(anyOutline, ({ chain, extent }) => {
        expect(kinks(chain, 1e-5)).toEqual([]);
        expect(signedArea(chain)).toBeGreaterThan(0);
        const box = chainBounds(chain);
        expect(box.minX).toBeCloseTo(0, 9);
        expect(box.minY + box.maxY).toBeCloseTo(0, 9);
        expect(box.maxX).toBeCloseTo(extent.length, 9);
        expect(box.maxY - box.minY).toBeCloseTo(extent.width, 9);
      }),
      { numRuns: 80 },
    );
  });

  test("begins on the centre line, where it is nearest the shallow end", () => {
    fc.assert(
      fc.property(anyOutline, ({ chain }) => {
        const start = pointAt(chain, 0);
        expect(start.y).toBeCloseTo(0, 9);
        for (let i = 1; i < 500; i++) {
          const a = pointAt(chain, ((i - 1) / 500) * chain.length);
          const b = pointAt(chain, (i / 500) * chain.length);
          if (i > 1 && a.y * b.y <= 0) expect(Math.max(a.x, b.x)).toBeGreaterThan(start.x - 1e-6);
        }
      }),
      { numRuns: 50 },
    );
  });

  test("is covered by its runs, each named once, end to start", () => {
    fc.assert(
      fc.property(anyOutline, ({ chain, runs }) => {
        expect(new Set(runs.map((run) => run.id)).size).toBe(runs.length);
        expect(runs.reduce((sum, run) => sum + run.length, 0)).toBeCloseTo(chain.length, 7);
        runs.forEach((run, i) => {
          const end = (run.from + run.length) % chain.length;
          const gap = Math.abs(end - runs[(i + 1) % runs.length].from);
          expect(Math.min(gap, chain.length - gap)).toBeLessThan(1e-7);
          expect(run.from).toBeGreaterThanOrEqual(0);
          expect(run.from).toBeLessThan(chain.length);
        });
      }),
      { numRuns: 80 },
    );
  });

  test("is built from nearly all realistic figures, and refused with a reason from the rest", () => {
    let asked = 0;
    let refusals = 0;
    fc.assert(
      fc.property(anySpec, (spec) => {
        const result = buildOutline(spec);
        asked++;
        if (result.ok) return;
        refusals++;
        for (const { path, why, wouldWork } of result.refusals) {
          expect(path).toMatch(/^shell\.outline\.[a-zA-Z]+(\[\d+\](\.to)?)?$/);
          expect(why.length).toBeGreaterThan(20);
          expect(wouldWork.length).toBeGreaterThan(10);
        }
      }),
      { numRuns: 400 },
    );
    expect(refusals / asked).toBeLessThan(0.15);
  });
});

describe("closed forms", () => {
  test("rectangle: L·W − (4 − π)r² and 2(L + W) − (8 − 2π)r", () => {
    const { chain } = built({ kind: "rectangle", length: 9100, width: 3800, cornerRadius: 150 });
    expect(signedArea(chain)).toBeCloseTo(9100 * 3800 - (4 - Math.PI) * 150 ** 2, 6);
    expect(chain.length).toBeCloseTo(2 * (9100 + 3800) - (8 - 2 * Math.PI) * 150, 9);
  });

  test("rectangle with four radii: each corner takes (1 − π/4)r²", () => {
    const radii = [150, 300, 450, 600] as [number, number, number, number];
    const { chain } = built({ kind: "rectangle", length: 8000, width: 3500, cornerRadius: radii });
    const cut = radii.reduce((sum, r) => sum + (1 - Math.PI / 4) * r * r, 0);
    expect(signedArea(chain)).toBeCloseTo(8000 * 3500 - cut, 6);
  });

  test("stadium: πW²/4 + (L − W)W and πW + 2(L − W); as long as wide, a circle", () => {
    const { chain } = built({ kind: "stadium", length: 7200, width: 3600 });
    expect(signedArea(chain)).toBeCloseTo((Math.PI * 3600 ** 2) / 4 + 3600 * 3600, 6);
    expect(chain.length).toBeCloseTo(Math.PI * 3600 + 2 * 3600, 9);
    const circle = built({ kind: "stadium", length: 4000, width: 4000 });
    expect(signedArea(circle.chain)).toBeCloseTo(Math.PI * 2000 ** 2, 6);
    expect(circle.chain.length).toBeCloseTo(Math.PI * 4000, 9);
  });

  test("round-ended: half circle, rectangle and two corners", () => {
    for (const roundEnd of ["shallow", "deep"] as const) {
      const { chain } = built({
        kind: "round-ended",
        length: 8000,
        width: 3600,
        roundEnd,
        cornerRadius: 300,
      });
      const area = (Math.PI * 1800 ** 2) / 2 + (8000 - 1800) * 3600 - 2 * (1 - Math.PI / 4) * 300 ** 2;
      expect(signedArea(chain)).toBeCloseTo(area, 6);
    }
  });

  test("L: the box without the cut, five corners and a reflex one, wherever the cut is", () => {
    for (const cutAt of ["shallow-right", "deep-right", "deep-left", "shallow-left"] as const) {
      const { chain } = built({
        kind: "ell",
        ...{ length: 11000, width: 5500, cutLength: 5000, cutWidth: 2400 },
        ...{ cutAt, cornerRadius: 400, reflexRadius: 300 },
      });
      const square = 1 - Math.PI / 4;
      const area = 11000 * 5500 - 5000 * 2400 - 5 * square * 400 ** 2 + square * 300 ** 2;
      expect(signedArea(chain)).toBeCloseTo(area, 6);
      expect(chain.length).toBeCloseTo(2 * (11000 + 5500) - (2 - Math.PI / 2) * (5 * 400 + 300), 8);
    }
  });

  test("regular hexagon with rounded corners", () => {
    const side = 2000;
    const points = Array.from({ length: 6 }, (_, i): [number, number] => {
      const angle = (i * Math.PI) / 3;
      return [side * Math.cos(angle), side * Math.sin(angle)];
    });
    const { chain } = built({ kind: "polygon", points, cornerRadius: 200 });
    // Each corner takes r²(tan(θ/2) − θ/2) for a turn θ of 60°.
    const corner = 200 ** 2 * (Math.tan(Math.PI / 6) - Math.PI / 6);
    expect(signedArea(chain)).toBeCloseTo(((3 * Math.sqrt(3)) / 2) * side ** 2 - 6 * corner, 6);
  });
});

describe("names of runs", () => {
  test("rectangle, stadium and round ends", () => {
    expect(ids({ kind: "rectangle", length: 9100, width: 3800, cornerRadius: 150 })).toEqual([
      ...["shallow", "shallow-right", "right", "deep-right", "deep", "deep-left", "left", "shallow-left"],
    ]);
    expect(ids({ kind: "stadium", length: 8000, width: 3500 })).toEqual(["shallow", "right", "deep", "left"]);
    const ended = { kind: "round-ended", length: 8000, width: 3500, cornerRadius: 300 } as const;
    expect(ids({ ...ended, roundEnd: "deep" })).toEqual([
      ...["shallow", "shallow-right", "right", "deep", "left", "shallow-left"],
    ]);
    expect(ids({ ...ended, roundEnd: "shallow" })).toEqual([
      "shallow",
      "right",
      "deep-right",
      "deep",
      "deep-left",
      "left",
    ]);
  });

  test("stand where they say: right is y < 0, deep is large x, and the shallow side goes past station 0", () => {
    const { chain, runs } = built({ kind: "rectangle", length: 9100, width: 3800, cornerRadius: 150 });
    const middle = (id: string) => {
      const run = runs.find((one) => one.id === id)!;
      return pointAt(chain, run.from + run.length / 2);
    };
    expect(middle("right").y).toBeCloseTo(-1900, 9);
    expect(middle("left").y).toBeCloseTo(1900, 9);
    expect(middle("deep").x).toBeCloseTo(9100, 9);
    expect(middle("shallow-right").x).toBeCloseTo(150 - 150 * Math.SQRT1_2, 9);
    const shallow = runs[0];
    expect(shallow).toMatchObject({ id: "shallow", kind: "straight" });
    expect(shallow.from).toBeCloseTo(chain.length - 1750, 9);
    expect(shallow.length).toBeCloseTo(3500, 9);
  });

  test("a side that its corners use up is no run", () => {
    const spec = { kind: "rectangle", length: 9000, width: 3000, cornerRadius: 1500 } as const;
    expect(ids(spec)).toEqual(["shallow-right", "right", "deep-right", "deep-left", "left", "shallow-left"]);
    expect(kinks(built(spec).chain, 1e-12)).toEqual([]);
  });

  test.each(["shallow-right", "deep-right", "deep-left", "shallow-left"] as const)("L cut at %s", (cutAt) => {
    const spec = {
      kind: "ell",
      ...{ length: 11000, width: 5500, cutLength: 5000, cutWidth: 2000 },
      ...{ cutAt, cornerRadius: 400, reflexRadius: 300 },
    } as const;
    const { chain, runs } = built(spec);
    expect(runs.map((run) => run.id).sort()).toEqual(
      [1, 2, 3, 4, 5, 6].flatMap((i) => [`corner-${i}`, `side-${i}`]).sort(),
    );
    // Corner 1 is the first met from station 0, and side i leaves corner i.
    expect(runs.find((run) => run.id.startsWith("corner"))?.id).toBe("corner-1");
    runs.forEach(({ id }, i) => {
      if (id.startsWith("corner")) expect(runs[(i + 1) % runs.length].id).toBe(id.replace("corner", "side"));
    });
    const turnsOut = runs.filter((run) => pointAt(chain, run.from + run.length / 2).curvature < 0);
    expect(turnsOut.map((run) => run.id)).toEqual([reflexCornerOfEll(spec)]);
  });

  test("an L keeps its numbers when the cut grows past the centre line", () => {
    const runAtDeepRight = (cutWidth: number) => {
      const spec = { kind: "ell", length: 11000, width: 5500, cutLength: 5000, cutWidth } as const;
      const { chain, runs } = built({
        ...spec,
        cutAt: "shallow-right",
        cornerRadius: 300,
        reflexRadius: 300,
      });
      return runs.find((run) => {
        const p = pointAt(chain, run.from + run.length / 2);
        return p.curvature > 0 && p.x > 10000 && p.y < -2000;
      })?.id;
    };
    expect([2000, 2750, 3500].map(runAtDeepRight)).toEqual(["corner-4", "corner-4", "corner-4"]);
  });

  test("a polygon, a freeform and a path keep the user's order, clockwise too", () => {
    const points: [number, number][] = [
      [0, 0],
      [0, 3000],
      [8000, 4000],
      [8000, 0],
    ];
    const centre = (spec: OutlineSpec, id: string) => {
      const result = buildOutline(spec);
      if (!result.ok) throw new Error("refused");
      const run = result.outline.runs.find((one) => one.id === id)!;
      const p = pointAt(result.outline.chain, run.from + run.length / 2);
      return [p.x - result.moved.x, p.y - result.moved.y];
    };
    const radii = [100, 200, 300, 400];
    const side = centre({ kind: "polygon", points, cornerRadius: radii }, "side-4");
    expect(side[1]).toBeCloseTo(0, 9);
    const corner = centre({ kind: "polygon", points, cornerRadius: radii }, "corner-3");
    expect(Math.hypot(corner[0] - 8000, corner[1] - 4000)).toBeLessThan(200);
    const oval: OutlineSpec = {
      kind: "freeform",
      points: [
        [0, 1500],
        [2000, 3200],
        [6000, 3200],
        [8000, 1500],
        [6000, 0],
        [2000, 0],
      ],
    };
    expect(centre(oval, "span-2")[0]).toBeCloseTo(4000, 0);
    expect(centre(oval, "span-2")[1]).toBeGreaterThan(3200);
    expect(ids(oval).sort()).toEqual([1, 2, 3, 4, 5, 6].map((i) => `span-${i}`));
    const path: OutlineSpec = {
      kind: "path",
      start: [0, 0],
      segments: [
        { kind: "arc", to: [0, 3000], bulge: -1 },
        { kind: "line", to: [6000, 3000] },
        { kind: "arc", to: [6000, 0], bulge: -1 },
        { kind: "line", to: [0, 0] },
      ],
    };
    expect(ids(path)).toEqual(["segment-1", "segment-4", "segment-3", "segment-2"]);
    expect(centre(path, "segment-4")).toEqual([3000, 0]);
  });

  test("a point where the sides do not turn has no corner", () => {
    const points: [number, number][] = [
      [0, 0],
      [4000, 0],
      [8000, 0],
      [8000, 3000],
      [0, 3000],
    ];
    const names = ids({ kind: "polygon", points, cornerRadius: 300 });
    expect(names).toContain("side-2");
    expect(names).not.toContain("corner-2");
  });
});
