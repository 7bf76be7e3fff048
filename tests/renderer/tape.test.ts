import { test as property } from "@fast-check/vitest";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readLength } from "../../core/units/length.ts";
import { faceLoop } from "../../renderer/places/lay-up-floor/tape/face-loop.ts";
import { boxOf } from "../../renderer/places/lay-up-floor/tape/flat-lines.ts";
import { dragged, type Ground, gripAt, movedBy } from "../../renderer/places/lay-up-floor/tape/grips.ts";
import { faceAt, figureAt, type Placed } from "../../renderer/places/lay-up-floor/tape/things.ts";
import { figuresSeen, readOff, ticksOf } from "../../renderer/places/lay-up-floor/tape/ticks.ts";
import { panned, showing, wholeOf, zoomed } from "../../renderer/places/lay-up-floor/tape/window.ts";
import { outlineOf, stationOf } from "../../renderer/tools/rim-places.ts";
import { demoProject } from "../project/demo-files.ts";

const extent = { x0: 0, x1: 25_500, y0: -150, y1: 2400 };
const paper = { width: 1300, height: 140 };

test("the lines that bound a face are joined to one outline, whichever way each runs", () => {
  const line = (...pairs: number[]) => ({ id: "a|b", line: Float64Array.from(pairs) });
  const loop = faceLoop({
    bounds: [line(0, 0, 10, 0), line(0, 5, 0, 0), line(10, 0, 10, 5), line(0, 5, 10, 5)],
  });
  const corners = loop.filter((_, i) => i % 4 === 0 || i % 4 === 1);
  expect(corners).toEqual([0, 0, 10, 0, 10, 5, 0, 5]);
});

describe("the window on the tape", () => {
  test("shows the whole tape at first", () => {
    const whole = wholeOf(extent, paper);
    expect(whole.x).toBeLessThanOrEqual(0);
    expect(whole.x + paper.width / whole.scale).toBeGreaterThanOrEqual(extent.x1);
    expect(whole.y + paper.height / whole.scale).toBeGreaterThanOrEqual(extent.y1);
  });

  const steps = fc.array(
    fc.record({
      factor: fc.double({ min: 0.3, max: 3, noNaN: true }),
      dx: fc.integer({ min: -900, max: 900 }),
      dy: fc.integer({ min: -300, max: 300 }),
    }),
    { maxLength: 12 },
  );
  property.prop([steps])(
    "never loses the drawing, and never looks nearer than it may or at more than the whole",
    (moves) => {
      let window = wholeOf(extent, paper);
      for (const { factor, dx, dy } of moves) {
        window = panned(zoomed(window, factor, [400, 60], extent, paper), dx, dy, extent, paper);
        expect(window.scale).toBeGreaterThanOrEqual(wholeOf(extent, paper).scale * (1 - 1e-12));
        expect(window.scale).toBeLessThanOrEqual(4);
        expect(window.x).toBeLessThan(extent.x1);
        expect(window.x + paper.width / window.scale).toBeGreaterThan(extent.x0);
        expect(window.y).toBeLessThan(extent.y1);
        expect(window.y + paper.height / window.scale).toBeGreaterThan(extent.y0);
      }
    },
  );

  test("keeps the point under the pointer when it zooms", () => {
    const near = zoomed(wholeOf(extent, paper), 6, [650, 70], extent, paper);
    const nearer = zoomed(near, 2, [300, 50], extent, paper);
    expect(nearer.x + 300 / nearer.scale).toBeCloseTo(near.x + 300 / near.scale, 6);
    expect(nearer.y + 50 / nearer.scale).toBeCloseTo(near.y + 50 / near.scale, 6);
  });

  test("moves by as little as brings a point into sight", () => {
    const near = zoomed(wholeOf(extent, paper), 10, [650, 70], extent, paper);
    const there = showing(near, 20_000, 1000, extent, paper);
    expect((20_000 - there.x) * there.scale).toBeCloseTo(paper.width - 40, 6);
    expect(showing(there, 20_000, 1000, extent, paper)).toEqual(there);
  });
});

