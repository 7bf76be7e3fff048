import { describe, expect, test } from "vitest";
import { flatShape } from "../../core/layup/flat-shape.ts";
import type { LaidZone } from "../../core/layup/laid.ts";
import { layUp } from "../../core/layup/lay-up.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { SurfaceCurve } from "../../core/surface/curve.ts";
import { bendsOf, straightened } from "../../renderer/worker/drawing/bends.ts";
import { drawPlate } from "../../renderer/worker/drawing/draw-plate.ts";
import { drawStrip } from "../../renderer/worker/drawing/draw-strip.ts";
import { drawZone } from "../../renderer/worker/drawing/draw-zone.ts";
import { Draughtsman, type Drawing } from "../../renderer/worker/drawing/drawing.ts";
import { demoProject } from "../project/demo-files.ts";

type V = [number, number, number];

function* trianglesOf({ positions, triangles }: Drawing): Generator<[V, V, V]> {
  const at = (v: number): V => [positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]];
  for (let t = 0; t < triangles.length; t += 3)
    yield [at(triangles[t]), at(triangles[t + 1]), at(triangles[t + 2])];
}

const minus = (a: V, b: V): V => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: V, b: V): V => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: V, b: V) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const areaOf = (drawing: Drawing) =>
  [...trianglesOf(drawing)].reduce((sum, [a, b, c]) => {
    const n = cross(minus(b, a), minus(c, a));
    return sum + Math.sqrt(dot(n, n)) / 2;
  }, 0);

/** By the divergence theorem: positive when every triangle faces outwards. */
const volumeOf = (drawing: Drawing) =>
  [...trianglesOf(drawing)].reduce((sum, [a, b, c]) => sum + dot(a, cross(b, c)) / 6, 0);

/** A straight line along x on the plane z = 0, whose ground is above. */
function straight(length: number, count: number): SurfaceCurve {
  const along = Array.from({ length: count }, (_, i) => (length * i) / (count - 1));
  return {
    points: Float64Array.from(along.flatMap((x) => [x, 0, 0])),
    tangents: Float64Array.from(along.flatMap(() => [1, 0, 0])),
    normals: Float64Array.from(along.flatMap(() => [0, 0, 1])),
    stations: Float64Array.from(along),
    length,
    closed: false,
  };
}

/** A line that runs straight for `run` mm, over a quarter of a bend and straight on, in the plane y = 0; sampled every `step` mm or so. */
function overBend(run: number, radius: number, step: number): SurfaceCurve {
  const quarter = (radius * Math.PI) / 2;
  const length = 2 * run + quarter;
  const count = Math.round(length / step);
  const stations = Array.from({ length: count + 1 }, (_, i) => (i * length) / count);
  const turned = stations.map((s) => Math.min(Math.max((s - run) / radius, 0), Math.PI / 2));
  return {
    points: Float64Array.from(
      stations.flatMap((s, i) => {
        const a = turned[i];
        const onwards = Math.max(0, s - run - quarter);
        return [Math.min(s, run) + radius * Math.sin(a), 0, radius * (1 - Math.cos(a)) + onwards];
      }),
    ),
    tangents: Float64Array.from(turned.flatMap((a) => [Math.cos(a), 0, Math.sin(a)])),
    normals: Float64Array.from(turned.flatMap((a) => [-Math.sin(a), 0, Math.cos(a)])),
    stations: Float64Array.from(stations),
    length,
    closed: false,
  };
}

