import fc from "fast-check";
import { expect, test } from "vitest";
import { flipEdge, splitEdge } from "../../core/mesh/change-edges.ts";
import { collapseIfBetter } from "../../core/mesh/collapse.ts";
import {
  addVertex,
  aroundFrom,
  type Facets,
  joined,
  makeFacets,
  next,
  startOf,
  unplain,
} from "../../core/mesh/facets.ts";
import { pairEdges } from "../../core/mesh/pair-edges.ts";
import { partFans } from "../../core/mesh/part-fans.ts";
import { quarter } from "../../core/mesh/quarter.ts";
import { makeSeat } from "../../core/mesh/seat.ts";
import { spaceOf } from "../../core/mesh/space.ts";
import { notPlain } from "../../core/mesh/worklist.ts";
import { sphere } from "./fields.ts";

/** An octahedron on a sphere of 100 mm; without its last face it has an open boundary. */
function octahedron(open: boolean): Facets {
  const position = Float64Array.from([100, 0, 0, -100, 0, 0, 0, 100, 0, 0, -100, 0, 0, 0, 100, 0, 0, -100]);
  const corner = [0, 2, 4, 2, 1, 4, 1, 3, 4, 3, 0, 4, 2, 0, 5, 1, 2, 5, 3, 1, 5, 0, 3, 5];
  const facets = makeFacets(
    position,
    position.map((p) => p / 100),
    6,
    Int32Array.from(open ? corner.slice(0, -3) : corner),
  );
  return facets;
}

/** What holds in every net: twins match, every vertex knows a half-edge of its own, walks round it meet all its triangles. */
function faultsOf(m: Facets): string[] {
  const faults: string[] = [];
  const degree = new Int32Array(m.vertices);
  for (let h = 0; h < 3 * m.triangles; h++) {
    if (m.corner[h] < 0) continue;
    degree[m.corner[h]]++;
    if (m.corner[h] === m.corner[next(h)]) faults.push(`half-edge ${h} begins where it ends`);
    const g = m.twin[h];
    if (g < 0) continue;
    if (m.twin[g] !== h || m.corner[g] !== m.corner[next(h)] || m.corner[next(g)] !== m.corner[h])
      faults.push(`half-edges ${h} and ${g} are no twins`);
  }
  for (let v = 0; v < m.vertices; v++) {
    if (m.leaving[v] < 0) {
      if (degree[v] > 0) faults.push(`vertex ${v} knows none of its half-edges`);
      continue;
    }
    const start = startOf(m, v);
    let met = 0;
    let h = start;
    do {
      if (m.corner[h] !== v) faults.push(`the walk round vertex ${v} meets half-edge ${h}`);
      met++;
      h = aroundFrom(m, h);
    } while (h >= 0 && h !== start && met <= degree[v]);
    if (met !== degree[v]) faults.push(`the walk round vertex ${v} meets ${met} of ${degree[v]} triangles`);
  }
  return faults;
}

test("splits, turned diagonals, collapses and quartering keep the net whole", () => {
  const seat = makeSeat(spaceOf(sphere(100)));
  const step = fc.tuple(fc.constantFrom("split", "flip", "collapse", "quarter"), fc.nat());
  fc.assert(
    fc.property(fc.boolean(), fc.array(step, { maxLength: 40 }), (open, steps) => {
      let m = octahedron(open);
      let quarters = 0;
      for (const [what, pick] of steps) {
        const h = pick % (3 * m.triangles);
        if (m.corner[h] < 0) continue;
        if (what === "split") {
          const [a, b] = [m.corner[h], m.corner[next(h)]];
          const v = addVertex(m);
          for (let i = 0; i < 3; i++) {
            m.position[3 * v + i] = (m.position[3 * a + i] + m.position[3 * b + i]) / 2;
            m.normal[3 * v + i] = (m.normal[3 * a + i] + m.normal[3 * b + i]) / 2;
          }
          splitEdge(m, h, v);
        } else if (what === "flip") {
          const g = m.twin[h];
          if (g < 0) continue;
          const [c, d] = [m.corner[next(next(h))], m.corner[next(next(g))]];
          if (c !== d && !joined(m, c, d)) flipEdge(m, h);
        } else if (what === "collapse") {
          collapseIfBetter(m, h, 1000);
        } else if (quarters < 1 && !m.corner.subarray(0, 3 * m.triangles).includes(-1)) {
          quarters++;
          const before = m.triangles;
          m = quarter(m, seat, 100);
          expect(m.triangles).toBe(4 * before);
        }
        expect(faultsOf(m)).toEqual([]);
      }
      const live = m.corner.subarray(0, 3 * m.triangles).filter((v) => v >= 0).length / 3;
      if (!open)
        expect(m.twin.subarray(0, 3 * m.triangles).some((g, h) => g < 0 && m.corner[h] >= 0)).toBe(false);
      expect(live).toBeGreaterThan(open ? 0 : 3);
    }),
    { numRuns: 100 },
  );
});

test("the quarters of a flat triangle are plain if they are small enough, until they are changed", () => {
  const square = () =>
    makeFacets(
      Float64Array.from([0, 0, 0, 100, 0, 0, 100, 100, 0, 0, 100, 0]),
      Float64Array.from([0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 1]),
      4,
      Int32Array.from([0, 1, 2, 0, 2, 3]),
    );
  // Flat edges do not ask the field.
  const seat = makeSeat(spaceOf(sphere(100)));
  expect(notPlain(quarter(square(), seat, 70)).length).toBe(8);
  const m = quarter(square(), seat, 71);
  expect(notPlain(m).length).toBe(0);
  const inner = (t: number) => [3 * t, 3 * t + 1, 3 * t + 2].find((h) => m.twin[h] >= 0) as number;
  splitEdge(m, inner(0), addVertex(m));
  expect(notPlain(m).length).toBe(4);
  flipEdge(m, inner(7));
  expect(notPlain(m).length).toBe(6);
  const left = m.plain.indexOf(1);
  expect(left).toBeGreaterThanOrEqual(0);
  unplain(m, m.corner[3 * left]);
  expect(m.plain[left]).toBe(0);

  const bent = square();
  bent.normal.set([0.1, 0, Math.sqrt(0.99)], 3);
  expect(notPlain(quarter(bent, seat, 71)).length).toBeGreaterThanOrEqual(4);
});

test("edges of three triangles are paired while pairs last", () => {
  const twin = pairEdges([0, 1, 2, 1, 0, 3, 0, 1, 4], 5);
  expect([...twin].filter((g) => g >= 0).length).toBe(2);
});

test("two triangles that touch in a point only get a vertex there each", () => {
  const { position, normal } = octahedron(false);
  const m = makeFacets(position, normal, 6, Int32Array.from([0, 2, 4, 1, 3, 4]));
  expect(faultsOf(m)).not.toEqual([]);
  partFans(m);
  expect(faultsOf(m)).toEqual([]);
  expect(m.vertices).toBe(7);
  expect(m.position.slice(18, 21)).toEqual(m.position.slice(12, 15));
});