describe("the ticks of the tape", () => {
  test.each(["mm", "m", "in", "ft-in"] as const)(
    "in %s stand apart, and their figures read as their places",
    (style) => {
      for (const scale of [0.02, 0.05, 0.1, 0.4, 1.2, 4]) {
        const ticks = ticksOf(100, 100 + 1300 / scale, scale, style);
        expect(ticks.length).toBeGreaterThan(10);
        for (let i = 1; i < ticks.length; i++)
          expect((ticks[i].at - ticks[i - 1].at) * scale).toBeGreaterThan(6.9);
        const figured = ticks.filter(({ rank }) => rank === 2);
        expect(figured.length).toBeGreaterThan(0);
        for (const { at, label } of figured) {
          const read = readLength(label, "mm");
          expect(read).toMatchObject({ ok: true });
          if (read.ok) expect(read.value).toBeCloseTo(at, 1);
        }
        for (let i = 1; i < figured.length; i++)
          expect((figured[i].at - figured[i - 1].at) * scale).toBeGreaterThan(70);
      }
    },
  );

  test("have figures that never run into each other, nor off the paper, wherever the tape is drawn to", () => {
    for (const style of ["mm", "m", "in", "ft-in"] as const)
      for (let from = 0; from < 2000; from += 37) {
        const figured = ticksOf(from, from + 9000, 0.1, style)
          .filter(({ rank }) => rank === 2)
          .map(({ at, label }) => ({ label, x: (at - from) * 0.1, width: 6.8 * label.length }));
        const seen = figuresSeen(figured, 900);
        expect(seen.length).toBeGreaterThanOrEqual(figured.length - 2);
        seen.forEach(({ left, width, x }, i) => {
          expect(left).toBeGreaterThan(0);
          expect(left + width).toBeLessThan(900);
          // Over its own place still.
          expect(x).toBeGreaterThanOrEqual(left - 2);
          expect(x).toBeLessThanOrEqual(left + width + 2);
          if (i > 0) expect(left).toBeGreaterThan(seen[i - 1].left + seen[i - 1].width);
        });
      }
  });

  test("are read off as a floor worker says them", () => {
    expect(readOff(5421.7, "m")).toBe("5.42 m");
    expect(readOff(5421.7, "mm")).toBe("5422 mm");
    expect(readOff(5421.7, "ft-in")).toBe(`17' 9 1/2"`);
  });
});

const demo = demoProject("whimbrel-9");
const outline = outlineOf(demo.shell.outline)!;
const rightFrom = 1900 - 150 + 75 * Math.PI;

const placedAt = (zone: string, outline: number[], extra: Partial<Placed> = {}): Placed => ({
  zone,
  name: "",
  pattern: "ticks",
  upright: true,
  outline,
  line: [],
  edges: null,
  plies: [],
  box: boxOf(outline),
  shifts: [0],
  ...extra,
});

const rib = (zone: string, at: number) =>
  placedAt(zone, [at - 50, 60, at + 50, 60, at + 50, 1500, at - 50, 1500]);
const band = placedAt("foot", [0, 1200, 9000, 1200, 9000, 1800, 0, 1800], {
  pattern: "weave",
  line: [0, 1500, 9000, 1500],
  edges: [
    [0, 1190, 9000, 1190],
    [0, 1810, 9000, 1810],
  ],
});
const placed = [band, rib("rib-deep-right", 12_000), rib("ribs-right", 6000)];
const bareWall = {
  rimLengthMm: outline.chain.length,
  copingMm: 150,
  marks: [],
  runs: [],
  corners: [],
  foot: [],
  cove: [],
  fittings: [],
};
const ground: Ground = {
  project: demo,
  outline,
  lines: [],
  board: { wall: bareWall, face: null, placed, extent },
};

