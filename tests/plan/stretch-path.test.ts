import { test as property } from "@fast-check/vitest";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildOutline } from "../../core/plan/build-outline.ts";
import { stretchPath } from "../../core/plan/stretch-path.ts";
import type { OutlineSpec } from "../../core/project/schema.ts";

type Path = Extract<OutlineSpec, { kind: "path" }>;
type Point = [number, number];

/** A convex polygon with its corners rounded, as a path. */
function rounded(corners: readonly Point[], radius: number): Path {
  const count = corners.length;
  const cut = corners.map((corner, i) => {
    const [before, after] = [corners[(i + count - 1) % count], corners[(i + 1) % count]];
    const way = (to: Point): Point => {
      const long = Math.hypot(to[0] - corner[0], to[1] - corner[1]);
      return [(to[0] - corner[0]) / long, (to[1] - corner[1]) / long];
    };
    const [back, on] = [way(before), way(after)];
    const turn = Math.PI - Math.acos(back[0] * on[0] + back[1] * on[1]);
    const off = radius * Math.tan(turn / 2);
    const point = (to: Point): Point => [corner[0] + off * to[0], corner[1] + off * to[1]];
    return { from: point(back), to: point(on), bulge: Math.tan(turn / 4) };
  });
  return {
    kind: "path",
    start: cut[0].from,
    segments: cut.flatMap(({ to, bulge }, i) => [
      { kind: "arc" as const, to, bulge },
      { kind: "line" as const, to: cut[(i + 1) % count].from },
    ]),
  };
}

const rectangle = (length: number, width: number, radius: number) =>
  rounded(
    [
      [0, 0],
      [length, 0],
      [length, width],
      [0, width],
    ],
    radius,
  );

function radiusOf(path: Path, at: number): number {
  const from = at === 0 ? path.start : path.segments[at - 1].to;
  const { to, ...segment } = path.segments[at];
  const bulge = segment.kind === "arc" ? segment.bulge : 0;
  const chord = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
}

function extent(path: Path) {
  const built = buildOutline(path);
  if (!built.ok) throw new Error(built.refusals.map(({ why }) => why).join(" "));
  return built.outline.extent;
}

/** An egg of four arcs: a blunt end, a pointed end and the flanks that touch both. */
function egg(): Path {
  // Circles of 1000 at (1000, 0) and 600 at (4400, 0) within flanks of 4000: centres by the triangle of the three radii.
  const [a, b, R, d] = [1000, 600, 4000, 3400];
  const x = (d * d + (R - a) ** 2 - (R - b) ** 2) / (2 * d);
  const y = Math.sqrt((R - a) ** 2 - x * x);
  const touch = (cx: number, r: number, sign: 1 | -1): Point => {
    const [ux, uy] = [cx - (1000 + x), sign * y];
    const long = Math.hypot(ux, uy);
    return [cx + (r * ux) / long, (r * uy) / long];
  };
  const [la, lb, ra, rb] = [touch(1000, a, 1), touch(4400, b, 1), touch(1000, a, -1), touch(4400, b, -1)];
  const bulge = (from: Point, to: Point, r: number, large: boolean) => {
    const half = Math.asin(Math.hypot(to[0] - from[0], to[1] - from[1]) / (2 * r));
    return Math.tan((large ? Math.PI - half : half) / 2);
  };
  const arc = (from: Point, to: Point, r: number, large = false) => ({
    kind: "arc" as const,
    to,
    bulge: bulge(from, to, r, large),
  });
  return {
    kind: "path",
    start: ra,
    segments: [arc(ra, rb, R), arc(rb, lb, b, lb[0] < 4400), arc(lb, la, R), arc(la, ra, a, la[0] > 1000)],
  };
}

