import { describe, expect, test } from "vitest";
import type { Marker } from "../../core/packing/order.ts";
import { type NumberedCut, numberedCuts, stretchesOf } from "../../core/sheets/marker-stretches.ts";
import { sampleLot, sampleModel } from "./sample-lot.ts";

const lot = sampleLot([sampleModel("Whimbrel 9", 6), sampleModel("Turnstone 7", 4)], "hand");
const markers = lot.markers.flatMap(({ plan }) => plan.markers);

type Box = readonly [left: number, low: number, right: number, high: number];

/** Makes the cuts one by one, as shears do: each must run from edge to edge of one of the parts that are left. */
function cutApart({ widthMm, lengthMm }: Marker, cuts: readonly NumberedCut[]): Box[] {
  let parts: Box[] = [[0, 0, lengthMm, widthMm]];
  const near = (a: number, b: number) => Math.abs(a - b) < 0.01;
  for (const { fromMm, toMm, number } of cuts) {
    const [ax, ay] = [Math.max(0, Math.min(fromMm[0], toMm[0])), Math.max(0, Math.min(fromMm[1], toMm[1]))];
    const [bx, by] = [Math.max(fromMm[0], toMm[0]), Math.min(widthMm, Math.max(fromMm[1], toMm[1]))];
    const i = parts.findIndex(([left, low, right, high]) =>
      ax === bx
        ? left < ax && ax < right && near(low, ay) && near(high, by)
        : low < ay && ay < high && near(left, ax) && near(right, bx),
    );
    if (i < 0) throw new Error(`cut ${number} runs through no part from edge to edge`);
    const [left, low, right, high] = parts[i];
    const halves: Box[] =
      ax === bx
        ? [
            [left, low, ax, high],
            [ax, low, right, high],
          ]
        : [
            [left, low, right, ay],
            [left, ay, right, high],
          ];
    parts = [...parts.slice(0, i), ...halves, ...parts.slice(i + 1)];
  }
  return parts;
}

describe("cuts in the order of the table", () => {
  test("all are there, each once, numbered from 1 on", () => {
    expect(markers.length).toBeGreaterThan(2);
    for (const marker of markers) {
      const cuts = numberedCuts(marker);
      expect(cuts.map(({ number }) => number)).toEqual(marker.cuts.map((_, i) => i + 1));
      const keys = (list: readonly { fromMm: readonly number[]; toMm: readonly number[] }[]) =>
        list.map(({ fromMm, toMm }) => [...fromMm, ...toMm].join()).sort();
      expect(keys(cuts)).toEqual(keys(marker.cuts));
    }
  });

  test("each runs from edge to edge of what is left, and in the end every piece lies in a part of its own", () => {
    for (const marker of markers) {
      const parts = cutApart(marker, numberedCuts(marker));
      const taken = marker.placements.map(({ outline }) => {
        const xs = Array.from(outline).filter((_, i) => i % 2 === 0);
        const ys = Array.from(outline).filter((_, i) => i % 2 === 1);
        return parts.findIndex(
          ([left, low, right, high]) =>
            left <= Math.min(...xs) &&
            low <= Math.min(...ys) &&
            right >= Math.max(...xs) &&
            high >= Math.max(...ys),
        );
      });
      expect(taken).not.toContain(-1);
      expect(new Set(taken).size).toBe(taken.length);
    }
  });
});

describe("stretches of a marker", () => {
  test("show every cut once and every piece's beginning once, whatever goes onto a page", () => {
    for (const marker of markers)
      for (const [most, rows] of [
        [5000, 30],
        [2600, 8],
        [900, 3],
      ]) {
        const lengthMm = Math.min(marker.lengthMm, marker.usedMm);
        const cuts = numberedCuts(marker);
        const stretches = stretchesOf({ ...marker, lengthMm }, cuts, most, rows);
        const shown = stretches.flatMap((stretch) => stretch.cuts.map(({ number }) => number));
        expect(shown.sort((a, b) => a - b)).toEqual(cuts.map(({ number }) => number));
        expect(stretches.flatMap(({ begun }) => begun).length).toBe(marker.placements.length);
        for (const { fromMm, toMm } of stretches) expect(toMm - fromMm).toBeLessThanOrEqual(most + 0.01);
        expect(stretches[0].fromMm).toBe(0);
        stretches.slice(1).forEach(({ fromMm }, i) => {
          expect(fromMm).toBe(stretches[i].toMm);
        });
        expect(stretches.at(-1)?.toMm).toBe(lengthMm);
      }
  });
});
