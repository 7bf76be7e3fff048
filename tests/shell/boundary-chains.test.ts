import { describe, expect, it } from "vitest";
import { boundaryChains } from "../../core/shell/boundary-chains.ts";
import { chainGuess } from "../../core/shell/chain-guess.ts";
import { faceContests } from "../../core/shell/contests.ts";
import { joinLooseEnds } from "../../core/shell/join-chains.ts";
import { type LinePiece, withoutSlivers } from "../../core/shell/line-pieces.ts";
import { distinctNames } from "../../core/shell/transition-names.ts";
import type { SurfaceCurve } from "../../core/surface/curve.ts";

/** A flat lattice of n × n squares of 10 mm, each two triangles, seen from the ground below (normals down). */
function lattice(n: number, ownerAt: (x: number, y: number) => number) {
  const positions: number[] = [];
  const owner: number[] = [];
  const triangles: number[] = [];
  for (let j = 0; j <= n; j++)
    for (let i = 0; i <= n; i++) {
      positions.push(10 * i, 10 * j, 0);
      owner.push(ownerAt(i, j));
    }
  const at = (i: number, j: number) => j * (n + 1) + i;
  for (let j = 0; j < n; j++)
    for (let i = 0; i < n; i++) {
      triangles.push(at(i, j), at(i + 1, j + 1), at(i + 1, j), at(i, j), at(i, j + 1), at(i + 1, j + 1));
    }
  return {
    positions: Float64Array.from(positions),
    triangles: Uint32Array.from(triangles),
    owner: Uint16Array.from(owner),
  };
}

const kinds = (...list: ("wall" | "floor" | "tread" | "riser" | "coping" | "lip")[]) =>
  list.map((kind, i) => ({ id: `${kind}-${i}`, kind }));

describe("the contests of faces", () => {
  const faces = kinds("wall", "floor", "tread", "riser", "tread", "riser", "coping", "lip");
  const { list, table } = faceContests(faces);
  const between = (a: number, b: number) => list[table[a * faces.length + b]];

  it("set the wall against all the rest, whichever face it meets", () => {
    const foot = between(0, 1);
    expect(foot.round).toBe(0);
    expect(foot.sides).toEqual([["wall-0"], faces.slice(1).map((f) => f.id)]);
    for (let b = 2; b < 8; b++) expect(between(0, b)).toBe(foot);
    expect(between(5, 0)).toBe(foot);
  });

  it("set floor and blocks against each other as wholes, and last a tread against its riser", () => {
    expect(between(1, 3)).toEqual({ round: 1, sides: [["floor-1"], ["tread-2", "riser-3"]] });
    expect(between(1, 2)).toBe(between(1, 3));
    expect(between(4, 3)).toEqual({
      round: 1,
      sides: [
        ["tread-2", "riser-3"],
        ["tread-4", "riser-5"],
      ],
    });
    expect(between(4, 5)).toEqual({ round: 2, sides: [["tread-4"], ["riser-5"]] });
    expect(between(6, 7)).toEqual({ round: 2, sides: [["coping-6"], ["lip-7"]] });
    expect(table[3 * faces.length + 3]).toBe(-1);
  });
});

describe("boundaries on a mesh", () => {
  const { table } = faceContests(kinds("wall", "floor", "tread", "riser"));
  const chainsOf = (mesh: ReturnType<typeof lattice>) => boundaryChains(mesh, table, 4);

  it("run from border to border across a sheet, every crossing once", () => {
    const mesh = lattice(8, (i) => (i < 4 ? 0 : 1));
    const chains = chainsOf(mesh);
    expect(chains.length).toBe(1);
    const [chain] = chains;
    expect([chain.closed, chain.start, chain.end]).toEqual([false, -1, -1]);
    // Nine lattice lines and eight diagonals are crossed.
    expect(chain.edges.length / 2).toBe(17);
    expect(chain.between.length).toBe(16);
    for (let i = 0; i < chain.edges.length; i += 2) {
      expect(mesh.owner[chain.edges[i]]).toBe(0);
      expect(mesh.owner[chain.edges[i + 1]]).toBe(1);
    }
  });

  it("close round an island, with a triangle after every crossing", () => {
    const [chain] = chainsOf(lattice(8, (i, j) => (Math.hypot(i - 4, j - 4) < 2.5 ? 1 : 0)));
    expect(chain.closed).toBe(true);
    expect(chain.between.length).toBe(chain.edges.length / 2);
    expect(new Set(chain.between).size).toBe(chain.between.length);
  });

  it("go on past a junction that a later round decides, whose own line ends there", () => {
    // Wall above; below it the floor on the left, a tread on the right.
    const mesh = lattice(8, (i, j) => (j >= 4 ? 0 : i < 4 ? 1 : 2));
    const chains = chainsOf(mesh);
    expect(chains.map((c) => c.edges.length / 2).sort((a, b) => a - b)).toEqual([7, 17]);
    const stem = chains.find((c) => c.edges.length === 14)!;
    const ends = [stem.start, stem.end].sort((a, b) => a - b);
    expect(ends[0]).toBe(-1);
    const owners = Array.from(mesh.triangles.subarray(3 * ends[1], 3 * ends[1] + 3), (v) => mesh.owner[v]);
    expect(owners.sort()).toEqual([0, 1, 2]);
  });

  it("are turned so that the first face lies on the left, and begin where they cross the middle line", () => {
    const mesh = lattice(12, (i, j) => (Math.hypot(i - 6, j - 6) < 3.7 ? 1 : 0));
    const [found] = chainsOf(mesh);
    const { points, chain, startY, lengthMm } = chainGuess(mesh, found);
    expect(startY).toBeCloseTo(60, 6);
    expect(Math.abs(points[1] - 60)).toBeLessThan(6);
    expect(points[0]).toBeLessThan(60 - 25);
    expect(lengthMm).toBeGreaterThan(180);
    // Normals look down: left = normal × tangent, and the wall lies outside, so the loop runs counter-clockwise.
    let twice = 0;
    const count = points.length / 3;
    for (let i = 0; i < count; i++) {
      const j = (i + 1) % count;
      twice += points[3 * i] * points[3 * j + 1] - points[3 * j] * points[3 * i + 1];
    }
    expect(twice).toBeGreaterThan(0);
    const back = chainGuess(mesh, {
      ...found,
      edges: Int32Array.from(
        { length: 2 * count },
        (_, k) => found.edges[2 * (count - 1 - (k >> 1)) + (k & 1)],
      ),
      between: Int32Array.from({ length: count }, (_, k) => found.between[(2 * count - 2 - k) % count]),
    });
    expect(Array.from(back.points)).toEqual(Array.from(points));
    expect(Array.from(back.chain.between)).toEqual(Array.from(chain.between));
  });
});