describe("a stretched path", () => {
  test.each([
    [1.3, 0.8],
    [0.7, 1.25],
    [1.15, 1],
  ])(
    "a rectangle with rounded corners, by %f and %f: its corners keep their radii, its sides stay straight",
    (along, across) => {
      const made = stretchPath(rectangle(6000, 3000, 300), along, across)!;
      for (const at of [0, 2, 4, 6]) expect(radiusOf(made, at)).toBeCloseTo(300, 1);
      // Closed form: all sides stay parallel to the axes, so that every corner still turns a quarter.
      for (const at of [0, 2, 4, 6])
        expect(made.segments[at]).toMatchObject({ bulge: expect.closeTo(Math.tan(Math.PI / 8), 6) });
      // Joints of fixed corners cannot go all the way with the stretch: by so much the size is off, and is put right by whoever asked.
      expect(Math.abs(extent(made).length - 6000 * along)).toBeLessThan(300 * Math.abs(1 - along) + 0.1);
      expect(Math.abs(extent(made).width - 3000 * across)).toBeLessThan(300 * Math.abs(1 - across) + 0.1);
    },
  );

  test("a stadium stays one: half circles as wide as it is", () => {
    const stadium: Path = {
      kind: "path",
      start: [1500, 0],
      segments: [
        { kind: "line", to: [4500, 0] },
        { kind: "arc", to: [4500, 3000], bulge: 1 },
        { kind: "line", to: [1500, 3000] },
        { kind: "arc", to: [1500, 0], bulge: 1 },
      ],
    };
    const made = stretchPath(stadium, 1.1, 1.2)!;
    for (const at of [1, 3]) expect(made.segments[at]).toMatchObject({ bulge: expect.closeTo(1, 6) });
    expect(radiusOf(made, 1)).toBeCloseTo(extent(made).width / 2, 1);
  });

  test("stretched evenly a path of arcs is its own picture, every arc by the same factor", () => {
    const made = stretchPath(egg(), 1.25, 1.25)!;
    [4000, 600, 4000, 1000].forEach((radius, at) => {
      expect(radiusOf(made, at) / 1.25 / radius).toBeCloseTo(1, 4);
    });
  });

  test("unevenly its arcs stay arcs, each leaving the one before smoothly, and both sides alike", () => {
    for (const [along, across] of [
      [1.2, 1],
      [1, 1.15],
      [0.85, 1.1],
    ]) {
      const made = stretchPath(egg(), along, across)!;
      expect(made.segments.map(({ kind }) => kind)).toEqual(["arc", "arc", "arc", "arc"]);
      expect(radiusOf(made, 0)).toBeCloseTo(radiusOf(made, 2), 0);
      const size = extent(made);
      expect(Math.abs(size.length / (extent(egg()).length * along) - 1)).toBeLessThan(0.05);
      expect(Math.abs(size.width / (extent(egg()).width * across) - 1)).toBeLessThan(0.05);
    }
  });

  test("two half circles are a circle whatever is done to them; a rectangle as narrow as its corners is none", () => {
    const circle: Path = {
      kind: "path",
      start: [0, 0],
      segments: [
        { kind: "arc", to: [4000, 0], bulge: 1 },
        { kind: "arc", to: [0, 0], bulge: 1 },
      ],
    };
    const size = extent(stretchPath(circle, 1.2, 1)!);
    expect(size.length).toBeCloseTo(size.width, 0);
    expect(stretchPath(rectangle(6000, 3000, 800), 1, 0.2)).toBeNull();
  });

  property.prop([
    fc.array(fc.double({ min: 0.75, max: 1.25, noNaN: true }), { minLength: 5, maxLength: 9 }),
    fc.double({ min: 0.8, max: 1.3, noNaN: true }),
    fc.double({ min: 0.8, max: 1.3, noNaN: true }),
  ])(
    "lines stay lines and corners keep their radii on rounded polygons of any shape",
    (wobble, along, across) => {
      const corners = wobble.map((reach, i): Point => {
        const angle = (2 * Math.PI * i) / wobble.length;
        // On an ellipse, so that it is convex; unevenly spaced.
        const at = angle + (0.35 * (reach - 1) * 2 * Math.PI) / wobble.length;
        return [4000 + 4000 * Math.cos(at), 2000 * Math.sin(at)];
      });
      const path = rounded(corners, 150);
      const made = stretchPath(path, along, across);
      if (!made) throw new Error("It was not stretched.");
      expect(buildOutline(made).ok).toBe(true);
      made.segments.forEach((segment, at) => {
        expect(segment.kind).toBe(path.segments[at].kind);
        if (segment.kind === "arc") expect(Math.abs(radiusOf(made, at) - 150)).toBeLessThan(0.2);
      });
    },
  );
});
