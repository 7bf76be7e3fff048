import { describe, expect, it } from "vitest";
import type { Face } from "../../core/shell/shell.ts";
import { findTransitions, type Transition } from "../../core/shell/transitions.ts";
import { contestBetween, contestValue } from "../../core/surface/contest.ts";
import { type Field, offsetField } from "../../core/surface/field.ts";
import { boxPool, roundPool, stepPool } from "../surface/pool-fields.ts";
import { plainMesh } from "./plain-mesh.ts";

const face = (id: string, kind: Face["kind"], feature = ""): Face => ({ id, kind, feature });
const wallAndFloor = [face("wall", "wall"), face("floor", "floor")];
const withSteps = [
  ...wallAndFloor,
  face("steps/tread-1", "tread", "steps"),
  face("steps/riser-1", "riser", "steps"),
];
const box = (x: number, y: number, top: number, bottom: number) => ({
  min: [-40, -y, bottom] as const,
  max: [x, y, top] as const,
});
/** A field cut off at a height, so that a pool without a coping has a rim. */
const cutAt = (field: Field, height: number): Field => ({
  ...field,
  get gradient() {
    return field.gradient;
  },
  edge: { gradient: Float64Array.of(0, 0, 1), evaluate: (_x, _y, z) => z - height },
});

const radii = { cove: 150, step: 60, nose: 30 };
const steps = () => cutAt(stepPool(4000, 3000, 1200, 400, radii, 900, 500), -100);
const stepBounds = box(4040, 1540, -60, -1260);
const inset = (radius: number) => radius * (1 - Math.SQRT1_2);

function byId(transitions: readonly Transition[], id: string): Transition {
  const found = transitions.find((t) => t.id === id);
  if (!found) throw new Error(`no ${id} among ${transitions.map((t) => t.id).join(", ")}`);
  return found;
}

describe("the transitions of a box basin", () => {
  it("are its foot, counter-clockwise from the shallow end, and one stretch, of the closed form's length", () => {
    for (const [corner, cove, cell, t] of [
      [600, 200, 80, 0],
      [300, 200, 60, 6],
      [200, 60, 47, 0],
    ]) {
      const field = cutAt(boxPool(4000, 3000, 1200, corner, cove), -100);
      const mesh = plainMesh(field, cell, stepBounds);
      const { transitions, slivers } = findTransitions({ field, faces: wallAndFloor }, mesh, t);
      expect(transitions.map((x) => x.id)).toEqual(["foot", "wall|floor"]);
      expect(slivers).toEqual([]);
      const exact = 2 * (4000 + 3000 - 4 * corner) + 2 * Math.PI * (corner - inset(cove) + t * Math.SQRT1_2);
      for (const x of transitions) {
        expect(x.exact).toBe(true);
        expect(x.closed).toBe(true);
        expect(Math.abs(x.lengthMm - exact)).toBeLessThan(0.01);
        expect(x.lengthMm).toBe(x.curve.length);
      }
      const [x, y, , , dy] = transitions[0].curve.points;
      expect(x).toBeCloseTo(inset(cove) - t * Math.SQRT1_2, 6);
      expect(y).toBeCloseTo(0, 7);
      expect(dy).toBeLessThan(0);
    }
  });

  it("is found from a mesh of any fineness, the same to a micron", () => {
    const field = cutAt(boxPool(4000, 3000, 1200, 350, 150), -100);
    const lengths = [45, 70, 110].map(
      (cell) =>
        findTransitions({ field, faces: wallAndFloor }, plainMesh(field, cell, stepBounds)).transitions[0]
          .lengthMm,
    );
    for (const length of lengths) expect(Math.abs(length - lengths[0])).toBeLessThan(2e-3);
  });

  it("is followed over holes of the mesh", () => {
    const field = cutAt(boxPool(4000, 3000, 1200, 350, 150), -100);
    const mesh = plainMesh(field, 60, stepBounds);
    const whole = findTransitions({ field, faces: wallAndFloor }, mesh).transitions[0];
    const kept: number[] = [];
    for (let t = 0; t < mesh.triangles.length; t += 3) {
      const corners = Array.from(mesh.triangles.subarray(t, t + 3));
      const inHole = (v: number) => {
        const [x, y] = mesh.positions.subarray(3 * v, 3 * v + 3);
        return Math.hypot(x - 2000, y + 1500) < 200 || Math.hypot(x - 3900, y - 1400) < 90;
      };
      if (!corners.some(inHole)) kept.push(...corners);
    }
    expect(kept.length).toBeLessThan(mesh.triangles.length - 150);
    const [foot] = findTransitions(
      { field, faces: wallAndFloor },
      { ...mesh, triangles: Uint32Array.from(kept) },
    ).transitions;
    expect([foot.id, foot.closed, foot.reason]).toEqual(["foot", true, ""]);
    expect(Math.abs(foot.lengthMm - whole.lengthMm)).toBeLessThan(2e-3);
  });

  it("is a circle in a round pool, begun at its smallest x", () => {
    const field = cutAt(roundPool(1500, 1200, 200), -100);
    const mesh = plainMesh(field, 75, { min: [-1540, -1540, -1260], max: [1540, 1540, -60] });
    const [foot] = findTransitions({ field, faces: wallAndFloor }, mesh).transitions;
    expect(Math.abs(foot.lengthMm - 2 * Math.PI * (1500 - inset(200)))).toBeLessThan(1e-3);
    expect(foot.curve.points[0]).toBeCloseTo(-(1500 - inset(200)), 5);
  });

  it("is the corner line itself where there is no radius", () => {
    const field = cutAt(boxPool(4000, 3000, 1200, 350, 0), -100);
    const [foot] = findTransitions(
      { field, faces: wallAndFloor },
      plainMesh(field, 60, stepBounds),
    ).transitions;
    expect(foot.reason).toBe("");
    expect(Math.abs(foot.lengthMm - (2 * (7000 - 1400) + 2 * Math.PI * 350))).toBeLessThan(0.1);
  });
});