describe("loose ends", () => {
  // Crossings 10 mm apart along x, each an edge across the line.
  const mesh = {
    positions: Float64Array.from({ length: 3 * 400 }, (_, k) => {
      const v = Math.floor(k / 3);
      return [10 * (v >> 1), v % 2 === 0 ? 1 : -1, 0][k % 3];
    }),
  };
  const chain = (contest: number, from: number, to: number) => ({
    contest,
    edges: Int32Array.from({ length: 2 * (to - from + 1) }, (_, k) => 2 * from + k),
    between: Int32Array.from({ length: to - from }, (_, k) => from + k),
    closed: false,
    start: 1000 + from,
    end: 1000 + to,
  });
  const loose = (c: ReturnType<typeof chain>, looseStart: boolean, looseEnd: boolean) => ({
    chain: c,
    looseStart,
    looseEnd,
  });

  it("of one contest are put together in order, and keep their outer ends", () => {
    const [a, b, c] = [chain(3, 0, 20), chain(3, 30, 60), chain(3, 65, 90)];
    const joined = joinLooseEnds(mesh, [loose(c, true, false), loose(a, false, true), loose(b, true, true)]);
    expect(joined.length).toBe(1);
    const { parts, whole } = joined[0];
    expect(parts).toEqual([a, b, c]);
    expect([whole.closed, whole.start, whole.end]).toEqual([false, 1000, 1090]);
    expect(whole.edges.length / 2).toBe(21 + 31 + 26);
    expect(whole.between.length).toBe(whole.edges.length / 2 - 1);
    expect(Array.from(whole.between).filter((t) => t < 0).length).toBe(2);
  });

  it("of other contests, far away, or at junctions stay as they are", () => {
    const [a, b] = [chain(3, 0, 20), chain(4, 25, 60)];
    const far = chain(3, 80, 120);
    const joined = joinLooseEnds(mesh, [
      loose(a, false, true),
      loose(b, true, true),
      loose(far, true, false),
    ]);
    expect(joined.map((j) => j.parts.length)).toEqual([1, 1, 1]);
    const near = chain(3, 22, 60);
    expect(joinLooseEnds(mesh, [loose(a, false, false), loose(near, true, true)]).length).toBe(2);
  });
});

describe("pieces of a line", () => {
  const piece = (right: number, from: number, to: number): LinePiece => ({ left: 0, right, from, to });

  it("that are slivers go, and what they parted grows together if it is the same", () => {
    const pieces = [
      piece(1, 0, 100),
      piece(2, 100, 102),
      piece(1, 102, 300),
      piece(3, 300, 301),
      piece(2, 301, 400),
    ];
    const { kept, slivers } = withoutSlivers(pieces, 5, false);
    expect(kept).toEqual([piece(1, 0, 300), piece(2, 301, 400)]);
    expect(slivers).toEqual([pieces[1], pieces[3]]);
  });

  it("grow together over the beginning of a closed line", () => {
    const pieces = [piece(1, 50, 100), piece(2, 100, 400), piece(1, 400, 448), piece(3, 448, 450)];
    const { kept } = withoutSlivers(pieces, 5, true);
    expect(kept).toEqual([piece(1, 0, 100), piece(2, 100, 400)]);
  });
});

describe("names that several lines ask for", () => {
  const from = (x: number, y: number): SurfaceCurve => ({
    points: Float64Array.of(x - 50, y, 0, x + 50, y, 0),
    tangents: Float64Array.of(1, 0, 0, 1, 0, 0),
    normals: Float64Array.of(0, 0, -1, 0, 0, -1),
    stations: Float64Array.of(0, 100),
    length: 100,
    closed: false,
  });
  const names = (...places: [string, number, number][]) =>
    distinctNames(places.map(([name, x, y]) => ({ name, curve: from(x, y) })));

  it("are numbered along x, and across where they are level", () => {
    expect(names(["a", 900, 0], ["a", 100, 500], ["b", 0, 0], ["a", 110, -500])).toEqual([
      "a#3",
      "a#2",
      "b",
      "a",
    ]);
  });

  it("stay when a symmetric pool's halves differ by rounding", () => {
    const one = names(["a", 100.0001, 500], ["a", 100, -500]);
    const two = names(["a", 100, 500], ["a", 100.0001, -500]);
    expect(one).toEqual(["a#2", "a"]);
    expect(two).toEqual(one);
  });
});
