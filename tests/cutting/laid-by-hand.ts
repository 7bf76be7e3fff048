/** Laid zones made by hand on a flat surface, where every length and area has a closed form; no shell and no lay-up is needed. */
import type { LaidBand, LaidGussets, LaidPad, LaidRibs, LaidStiffener } from "../../core/layup/laid.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import type { Material, ShopSpec, ZoneSpec } from "../../core/project/schema.ts";
import type { SurfaceCurve } from "../../core/surface/curve.ts";
import { layStrip, stripArea } from "../../core/surface/strip.ts";
import { plane } from "../surface/closed-fields.ts";

export const woven = materialOf("woven");
export const stripStock = materialOf("strip");
export const sheetStock = materialOf("sheet");

function materialOf<K extends Material["kind"]>(kind: K): Material & { kind: K } {
  const found = defaultProject().materials.find((material) => material.kind === kind);
  return found as Material & { kind: K };
}

export const usualShop: ShopSpec = defaultProject().shop;

/** One stretch of a flat line: `length` mm, turning left by `turn` rad over it. */
export interface Run {
  readonly length: number;
  readonly turn: number;
}

/** Sides and rounded corners of a rectangle, counter-clockwise, from the middle of its first side. */
export function roundedRectangle(length: number, width: number, radius: number): Run[] {
  const corner = { length: (Math.PI / 2) * radius, turn: Math.PI / 2 };
  const [long, short] = [length - 2 * radius, width - 2 * radius].map((side) => ({ length: side, turn: 0 }));
  const half = { length: long.length / 2, turn: 0 };
  return [half, corner, short, corner, long, corner, short, corner, half];
}

/** A flat line of straights and arcs on z = 0. */
export function flatCurve(runs: readonly Run[], closed: boolean): SurfaceCurve {
  const points: number[] = [];
  const tangents: number[] = [];
  const stations: number[] = [];
  let [x, y, heading, station] = [0, 0, 0, 0];
  const mark = () => {
    points.push(x, y, 0);
    tangents.push(Math.cos(heading), Math.sin(heading), 0);
    stations.push(station);
  };
  mark();
  for (const { length, turn } of runs) {
    const steps = Math.max(1, Math.ceil(Math.max(length / 100, Math.abs(turn) / 0.1)));
    for (let i = 0; i < steps; i++) {
      const half = turn / steps / 2;
      const chord = (length / steps) * (half === 0 ? 1 : Math.sin(half) / half);
      heading += half;
      x += chord * Math.cos(heading);
      y += chord * Math.sin(heading);
      heading += half;
      station += length / steps;
      mark();
    }
  }
  const samples = closed ? stations.length - 1 : stations.length;
  return {
    points: Float64Array.from(points.slice(0, 3 * samples)),
    tangents: Float64Array.from(tangents.slice(0, 3 * samples)),
    normals: Float64Array.from({ length: 3 * samples }, (_, i) => (i % 3 === 2 ? 1 : 0)),
    stations: Float64Array.from(stations.slice(0, samples)),
    length: station,
    closed,
  };
}

const laidBase = { tape: [], doubts: [] };
/** The zones are laid already: of what the file asked for, nothing is read any more. */
const specOf = (kind: string, id: string) => ({ kind, id }) as unknown as ZoneSpec;

export function bandOn(
  id: string,
  curve: SurfaceCurve,
  halfWidths: readonly [number, number],
  plies = 1,
  plyStep = usualShop.plyStep,
  stretch: { from: number; to: number } | null = null,
): LaidBand {
  const strip = layStrip(plane(), curve, stretch, halfWidths);
  const plyWidths = Array.from({ length: plies }, (_, ply): readonly [number, number] => [
    halfWidths[0] - ply * plyStep,
    halfWidths[1] - ply * plyStep,
  ]);
  return {
    ...laidBase,
    kind: "band",
    id,
    spec: specOf("band", id),
    material: woven,
    areaMm2: strip.areaMm2,
    lengthMm: strip.midLengthMm,
    plies,
    curve,
    strip,
    plyWidths,
    plyAreasMm2: plyWidths.map(([left, right]) => stripArea(strip, strip.from, strip.to, left, right)),
  };
}

