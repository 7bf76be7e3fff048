import { describe, expect, test } from "vitest";
import {
  EDGE_END,
  EDGE_START,
  NONE,
  patchCount,
  patchOf,
  troubledFace,
} from "../../core/mesh/cell-patches.ts";

const axisOf = (face: number) => face >> 1;
/** Corners of a face. */
const onFace = (face: number, corner: number) => ((corner >> axisOf(face)) & 1) === (face & 1);
const edgesOn = (face: number) =>
  [...Array(12).keys()].filter((e) => onFace(face, EDGE_START[e]) && onFace(face, EDGE_END[e]));
/** The same edge seen from the cell across the face. */
const across = (face: number, edge: number) => {
  const flip = 1 << axisOf(face);
  const [a, b] = [EDGE_START[edge] ^ flip, EDGE_END[edge] ^ flip];
  return [...Array(12).keys()].find(
    (e) => (EDGE_START[e] === a && EDGE_END[e] === b) || (EDGE_START[e] === b && EDGE_END[e] === a),
  ) as number;
};
const crossed = (config: number, e: number) =>
  ((config >> EDGE_START[e]) & 1) !== ((config >> EDGE_END[e]) & 1);

describe("the sheets in a cell", () => {
  test("patches cover exactly the crossed edges, and are as many as said", () => {
    for (let reading = 0; reading < 2; reading++)
      for (let config = 0; config < 256; config++) {
        const at = reading * 256 + config;
        const met = new Set<number>();
        for (let e = 0; e < 12; e++) {
          expect(patchOf[at * 12 + e] !== NONE).toBe(crossed(config, e));
          if (crossed(config, e)) met.add(patchOf[at * 12 + e]);
        }
        expect(met.size).toBe(patchCount[at]);
        for (const p of met) expect(p).toBeLessThan(patchCount[at]);
      }
  });

  test("two single corners at opposite ends are two sheets, a plane is one", () => {
    expect(patchCount[0b10000001]).toBe(2);
    expect(patchCount[0b00001111]).toBe(1);
    expect(patchCount[0]).toBe(0);
  });

  test("no two cells share more than one net edge across a face, however their corners lie", () => {
    let met = 0;
    for (let face = 0; face < 6; face++) {
      const flip = 1 << axisOf(face);
      const edges = edgesOn(face);
      for (let config = 0; config < 256; config++) {
        if (edges.filter((e) => crossed(config, e)).length < 4) continue;
        for (let other = 0; other < 256; other++) {
          // The neighbour's corners on the shared face are this cell's.
          let fits = true;
          for (let c = 0; c < 8; c++)
            if (onFace(face, c) && ((config >> c) & 1) !== ((other >> (c ^ flip)) & 1)) fits = false;
          if (!fits) continue;
          const bothTroubled = troubledFace[config] === face && troubledFace[other] === (face ^ 1);
          const mine = bothTroubled ? 256 + config : config;
          const yours = bothTroubled ? 256 + other : other;
          // Each crossed edge of the face joins a patch here to a patch there; each pair at most for one segment of two edges.
          const pairs = new Map<string, number>();
          for (const e of edges) {
            const key = `${patchOf[mine * 12 + e]} ${patchOf[yours * 12 + across(face, e)]}`;
            pairs.set(key, (pairs.get(key) ?? 0) + 1);
          }
          for (const count of pairs.values()) expect(count).toBeLessThanOrEqual(2);
          met++;
        }
      }
    }
    expect(met).toBeGreaterThan(1000);
  });

  test("the second reading changes the troubled face only", () => {
    for (let config = 0; config < 256; config++) {
      if (troubledFace[config] === NONE) continue;
      for (let face = 0; face < 6; face++) {
        if (face === troubledFace[config]) continue;
        expect(edgesOn(face).filter((e) => crossed(config, e)).length).toBeLessThan(4);
      }
    }
  });
});