describe("the transitions of a basin with a step", () => {
  const field = steps();
  const mesh = plainMesh(field, 55, stepBounds);
  const { transitions } = findTransitions({ field, faces: withSteps }, mesh);

  it("are named after their faces, and told apart where a pair meets twice", () => {
    expect(transitions.map((t) => [t.id, t.kind])).toEqual([
      ["floor|steps/riser-1", "step"],
      ["foot", "foot"],
      ["steps/tread-1|steps/riser-1", "nose"],
      ["wall|floor", "stretch"],
      ["wall|steps/riser-1", "stretch"],
      ["wall|steps/riser-1#2", "stretch"],
      ["wall|steps/tread-1", "stretch"],
    ]);
    for (const t of transitions) expect([t.id, t.reason]).toEqual([t.id, ""]);
    // Level in x: the one on the right (negative y) comes first.
    expect(byId(transitions, "wall|steps/riser-1").curve.points[1]).toBeLessThan(0);
    expect(byId(transitions, "wall|steps/riser-1#2").curve.points[1]).toBeGreaterThan(0);
  });

  it("reach from wall to wall at the nose and at the step's foot, on any offset", () => {
    for (const t of [0, 6, 20]) {
      const found = findTransitions({ field, faces: withSteps }, mesh, t).transitions;
      // Straight between the walls' coves, then up each by an eighth of a turn, where the line meets the foot.
      const exact = 3000 - 2 * radii.cove + (Math.PI / 2) * (radii.cove + t);
      for (const id of ["steps/tread-1|steps/riser-1", "floor|steps/riser-1"]) {
        expect(Math.abs(byId(found, id).lengthMm - exact)).toBeLessThan(0.02);
      }
    }
  });

  it("meet in junctions: each line's end lies on the foot, and the stretches make up the foot and share its points", () => {
    const foot = byId(transitions, "foot");
    expect(foot.junctions.length).toBe(4);
    const keys = new Set<string>();
    for (let i = 0; i < foot.curve.points.length; i += 3)
      keys.add(foot.curve.points.subarray(i, i + 3).join(" "));
    let sum = 0;
    for (const t of transitions) {
      for (const j of t.junctions) {
        const off = Math.min(
          ...foot.junctions.map((f) => Math.hypot(...f.point.map((v, k) => v - j.point[k]))),
        );
        expect(off).toBeLessThan(1e-6);
      }
      if (t.kind === "foot") continue;
      expect(t.junctions.length).toBe(2);
      expect(t.junctions[0].station).toBeCloseTo(0, 6);
      expect(t.junctions[1].station).toBeCloseTo(t.lengthMm, 6);
      if (t.kind !== "stretch") continue;
      sum += t.lengthMm;
      for (let i = 0; i < t.curve.points.length; i += 3)
        expect(keys.has(t.curve.points.subarray(i, i + 3).join(" "))).toBe(true);
    }
    expect(sum).toBeCloseTo(foot.lengthMm, 6);
    const [right, left] = ["wall|steps/riser-1", "wall|steps/riser-1#2"].map(
      (id) => byId(transitions, id).lengthMm,
    );
    expect(Math.abs(right - left)).toBeLessThan(0.02);
  });

  it("have their first face on the left, all along", () => {
    for (const t of [...transitions, ...findTransitions({ field, faces: withSteps }, mesh, 8).transitions]) {
      const moved = offsetField(field, transitions.includes(t) ? 0 : 8);
      const contest = contestBetween(moved, ...t.sides);
      const { points, tangents, normals } = t.curve;
      for (let i = 0; i < points.length; i += 3) {
        const [x, y, z] = points.subarray(i, i + 3);
        expect(Math.abs(moved.evaluate(x, y, z))).toBeLessThan(1e-6);
        const [tx, ty, tz] = tangents.subarray(i, i + 3);
        const [nx, ny, nz] = normals.subarray(i, i + 3);
        const [lx, ly, lz] = [ny * tz - nz * ty, nz * tx - nx * tz, nx * ty - ny * tx];
        expect(contestValue(moved, contest, x + lx, y + ly, z + lz)).toBeGreaterThan(0);
        expect(contestValue(moved, contest, x - lx, y - ly, z - lz)).toBeLessThan(0);
      }
    }
  });

  it("keep their names and lengths when the mesh changes", () => {
    const other = findTransitions({ field, faces: withSteps }, plainMesh(field, 71, stepBounds)).transitions;
    expect(other.map((t) => t.id)).toEqual(transitions.map((t) => t.id));
    other.forEach((t, i) => {
      expect(Math.abs(t.lengthMm - transitions[i].lengthMm)).toBeLessThan(0.02);
    });
  });
});

describe("a boundary that has no exact line", () => {
  it("comes back as the mesh has it, with the reason", () => {
    const good = cutAt(boxPool(4000, 3000, 1200, 350, 150), -100);
    const mesh = plainMesh(good, 80, stepBounds);
    // Shares that say nothing: the wall and the floor have a half each, everywhere.
    const half = Float64Array.of(0.5, 0.5);
    const field: Field = {
      ...good,
      get gradient() {
        return good.gradient;
      },
      shares: () => half,
      within: () => field,
    };
    const { transitions } = findTransitions({ field, faces: wallAndFloor }, mesh);
    const foot = byId(transitions, "foot");
    expect(foot.exact).toBe(false);
    expect(foot.reason).not.toBe("");
    expect(foot.closed).toBe(true);
    expect(foot.lengthMm).toBeGreaterThan(12000);
  });
});