describe("drawings of zones", () => {
  test.each([30, 40, 60, 90])(
    "a straight strip with ends bevelled at %i° has its volume, but for the open foot",
    (deg) => {
      const [length, width, thickness] = [1200, 100, 20];
      const pen = new Draughtsman();
      drawStrip(pen, straight(length, 7), { width, thickness, bevel: (deg * Math.PI) / 180 });
      // The foot lies in z = 0 and so adds nothing: a trapezoid seen from the side.
      const drawnIn = thickness / Math.tan((deg * Math.PI) / 180);
      const volume = width * thickness * (length - drawnIn);
      expect(volumeOf(pen.finish("ticks")) / volume).toBeCloseTo(1, 6);
    },
  );

  test.each([150, 400, 1000])(
    "a strip over a bend of %i mm is drawn within half a millimetre, from few samples",
    (radius) => {
      const quarter = (radius * Math.PI) / 2;
      const curve = overBend(600, radius, 20);
      const bends = bendsOf(curve);
      expect([bends[0], bends.at(-1)]).toEqual([0, curve.stations.length - 1]);
      expect(bends.length).toBeLessThan(curve.stations.length / 2);
      // A chord's gap is ℓ²/8r: none may be longer than that of half a millimetre, at the bend and 50 mm above it.
      for (let i = 1; i < bends.length; i++) {
        const [from, to] = [curve.stations[bends[i - 1]], curve.stations[bends[i]]];
        const onBend = Math.min(to, 600 + quarter) - Math.max(from, 600);
        if (onBend > 0) expect(onBend ** 2 / (8 * radius)).toBeLessThan(0.5);
      }
    },
  );

  test.each([300, 2000])(
    "a round of %i mm is straightened to chords as long as their gap allows",
    (radius) => {
      const count = 600;
      const angle = (i: number) => (i * 2 * Math.PI) / (count - 1);
      const round = Float32Array.from({ length: 3 * count }, (_, at) => {
        const a = angle(Math.floor(at / 3));
        return [radius * Math.cos(a), radius * Math.sin(a), -700][at % 3];
      });
      const left = straightened(round, 1);
      const angles = Array.from({ length: left.length / 3 }, (_, i) =>
        Math.atan2(left[3 * i + 1], left[3 * i]),
      );
      expect([...left.subarray(0, 3), ...left.subarray(-3)]).toEqual([
        ...round.subarray(0, 3),
        ...round.subarray(-3),
      ]);
      // A chord over an angle of 2β has a gap of r(1 − cos β): at most 1 mm, and the angles are halved until that holds.
      const most = 2 * Math.acos(1 - 1 / radius);
      const steps = angles.slice(1).map((a, i) => (a - angles[i] + 2 * Math.PI) % (2 * Math.PI));
      expect(Math.max(...steps)).toBeLessThan(1.02 * most);
      expect(left.length / 3).toBeLessThan((2.2 * 2 * Math.PI) / most);
    },
  );

  test("a straight line that wavers is left with its ends alone, one of a single point as it is", () => {
    const line = Float32Array.from([0, 0, 0, 10, 0, 0.4, 400, 0, -0.3, 900, 0, 0.2, 1000, 0, 0]);
    expect([...straightened(line, 1)]).toEqual([0, 0, 0, 1000, 0, 0]);
    expect([...straightened(line.slice(0, 3), 1)]).toEqual([0, 0, 0]);
  });

  test("a plate has the volume of its shape and looks outwards all round", () => {
    const shape = flatShape([0, 0, 400, 0, 400, 100, 120, 100, 120, 300, 0, 300]);
    const pen = new Draughtsman();
    const stand = { origin: [50, -30, 200], x: [0, 1, 0], y: [0, 0, 1] } as const;
    drawPlate(pen, shape, stand, -10, 10);
    const drawing = pen.finish("hatch");
    expect(volumeOf(drawing) / (shape.areaMm2 * 20)).toBeCloseTo(1, 6);
    expect(areaOf(drawing)).toBeCloseTo(2 * shape.areaMm2 + 20 * (400 + 100 + 280 + 200 + 120 + 300), 1);
  });

  test("every zone of a demo is drawn with its own size", () => {
    const project = demoProject("dunlin-4");
    const built = buildShell(project.shell, project.shop.laidThickness);
    if (!built.ok) throw new Error("The demo cannot be built.");
    const { zones } = layUp(project, built.shell);
    expect(zones).not.toHaveLength(0);
    for (const zone of zones) {
      const drawing = drawZone(zone, project.shop);
      expect(drawing.positions.every(Number.isFinite), zone.id).toBe(true);
      expect(Math.max(...drawing.triangles), zone.id).toBeLessThan(drawing.positions.length / 3);
      expect(drawing.edges.length, zone.id).toBeGreaterThan(0);
      checkSize(zone, drawing);
    }
  });
});

function checkSize(zone: LaidZone, drawing: Drawing): void {
  if (zone.kind === "band" || zone.kind === "stroke") {
    // Chords of a few centimetres on a curved strip: a little under the true area.
    expect(areaOf(drawing) / zone.areaMm2, zone.id).toBeGreaterThan(0.985);
    expect(areaOf(drawing) / zone.areaMm2, zone.id).toBeLessThan(1.002);
  } else if (zone.kind === "pad" || zone.kind === "gussets") {
    const { material } = zone;
    const thickness = material.kind === "sheet" ? material.thickness : 0;
    // Thousandths of a millimetre are lost where a shape is cut into triangles.
    expect(volumeOf(drawing) / (zone.areaMm2 * thickness), zone.id).toBeCloseTo(1, 3);
  } else expect(volumeOf(drawing), zone.id).not.toBe(0);
}
