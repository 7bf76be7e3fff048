import type { SurfaceCurve } from "../../../core/surface/curve.ts";
import { bendsOf } from "./bends.ts";
import type { Draughtsman } from "./drawing.ts";

type Vector = readonly [number, number, number];

/** Size of a core strip, mm; its bevel, radians from the surface. */
export interface StripSize {
  readonly width: number;
  readonly thickness: number;
  readonly bevel: number;
}

/** Draws a core strip on its curve: a bar of its width and thickness that stands on the surface, bevelled at both ends. */
export function drawStrip(pen: Draughtsman, curve: SurfaceCurve, size: StripSize): void {
  const samples = curve.stations.length;
  if (samples < 2) return;
  const drawnIn = Math.min(size.thickness / Math.tan(size.bevel), 0.45 * curve.length);
  const bends = bendsOf(curve);
  const count = bends.length;
  const sections = bends.map((i) =>
    sectionAt(curve, i, size, i === 0 ? drawnIn : i === samples - 1 ? -drawnIn : 0),
  );
  const { stations } = curve;
  const half = size.width / 2;
  for (const [from, to, across] of [
    [2, 3, half],
    [1, 2, half + size.thickness],
    [3, 0, half + size.thickness],
  ] as const) {
    const normalOf = (s: Section) =>
      from === 2 ? s.normal : from === 1 ? s.side : (s.side.map((c) => -c) as unknown as Vector);
    let before: readonly [number, number] | null = null;
    sections.forEach((section, i) => {
      const n = normalOf(section);
      const along = stations[bends[i]];
      const a = pen.vertex(section.corners[from], n, along, across);
      const b = pen.vertex(section.corners[to], n, along, from === 2 ? -across : half);
      if (before) pen.quad(before[0], before[1], b, a);
      before = [a, b];
    });
  }
  for (const last of [false, true]) {
    const section = sections[last ? count - 1 : 0];
    const i = last ? samples - 1 : 0;
    const way = last ? 1 : -1;
    const n = tangentAt(curve, i).map((c) => way * c);
    const [a, b, c, d] = section.corners.map((p, k) => pen.vertex(p, n, 0, k < 2 ? 0 : size.thickness));
    pen.quad(a, b, c, d);
    for (let k = 0; k < 4; k++) pen.ink(section.corners[k], section.corners[(k + 1) % 4]);
  }
  for (let i = 1; i < count; i++)
    for (let k = 0; k < 4; k++) pen.ink(sections[i - 1].corners[k], sections[i].corners[k]);
}

interface Section {
  readonly normal: Vector;
  readonly side: Vector;
  /** Right foot, left foot, left top, right top. */
  readonly corners: readonly [Vector, Vector, Vector, Vector];
}

const tangentAt = ({ tangents: t }: SurfaceCurve, i: number): Vector => [
  t[3 * i],
  t[3 * i + 1],
  t[3 * i + 2],
];

function sectionAt(curve: SurfaceCurve, i: number, size: StripSize, drawnIn: number): Section {
  const { points: p, normals: n } = curve;
  const normal: Vector = [n[3 * i], n[3 * i + 1], n[3 * i + 2]];
  const along = tangentAt(curve, i);
  const side: Vector = [
    normal[1] * along[2] - normal[2] * along[1],
    normal[2] * along[0] - normal[0] * along[2],
    normal[0] * along[1] - normal[1] * along[0],
  ];
  const corner = (across: number, out: number): Vector => {
    const at = (k: 0 | 1 | 2) =>
      p[3 * i + k] + across * side[k] + out * normal[k] + (out > 0 ? drawnIn * along[k] : 0);
    return [at(0), at(1), at(2)];
  };
  const half = size.width / 2;
  const top = size.thickness;
  return {
    normal,
    side,
    corners: [corner(-half, 0), corner(half, 0), corner(half, top), corner(-half, top)],
  };
}