export function ribsOf(
  id: string,
  cutLengths: readonly number[],
  curve = flatCurve([{ length: 1000, turn: 0 }], false),
): LaidRibs {
  const ribs = cutLengths.map((cutLengthMm, i) => ({
    name: `${i + 1}`,
    curve,
    surfaceLengthMm: curve.length,
    cutLengthMm,
    rimStationMm: 600 * i,
    topDownMm: 60,
    footDownMm: 60 + cutLengthMm,
    leastBendMm: Infinity,
  }));
  const lengthMm = cutLengths.reduce((sum, length) => sum + length, 0);
  const areaMm2 = lengthMm * stripStock.width;
  return {
    ...laidBase,
    kind: "rib-row",
    id,
    spec: specOf("rib-row", id),
    material: stripStock,
    areaMm2,
    lengthMm,
    plies: 1,
    tape: ribs.flatMap(({ name, topDownMm, footDownMm }, i) => [
      { what: `rib ${name}, top`, from: "deep-left", alongMm: 600 * i, downMm: topDownMm },
      { what: `rib ${name}, foot`, from: "deep-left", alongMm: 600 * i, downMm: footDownMm },
    ]),
    ribs,
  };
}

export function stiffenerOf(id: string, cutLengthMm: number): LaidStiffener {
  const curve = flatCurve([{ length: cutLengthMm, turn: 0 }], false);
  const areaMm2 = cutLengthMm * stripStock.width;
  const lengthMm = cutLengthMm;
  return {
    ...laidBase,
    kind: "stiffener",
    id,
    spec: specOf("stiffener", id),
    material: stripStock,
    areaMm2,
    lengthMm,
    plies: 1,
    tape: [
      { what: "start", from: "deep-left", alongMm: 250, downMm: null },
      { what: "end", from: "shallow-left", alongMm: -250, downMm: null },
    ],
    curve,
    cutLengthMm,
  };
}

export function gussetsOf(id: string, outlines: readonly (readonly number[])[]): LaidGussets {
  const gussets = outlines.map((outline, i) => ({
    name: `${i + 1}`,
    shape: shapeOf(outline),
    origin: [0, 0, 0] as const,
    xDirection: [1, 0, 0] as const,
    yDirection: [0, 0, 1] as const,
    alongMm: 500 * i,
  }));
  const areaMm2 = gussets.reduce((sum, { shape }) => sum + shape.areaMm2, 0);
  return {
    ...laidBase,
    kind: "gussets",
    id,
    spec: specOf("gussets", id),
    material: sheetStock,
    areaMm2,
    lengthMm: 0,
    plies: 1,
    gussets,
  };
}

export function padOf(id: string, outlines: readonly (readonly number[])[]): LaidPad {
  const shapes = outlines.map((outline) => ({ shape: shapeOf(outline), z: -300 }));
  const areaMm2 = shapes.reduce((sum, { shape }) => sum + shape.areaMm2, 0);
  return {
    ...laidBase,
    kind: "pad",
    id,
    spec: specOf("pad", id),
    material: sheetStock,
    areaMm2,
    lengthMm: 0,
    plies: 1,
    shapes,
  };
}

/** A polygon with its area by triangles from its first corner. */
export function shapeOf(outline: readonly number[]) {
  let areaMm2 = 0;
  for (let i = 2; i + 3 < outline.length; i += 2) {
    const [ax, ay] = [outline[i] - outline[0], outline[i + 1] - outline[1]];
    const [bx, by] = [outline[i + 2] - outline[0], outline[i + 3] - outline[1]];
    areaMm2 += (ax * by - ay * bx) / 2;
  }
  return { points: Float64Array.from(outline), areaMm2 };
}