describe("what is under the pointer on the tape", () => {
  test("strips go before the cloth that they lie on; beside all of them there is nothing", () => {
    expect(figureAt(placed, 6000, 1400, 5)?.zone).toBe("ribs-right");
    expect(figureAt(placed, 6100, 1400, 5)?.zone).toBe("foot");
    expect(figureAt(placed, 6054, 800, 5)?.zone).toBe("ribs-right");
    expect(figureAt(placed, 6100, 800, 5)).toBeNull();
  });

  test("a figure past the shallow centre is found at both ends of the tape", () => {
    const seam = placedAt("seam", [-200, 0, 200, 0, 200, 500, -200, 500], { shifts: [0, 25_000] });
    expect(figureAt([seam], 100, 200, 0)?.zone).toBe("seam");
    expect(figureAt([seam], 24_900, 200, 0)?.zone).toBe("seam");
    expect(figureAt([seam], 24_700, 200, 0)).toBeNull();
  });

  test("the wall ends at its foot", () => {
    const points = new Float64Array(6);
    const wall = {
      ...bareWall,
      rimLengthMm: 25_000,
      foot: [
        { id: "wall|floor", face: "floor", feature: "", line: Float64Array.of(0, 1500, 9000, 1700), points },
        {
          id: "wall|ledge/top",
          face: "ledge/top",
          feature: "ledge",
          line: Float64Array.of(-2000, 300, 0, 300),
          points,
        },
      ],
    };
    expect(faceAt(wall, 4500, 1590)).toBe("wall");
    expect(faceAt(wall, 4500, 1610)).toBe("floor");
    expect(faceAt(wall, 24_000, 400)).toBe("ledge/top");
    expect(faceAt(wall, 24_000, -20)).toBe("coping/top");
  });
});

describe("what is got hold of on the tape", () => {
  const row = demo.layup.find(({ id }) => id === "ribs-right")!;
  const end = rightFrom + 0.33 * 8800;

  test("a rib slides, of a row the whole row", () => {
    expect(gripAt(ground, [], { along: 6000, down: 700 }, 10)).toEqual({ kind: "slide", zone: "ribs-right" });
    const moved = dragged(
      { kind: "slide", zone: row.id },
      row,
      ground,
      { along: 6000, down: 700 },
      { along: 6440, down: 700 },
      true,
    );
    if (moved.kind !== "rib-row" || row.kind !== "rib-row") throw new Error("No row.");
    expect(stationOf(outline, moved.from)! - stationOf(outline, row.from)!).toBeCloseTo(440, 1);
    expect(movedBy(row, moved, outline).along).toBeCloseTo(440, 1);
  });

  test("a slide stops at whole centimetres unless it is asked not to", () => {
    const at = { along: 6000, down: 700 };
    const moved = dragged({ kind: "slide", zone: row.id }, row, ground, at, { ...at, along: 6103 }, false);
    if (moved.kind !== "rib-row") throw new Error("No row.");
    expect(stationOf(outline, moved.from)! % 10).toBeCloseTo(0, 1);
  });

  test("the ends of a chosen row are got hold of before its ribs, of one not chosen never", () => {
    const at = { along: end + 3, down: 80 };
    expect(gripAt(ground, ["ribs-right"], at, 10)).toEqual({ kind: "end", zone: "ribs-right", end: "from" });
    expect(gripAt(ground, [], at, 10)).toBeNull();
    const longer = dragged(
      { kind: "end", zone: row.id, end: "from" },
      row,
      ground,
      at,
      { ...at, along: at.along - 880 },
      true,
    );
    if (longer.kind !== "rib-row" || row.kind !== "rib-row") throw new Error("No row.");
    expect(longer.from).toEqual({ run: "right", part: 0.23 });
    expect(longer.to).toEqual(row.to);
  });

  test("the edge of a chosen band changes its half width by as much as it is dragged", () => {
    const foot = demo.layup.find(({ id }) => id === "foot")!;
    const at = { along: 4000, down: 1193 };
    expect(gripAt(ground, ["foot"], at, 10)).toEqual({ kind: "edge", zone: "foot", side: 0 });
    const wider = dragged(
      { kind: "edge", zone: "foot", side: 0 },
      foot,
      ground,
      at,
      { along: 4100, down: 1143 },
      false,
    );
    expect(wider).toMatchObject({ halfWidths: [360, 310] });
    expect(movedBy(foot, wider, outline)).toEqual({ zone: wider, along: null });
    const lower = dragged(
      { kind: "edge", zone: "foot", side: 1 },
      foot,
      ground,
      { along: 1, down: 1810 },
      { along: 1, down: 1770 },
      false,
    );
    expect(lower).toMatchObject({ halfWidths: [310, 270] });
  });
});
